package causes

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// What several causes ask of a gyle.

// needing is a sign for want of a reading.
func needing(key string) Sign { return Sign{Voice: Unknown, Needs: key} }

// lacking is a sign for want of a figure: it names what the sheet says would
// suffice for it, else a key that is usual.
func (x *exam) lacking(id, usual string) Sign {
	for _, m := range x.Missing {
		if m.Figure == id && len(m.Needs) > 0 {
			return needing(strings.Join(m.Needs, " and "))
		}
	}
	return needing(usual)
}

// number is a figure of a test's own, with the lines it rests on.
func number(value, plusMinus float64, unit string, from ...journal.Where) figures.Figure {
	return figures.Figure{Kind: &figures.Kind{Unit: unit}, Value: value, PlusMinus: plusMinus}.At(from...)
}

// pointsFrom is how many points a gravity lies above its aim, below nought for
// under it, and a clause that says both.
func (x *exam) pointsFrom(id, what string, aim journal.Value[q.Gravity]) (off figures.Figure, says string, lacking Sign) {
	f, ok := x.Find(id, "")
	switch {
	case !ok && id == "og":
		return f, "", x.lacking(id, "fermenter.gravity")
	case !ok:
		return f, "", x.lacking(id, "readings[].gravity")
	case !aim.Written():
		return f, "", needing("aim." + id)
	}
	off = assay.InPoints(f)
	off.Value -= aim.Value.Points()
	return off, fmt.Sprintf("the %s is %s, with %s aimed at", what, assay.Bare(f), aimedGravity(aim.Value)), silent
}

// aimedGravity prints an aim to the last place that was typed.
func aimedGravity(g q.Gravity) string {
	return strings.TrimSuffix(q.Fixed(g.SG(), 4), "0")
}

// needsGlass is what shows whether beer went on working after it was closed in.
const needsGlass = "readings[].gravity, of a degassed glass, with its package"

// less turns a difference round: how far under, instead of over.
func less(f figures.Figure) figures.Figure {
	f.Value = -f.Value
	return f
}

// attenuates is the range of the first yeast's card, in %, and where it stands.
func (x *exam) attenuates() (low, high float64, ok bool) {
	for _, p := range x.Gyle.Yeast {
		if card := x.Card("yeast", p.Yeast); card != nil && card.Yeast != nil && card.Yeast.Attenuates.Written() {
			a := card.Yeast.Attenuates
			return float64(a.Low), float64(a.High), true
		}
	}
	return 0, 0, false
}

// recipeWritten tells whether the entry lists grist, hops and yeast, so that what
// is not among its additions was likely not added.
func (x *exam) recipeWritten() bool {
	return len(x.Gyle.Grist) > 0 && len(x.Gyle.Hops) > 0 && len(x.Gyle.Yeast) > 0
}

