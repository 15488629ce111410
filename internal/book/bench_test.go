package book

import (
	"fmt"
	"runtime"
	"testing"

	"gylebook/internal/figures"
	"gylebook/internal/rules"
)

// BenchmarkOpen opens generated journals; BenchmarkFiguresAlone is what of it
// is the figures' and findings' own work, done once, on one core.
func BenchmarkOpen(b *testing.B) {
	for _, n := range []int{100, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			j := read(b, brewedOften(n))
			b.ReportAllocs()
			for b.Loop() {
				Open(j, noon)
			}
		})
	}
}

func BenchmarkFiguresAlone(b *testing.B) {
	for _, n := range []int{100, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			j := read(b, brewedOften(n))
			b.ReportAllocs()
			for b.Loop() {
				for _, g := range j.Gyles {
					rules.Examine(figures.Work(g, figures.Context{Larder: j.Larder, Settings: j.Settings, Now: noon}))
				}
			}
		})
	}
}

// BenchmarkLink is everything but the figures and findings.
func BenchmarkLink(b *testing.B) {
	j := read(b, brewedOften(1000))
	book := Open(j, noon)
	b.ReportAllocs()
	for b.Loop() {
		book.Published()
	}
}

// BenchmarkHeld reports what an open book keeps in memory for each gyle.
func BenchmarkHeld(b *testing.B) {
	const n = 1000
	j := read(b, brewedOften(n))
	var before, after runtime.MemStats
	for b.Loop() {
		runtime.GC()
		runtime.ReadMemStats(&before)
		book := Open(j, noon)
		runtime.GC()
		runtime.ReadMemStats(&after)
		b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/n/1024, "KB/gyle")
		runtime.KeepAlive(book)
	}
}
