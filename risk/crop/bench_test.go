package crop

import "testing"

// Loading all embedded crops with every check: part of each start.
func BenchmarkLoad(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := LoadFS(embedded); err != nil {
			b.Fatal(err)
		}
	}
}
