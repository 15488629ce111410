package chart

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func series(t *rapid.T) []mark {
	values := rapid.SliceOfN(rapid.Float64Range(-10, 10), 1, 400).Draw(t, "values")
	all := make([]mark, len(values))
	at := 0.0
	for i, v := range values {
		at += rapid.Float64Range(0, 5).Draw(t, "gap")
		all[i] = mark{t: at, v: v}
	}
	return all
}

func byValue(a, b mark) int {
	switch {
	case a.v < b.v:
		return -1
	case a.v > b.v:
		return 1
	}
	return 0
}

// TestThinnedKeepsWhatMatters: the ends, the extremes, the order, and no more
// than was asked for; and it invents nothing.
func TestThinnedKeepsWhatMatters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := series(t)
		most := rapid.IntRange(-1, 60).Draw(t, "most")
		kept := thinned(all, most)
		if len(kept) > max(most, 4) || len(all) <= most && len(kept) != len(all) {
			t.Fatalf("%d kept of %d, at most %d", len(kept), len(all), most)
		}
		if kept[0] != all[0] || kept[len(kept)-1] != all[len(all)-1] {
			t.Fatal("an end is lost")
		}
		if slices.MaxFunc(kept, byValue).v != slices.MaxFunc(all, byValue).v || slices.MinFunc(kept, byValue).v != slices.MinFunc(all, byValue).v {
			t.Fatal("an extreme is lost")
		}
		next := 0
		for _, m := range kept {
			at := slices.Index(all[next:], m)
			if at < 0 {
				t.Fatalf("%v was invented, or stands out of order", m)
			}
			next += at + 1
		}
	})
}

// TestThinnedSeesPeaks: a spike of one reading in ten thousand stays, even
// where a higher plateau takes the place of the maximum.
func TestThinnedSeesPeaks(t *testing.T) {
	all := make([]mark, 10_000)
	for i := range all {
		all[i] = mark{t: float64(i), v: 18}
		if i > 8000 {
			all[i].v = 21
		}
	}
	all[3210].v = 20.5
	if !slices.Contains(thinned(all, 120), all[3210]) {
		t.Error("the spike is lost")
	}
}

// TestNoPeakOfALongLogIsLost: a hundred thousand noisy rows of a fermentation, with
// spikes of foam here and there: every spike is drawn, and the drawing stays small.
func TestNoPeakOfALongLogIsLost(t *testing.T) {
	random := rand.New(rand.NewPCG(20260501, 1))
	in := FermentationInput{Frame: Frame{Prefix: "long"}}
	start := at(7, 14, 0)
	spikes := map[int]float64{}
	for i := range 16 {
		spikes[3000+i*6000+random.IntN(3000)] = 0.004 + 0.006*random.Float64()
	}
	for i := range 100_000 {
		hour := float64(i) / 600
		g := 1.010 + 0.035/(1+math.Exp(0.07*(hour-50))) + 0.0003*random.NormFloat64() + spikes[i]
		when := start.Add(time.Duration(6*i) * time.Second)
		in.Logged = append(in.Logged, Point{At: when, Value: g})
		in.Temperature = append(in.Temperature, Point{At: when, Value: 19 + 0.1*random.NormFloat64()})
	}
	kept := courseOf(in).logged
	for i := range spikes {
		if want := marks(in.Logged[i : i+1])[0]; !slices.Contains(kept, want) {
			t.Errorf("the spike of %.4f at row %d is lost", spikes[i], i)
		}
	}
	if svg := Fermentation(in); len(svg) >= mostBytes {
		t.Errorf("%d bytes", len(svg))
	}
}

// TestLargestTriangles works the method by hand on seven marks and two
// buckets: {1 2} and {3 4 5}. From mark 0 (0, 0) and the mean of the second
// bucket (4, 1), marks 1 and 2 make triangles of twice the area 19 and 2; from
// mark 1 (1, 5) and the last (6, 0), marks 3, 4 and 5 make 25, 20 and 10.
func TestLargestTriangles(t *testing.T) {
	values := []float64{0, 5, 1, -2, 6, -1, 0}
	var all []mark
	for i, v := range values {
		all = append(all, mark{t: float64(i), v: v})
	}
	if got, want := largestTriangles(all, 4), []int{0, 1, 3, 6}; !slices.Equal(got, want) {
		t.Errorf("kept %v, want %v", got, want)
	}
}

func TestMarksPassOverWhatCannotBeDrawn(t *testing.T) {
	got := marks([]Point{
		{at(9, 0, 0), 2, math.NaN()}, {at(8, 0, 0), 1, 0.5}, {time.Time{}, 3, 0}, {at(8, 0, 0), math.NaN(), 0},
		{at(8, 0, 0), math.Inf(-1), 0}, {at(8, 0, 0), 1e300, 0}, {time.Date(12000, 1, 1, 0, 0, 0, 0, time.UTC), 4, 0},
	})
	want := []mark{{seconds(at(8, 0, 0)), 1, 0.5, 1.5}, {seconds(at(9, 0, 0)), 2, 2, 2}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// TestLongSeriesStayLight draws as many points as a logger makes in a season.
func TestLongSeriesStayLight(t *testing.T) {
	svg := Fermentation(logger(100_000))
	if len(svg) >= mostBytes {
		t.Errorf("%d bytes", len(svg))
	}
	if _, err := readSVG(svg); err != nil {
		t.Error(err)
	}
}

func BenchmarkFermentation(b *testing.B) {
	for name, in := range map[string]FermentationInput{"mild": mild(), "100000": logger(100_000)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Fermentation(in)
			}
		})
	}
}
