package figures

import "testing"

// BenchmarkWork is every figure of one complete gyle, with its uncertainty, its
// workings and what each input contributes, from an entry already read; -cpu 1 has
// it on one core.
func BenchmarkWork(b *testing.B) {
	for _, of := range []struct{ name, dir, gyle string }{
		{"byHand", byHand, "1"},
		{"demonstration", demo, "34"},
	} {
		b.Run(of.name, func(b *testing.B) {
			j := opened(b, of.dir)
			g, c := j.Find(of.gyle), contextOf(j, longAfter)
			b.ReportAllocs()
			for b.Loop() {
				if worked := Work(g, c); len(worked.Figures) < 30 {
					b.Fatalf("only %d figures", len(worked.Figures))
				}
			}
		})
	}
}
