package figures

import "testing"

// BenchmarkWork is every figure of one complete gyle, with its uncertainty,
// budget and working, from an entry already read.
func BenchmarkWork(b *testing.B) {
	for _, bench := range []struct{ name, dir, gyle string }{
		{"byHand", byHand, "1"},
		{"demonstration", demo, "34"},
	} {
		b.Run(bench.name, func(b *testing.B) {
			j := opened(b, bench.dir)
			g, c := j.Find(bench.gyle), contextOf(j, longAfter)
			b.ReportAllocs()
			for b.Loop() {
				s := Work(g, c)
				if len(s.Figures) < 30 {
					b.Fatalf("only %d figures", len(s.Figures))
				}
			}
		})
	}
}
