package crop

import "testing"

// Reading all crops is part of each start: with all evidence and plain.
func BenchmarkLoad(b *testing.B) {
	for name, plain := range map[string]bool{"full": false, "plain": true} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := loadFS(embedded, plain); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
