module dawnbrush

go 1.26

require (
	github.com/cenkalti/backoff/v5 v5.0.3 // indirect
	github.com/go-json-experiment/json v1.27.2 // indirect
	github.com/pelletier/go-toml/v2 v2.4.3 // indirect
	github.com/stretchr/testify v1.12.1 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
