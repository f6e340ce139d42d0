package crop

import "testing"

// Reading crops is part of each start: all with their evidence, their names, and one
// of them.
func BenchmarkLoad(b *testing.B) {
	for name, run := range map[string]func() error{
		"full":  func() error { _, err := LoadFS(embedded); return err },
		"names": func() error { _, err := openShelf(embedded); return err },
		"one": func() error {
			s, err := openShelf(embedded)
			if err == nil {
				s.Find("tomato")
			}
			return err
		},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := run(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
