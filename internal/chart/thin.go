package chart

import (
	"cmp"
	"math"
	"slices"
	"time"
)

// Point is one value at one moment, with the half-width of its interval (zero
// where none is known), in the unit that the chart's field names.
type Point struct {
	At        time.Time
	Value     float64
	PlusMinus float64
}

// dated tells a time that can be drawn: set, and in four digits.
func dated(t time.Time) bool { return !t.IsZero() && t.Year() >= 1 && t.Year() <= 9999 }

// mark is a point as drawn: seconds of Unix time, a finite value, and the
// interval in which it lies (low ≤ v ≤ high).
type mark struct{ t, v, low, high float64 }

// marks are the usable points in the order of time.
func marks(points []Point) []mark {
	kept := make([]mark, 0, len(points))
	for _, p := range points {
		if dated(p.At) && usable(p.Value) {
			pm := halfWidth(p.PlusMinus)
			kept = append(kept, mark{seconds(p.At), p.Value, p.Value - pm, p.Value + pm})
		}
	}
	sortByTime(kept)
	return kept
}

func sortByTime(all []mark) {
	slices.SortStableFunc(all, func(a, b mark) int { return cmp.Compare(a.t, b.t) })
}

func seconds(t time.Time) float64 { return float64(t.Unix()) + float64(t.Nanosecond())/1e9 }

// thinned keeps at most most marks (no fewer than four are kept), among them
// the first, the last, the highest and the lowest. The rest are chosen by
// largest-triangle-three-buckets: the marks between the first and the last
// are dealt into buckets of equal count, and from each the one is kept that
// makes the largest triangle with the mark kept before it and the mean of the
// bucket after it. (S. Steinarsson, Downsampling Time Series for Visual
// Representation, University of Iceland, 2013.) The method alone may lose the
// very highest or lowest mark, and to a brewer that is the one that matters.
func thinned(all []mark, most int) []mark {
	most = max(most, 4)
	if len(all) <= most {
		return all
	}
	kept := append(largestTriangles(all, most-2), extremes(all)...)
	slices.Sort(kept)
	kept = slices.Compact(kept)
	thin := make([]mark, len(kept))
	for i, k := range kept {
		thin[i] = all[k]
	}
	return thin
}

// extremes are the places of the first lowest and the first highest mark.
func extremes(all []mark) []int {
	low, high := 0, 0
	for i, m := range all {
		if m.v < all[low].v {
			low = i
		}
		if m.v > all[high].v {
			high = i
		}
	}
	return []int{low, high}
}

// largestTriangles chooses most marks (two at least) out of more, by place.
func largestTriangles(all []mark, most int) []int {
	last := len(all) - 1
	buckets := most - 2
	bound := func(i int) int { return 1 + i*(last-1)/buckets }
	kept := []int{0}
	for i := range buckets {
		from, to := bound(i), bound(i+1)
		next := mean(all[to:max(to+1, min(bound(i+2), last+1))])
		kept = append(kept, from+largest(all[kept[i]], all[from:to], next))
	}
	return append(kept, last)
}

// largest is the place in the bucket of the mark that spans most with a and c.
func largest(a mark, bucket []mark, c mark) int {
	best, area := 0, -1.0
	for i, b := range bucket {
		if s := math.Abs((a.t-c.t)*(b.v-a.v) - (a.t-b.t)*(c.v-a.v)); s > area {
			best, area = i, s
		}
	}
	return best
}

func mean(of []mark) mark {
	var sum mark
	for _, m := range of {
		sum.t += m.t - of[0].t
		sum.v += m.v
	}
	n := float64(len(of))
	return mark{t: of[0].t + sum.t/n, v: sum.v / n}
}