// gristShare is what part of the grist's weight, in %, some of it makes up, and
// the names of those. It is not known where a weight is missing.
func (x *exam) gristShare(fits func(journal.Grain, *journal.Card) bool) (share figures.Figure, names []string, ok bool) {
	total, part := 0.0, 0.0
	var from []journal.Where
	for _, g := range x.Gyle.Grist {
		if !g.Weight.Written() {
			return share, nil, false
		}
		grams := g.Weight.Value.Grams()
		total += grams
		if fits(g, x.GrainCard(g)) {
			part += grams
			from = append(from, g.Weight.Where)
			if name := nameOfGrain(g); !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	if total <= 0 {
		return share, nil, false
	}
	if len(from) == 0 {
		from = append(from, x.Gyle.Grist[0].Where)
	}
	value := 100 * part / total
	return number(value, scaleShare*value, "%", from...), names, true
}

// scaleShare is U of a share of the grist, relative: two weights of 1 % each on a
// kitchen scale, as halves of rectangles.
const scaleShare = 0.016

func nameOfGrain(g journal.Grain) string {
	for _, n := range []journal.Name{g.Malt, g.Adjunct, g.Sugar, g.Syrup} {
		if n.Name != "" {
			return n.Name
		}
	}
	return "one line of the grist"
}

// ofClass tells whether a malt is of a class: by its card, else by its name.
func ofClass(class journal.MaltClass, names ...string) func(journal.Grain, *journal.Card) bool {
	return func(g journal.Grain, card *journal.Card) bool {
		if card != nil && card.Malt != nil && card.Malt.Class.Written() {
			return card.Malt.Class.Is(class)
		}
		return assay.HasWord(g.Malt.Name+" "+g.Adjunct.Name, names...)
	}
}

var (
	crystal = ofClass(journal.CrystalMalt, "crystal", "caramel", "cara*")
	roasted = ofClass(journal.RoastMalt, "roast*", "chocolate", "black", "brown", "amber")
)

func wheaten(g journal.Grain, card *journal.Card) bool {
	return card != nil && card.Malt != nil && card.Malt.Cereal.Is(journal.Wheat) || assay.HasWord(g.Malt.Name+" "+g.Adjunct.Name, "wheat")
}

// share says how much of the grist something is.
func share(what string, f figures.Figure, names []string) string {
	if len(names) == 0 {
		return "there is no " + what + " in the grist"
	}
	return fmt.Sprintf("%s is %s %% of the grist (%s)", what, q.Fixed(f.Value, 0), strings.Join(names, ", "))
}

// fellIn is how many points the gravity fell in a container that the word was
// found in, by a reading of it after it was filled.
func (x *exam) fellIn() (fall figures.Figure, says string, ok bool) {
	fg, known := x.Find("fg", "")
	if !known {
		return fall, "", false
	}
	for _, k := range x.from() {
		for _, r := range x.Gyle.Readings {
			g, read := figures.AsRead(r.Gravity)
			if !read || !r.Package.Written() || r.Package.N != k.Index || !x.Come(r.When) {
				continue
			}
			one := assay.InPoints(fg)
			one.Value -= q.Gravity(g.Value).Points()
			// One hydrometer: its bias is in both and cancels.
			one.PlusMinus = assay.FallDoubt
			one = one.At(r.Gravity.Where)
			if !ok || one.Value > fall.Value {
				fall, ok = one, true
				says = fmt.Sprintf("a degassed glass of %s reads %s, against %s when it was racked", x.called(k), assay.SG(q.Gravity(g.Value)), assay.SG(q.Gravity(fg.Value)))
			}
		}
	}
	return fall, says, ok
}

// called is one container as a clause names it, with its place in the list where
// several go by one name.
func (x *exam) called(k figures.Container) string {
	name := k.Called()
	if rest, several := strings.CutPrefix(name, "each "); several {
		name = "a " + rest
	}
	alike := func(o figures.Container) bool { return o.Index != k.Index && o.Called() == k.Called() }
	if slices.ContainsFunc(x.Containers(), alike) {
		name += fmt.Sprintf(" (%d)", k.Index+1)
	}
	return name
}

// warmestGlass and coolestGlass are the heat of the warmest and the coolest glass
// in which the word was found.
func (x *exam) warmestGlass() (figures.Figure, bool) { return x.glassAt(+1) }

func (x *exam) coolestGlass() (figures.Figure, bool) { return x.glassAt(-1) }

func (x *exam) glassAt(sign float64) (best figures.Figure, ok bool) {
	for _, t := range x.found {
		if f, read := figures.AsRead(x.heatOf(t)); read && (!ok || sign*f.Value > sign*best.Value) {
			best, ok = f, true
		}
	}
	return best, ok
}

// openFor is for how many days the container was open when the word was first
// found, for containers that are drawn from more than once.
func (x *exam) openFor() (days figures.Figure, of figures.Container, ok bool) {
	for _, t := range x.found {
		k, known := x.containerOf(t)
		if !known || k.Is(journal.Bottle) || k.Package.Gas.Set.Written() || !t.When.Written() || !x.Broached(k).Written() {
			continue
		}
		open := max(0, daysApart(x.Broached(k).Middle(), t.When.Middle()))
		if !ok || open < days.Value {
			days, of, ok = number(open, 0.5, "days", x.Broached(k).Where), k, true
		}
	}
	return days, of, ok
}

// conditionAimed is the condition that the glass should have, by the aim or the
// style.
func (x *exam) conditionAimed() (assay.Target, bool) {
	if aim := x.Gyle.Aim.Condition; aim.Written() {
		return x.AimAt(aim.Value.Volumes(), "vol"), true
	}
	if style := x.Style(); style != nil && style.Condition.Written() {
		return x.AsInStyle(style.Condition.Low.Volumes(), style.Condition.High.Volumes(), "vol"), true
	}
	return assay.Target{}, false
}

// conditionOff is how many volumes the condition lies above its aim.
func (x *exam) conditionOff() (off figures.Figure, says string, lacking Sign) {
	f, ok := x.conditionOf()
	want, aimed := x.conditionAimed()
	switch {
	case !ok:
		return f, "", x.lacking("condition", "priming.weight and racked.volume")
	case !aimed:
		return f, "", needing("aim.condition")
	}
	says = fmt.Sprintf("its condition works out at %s, against %s", x.Measure(f), want.Words)
	f.Value -= want.Nearest(f.Value)
	return f, says, silent
}

// conditionOf is the condition of what the word was found in.
func (x *exam) conditionOf() (figures.Figure, bool) {
	for _, k := range x.from() {
		if f, ok := x.Find("condition", k.Key); ok {
			return f, true
		}
	}
	return x.Find("condition", "")
}

// hoursOf prints a span in hours, in days from three of them on.
func hoursOf(d time.Duration) string {
	if d >= 72*time.Hour {
		return assay.DaysOf(d)
	}
	return fmt.Sprintf("%.0f hours", d.Hours())
}
