package figures

import "testing"

// BenchmarkWork is every figure of one complete gyle, with its uncertainty and what
// each input contributes to it, from an entry already read; -cpu 1 has it on one
// core. BenchmarkExplained is the same with the numbers of every working.
func BenchmarkWork(b *testing.B) {
	forComplete(b, func(s *Sheet) *Sheet { return Work(s.Gyle, s.Context) })
}

func BenchmarkExplained(b *testing.B) {
	forComplete(b, (*Sheet).Explained)
}

func forComplete(b *testing.B, work func(*Sheet) *Sheet) {
	for _, bench := range []struct{ name, dir, gyle string }{
		{"byHand", byHand, "1"},
		{"demonstration", demo, "34"},
	} {
		b.Run(bench.name, func(b *testing.B) {
			j := opened(b, bench.dir)
			s := Work(j.Find(bench.gyle), contextOf(j, longAfter))
			b.ReportAllocs()
			for b.Loop() {
				if worked := work(s); len(worked.Figures) < 30 {
					b.Fatalf("only %d figures", len(worked.Figures))
				}
			}
		})
	}
}
