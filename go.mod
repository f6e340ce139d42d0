module dawnbrush

go 1.26

require github.com/stretchr/testify v1.12.1 // indirect
