package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/quantity"
	"gylebook/internal/site"
)

// The most and the least that a grist is scaled by: beyond them the aim or the
// yield is more likely wrong than the recipe. What changes by less than a
// hundredth is not worth weighing anew.
const (
	mostScale    = 1.5
	leastScale   = 1 / mostScale
	worthScaling = 0.01
)

// scaling is what the grist of a new gyle is to be multiplied by so that its aim
// is met at this brewer's own median yield, and the words that say so. It is 1
// where nothing is known to scale by.
func scaling(g *book.Gyle, after int) (by float64, says string) {
	past := g.Sheet.Past.Yield
	expected, ok := g.Sheet.First(figures.IDOGExpected)
	aim := g.Aim.OG
	switch {
	case len(g.Grist) == 0:
		return 1, ""
	case !past.Enough():
		return 1, fmt.Sprintf("As gyle %d had it. Once three gyles or more have taught a yield, a new grist is scaled to its aim.", after)
	case !ok || !aim.Written() || aim.Value <= 1 || expected.Value <= 1:
		return 1, fmt.Sprintf("As gyle %d had it: without an aim for volume and gravity there is nothing to scale it to.", after)
	}
	by = (float64(aim.Value) - 1) / (expected.Value - 1)
	value, within := quantity.Rounded(past.Median, 2*past.HalfWidth)
	yield := fmt.Sprintf("%s ± %s %%, the median of your last %d gyles", value, within, past.Gyles)
	if within == "" {
		yield = fmt.Sprintf("%s %%, the median of your last %d gyles", value, past.Gyles)
	}
	got, _ := expected.Rounded()
	would := fmt.Sprintf("At a brewhouse yield of %s, the grist of gyle %d gives %s where %s is aimed at", yield, after, got, quantity.Fixed(float64(aim.Value), 3))
	switch {
	case math.Abs(by-1) < worthScaling:
		return 1, would + ": as it was."
	case by > mostScale || by < leastScale:
		return 1, would + ": too far off to scale by, so look at the aim first. As it was."
	}
	return by, would + fmt.Sprintf(": every weight is multiplied by %s.", quantity.Fixed(by, 2))
}

// lessons are what the gyle before says of the next time: its own notes, and
// what its figures propose. Scaled says that the grist of the new one meets the
// aim already.
func lessons(b *book.Book, g *book.Gyle, scaled bool) []string {
	if g == nil {
		return nil
	}
	all := texts(g.Next)
	for _, p := range site.Report(b, g).Proposals {
		text := sentences(p.Gap, p.Cause, p.Change)
		if len(p.Sets) > 0 {
			text += " So " + strings.Join(p.Sets, "; ") + "."
			if scaled && strings.HasPrefix(p.Sets[0], "grist[") {
				text += " (The grist below is scaled to the aim already.)"
			}
		}
		all = append(all, strings.ReplaceAll(sentences(text, expected(p), p.Short, p.Know), "\u00a0", " "))
	}
	return all
}

// sentences puts sentences after one another.
func sentences(all ...string) string {
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), " ")
}
