package causes

import (
	"fmt"
	"slices"
	"strings"

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
func (x *exam) lacking(id figures.ID, usual string) Sign {
	for _, m := range x.Missing {
		if m.Figure == id && len(m.Needs) > 0 {
			return needing(strings.Join(m.Needs, " and "))
		}
	}
	return needing(usual)
}

// without is a test that has nothing to hold against a limit, and what it says then.
func without(s Sign) reading { return reading{instead: s} }

// number is a figure of a test's own, with the lines it rests on.
func number(value, plusMinus float64, unit string, from ...journal.Where) figures.Figure {
	return figures.Figure{Kind: &figures.Kind{Unit: unit}, Value: value, PlusMinus: plusMinus}.At(from...)
}

// figure is a figure of the sheet; %s in what is said of it stands for it.
func figure(id figures.ID, of, says string) func(*exam) reading {
	return func(x *exam) reading {
		f, ok := x.Find(id, of)
		return x.measured(f, ok, says)
	}
}

// typed is a value of the entry itself; %s in what is said of it stands for it.
func typed[Q q.Quantity](of func(*journal.Gyle) journal.Value[Q], says string) func(*exam) reading {
	return func(x *exam) reading {
		f, ok := figures.AsRead(of(x.Gyle))
		return x.measured(f, ok, says)
	}
}

func (x *exam) measured(f figures.Figure, ok bool, says string) reading {
	switch {
	case !ok:
		return without(unknown)
	case f.Unit == "pH" || f.Unit == "SG":
		return reading{Figure: f, says: fmt.Sprintf(says, assay.Bare(f))}
	}
	return reading{Figure: f, says: fmt.Sprintf(says, x.Measure(f))}
}

// under turns a difference round: how far under, instead of over.
func under(of func(*exam) reading) func(*exam) reading {
	return func(x *exam) reading {
		r := of(x)
		r.Value = -r.Value
		return r
	}
}

// less is a reading from which a number is taken.
func (r reading) less(by float64) reading {
	r.Value -= by
	return r
}

// within gives a reading bounds of its own.
func (r reading) within(pro, con float64) reading {
	r.bounds = &[2]float64{pro, con}
	return r
}

// ogOff and fgOff are how many points a gravity lies above its aim.
func ogOff(x *exam) reading {
	return x.pointsFrom(figures.IDOG, "original gravity", "fermenter.gravity", x.Gyle.Aim.OG)
}

func fgOff(x *exam) reading {
	return x.pointsFrom(figures.IDFG, "final gravity", "readings[].gravity", x.Gyle.Aim.FG)
}

func (x *exam) pointsFrom(id figures.ID, what, usual string, aim journal.Value[q.Gravity]) reading {
	f, ok := x.Find(id, "")
	switch {
	case !ok:
		return without(x.lacking(id, usual))
	case !aim.Written():
		return without(needing("aim." + string(id)))
	}
	says := fmt.Sprintf("the %s is %s, with %s aimed at", what, assay.Bare(f), aimedGravity(aim.Value))
	return reading{Figure: assay.InPoints(f), says: says}.less(aim.Value.Points())
}

// aimedGravity prints an aim to the last place that was typed.
func aimedGravity(g q.Gravity) string {
	return strings.TrimSuffix(q.Fixed(g.SG(), 4), "0")
}

// strength is the alcohol, with what conditioning adds.
func (x *exam) strength() (figures.Figure, bool) {
	if f, ok := x.First(figures.IDABVConditioned); ok {
		return f, true
	}
	return x.Find(figures.IDABV, "")
}

// conditionOff is how many volumes the condition of what the word was found in lies
// above its aim or style.
func conditionOff(x *exam) reading {
	f, ok := x.Find(figures.IDCondition, "")
	for _, k := range x.from() {
		if own, has := x.Find(figures.IDCondition, k.Key); has {
			f, ok = own, true
			break
		}
	}
	want, aimed := x.ConditionTarget()
	switch {
	case !ok:
		return without(x.lacking("condition", "priming.weight and racked.volume"))
	case !aimed:
		return without(needing("aim.condition"))
	}
	says := fmt.Sprintf("its condition works out at %s, against %s", x.Measure(f), want.Words)
	return reading{Figure: f, says: says}.less(want.Nearest(f.Value))
}

// needsGlass is what shows whether beer went on working after it was closed in.
const needsGlass = "readings[].gravity, of a degassed glass, with its package"

// fellSealed is the test of how far the gravity fell since the beer was racked.
func fellSealed(weight Weight) Test {
	return Test{
		For: "fallen by %s or more since it was racked", Against: "by less than a point", Weight: weight,
		Needs: needsGlass, of: fellIn, pro: fellBy, con: fellNot,
	}
}

// fellIn is how many points the gravity fell in a container that the word was
// found in, by a reading of it after it was filled.
func fellIn(x *exam) reading {
	most := without(unknown)
	fg, known := x.Find(figures.IDFG, "")
	for _, k := range x.from() {
		for _, r := range x.Gyle.Readings {
			g, read := figures.AsRead(r.Gravity)
			if !known || !read || !r.Package.Written() || r.Package.N != k.Index || !x.Come(r.When) {
				continue
			}
			// One hydrometer: its bias is in both and cancels.
			points := q.Gravity(fg.Value).Points() - q.Gravity(g.Value).Points()
			fall := number(points, assay.FallDoubt, "points", r.Gravity.Where)
			if most.says == "" || fall.Value > most.Value {
				const says = "a degassed glass of %s reads %s, against %s when it was racked"
				most = reading{Figure: fall, says: fmt.Sprintf(says, x.called(k), assay.SG(q.Gravity(g.Value)), assay.SG(q.Gravity(fg.Value)))}
			}
		}
	}
	return most
}

// hasFallen tells whether a glass shows that the beer worked on in its container.
func (x *exam) hasFallen() bool { return fellSealed(Measurement).sign(x).Voice == For }

// recipeWritten tells whether the entry lists grist, hops and yeast, so that what
// is not among its additions was likely not added.
func (x *exam) recipeWritten() bool {
	return len(x.Gyle.Grist) > 0 && len(x.Gyle.Hops) > 0 && len(x.Gyle.Yeast) > 0
}

// inGrist is what part of the grist's weight, in %, some of it makes up, and the names
// of those. It is not known where a weight is missing.
func inGrist(what string, fits func(journal.Grain, *journal.Card) bool) func(*exam) reading {
	return func(x *exam) reading {
		share, names, ok := x.gristShare(fits)
		switch {
		case !ok:
			return without(unknown)
		case len(names) == 0:
			return reading{Figure: share, says: "there is no " + what + " in the grist"}
		}
		const says = "%s is %s %% of the grist (%s)"
		return reading{Figure: share, says: fmt.Sprintf(says, what, q.Fixed(share.Value, 0), strings.Join(names, ", "))}
	}
}

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

// grainCalled is the first line of the grist whose name has one of some words.
func (x *exam) grainCalled(words ...string) (name string, where journal.Where) {
	for _, g := range x.Gyle.Grist {
		if name := nameOfGrain(g); assay.HasWord(name, words...) {
			return name, g.Where
		}
	}
	return "", where
}

// ofClass tells whether a malt is of a class: by its card, else by its name.
func ofClass(class journal.MaltClass, names ...string) func(journal.Grain, *journal.Card) bool {
	return func(g journal.Grain, card *journal.Card) bool {
		if is := assay.MaltFacts(card).Class; is.Written() {
			return is.Is(class)
		}
		return assay.HasWord(g.Malt.Name+" "+g.Adjunct.Name, names...)
	}
}

var (
	crystal = ofClass(journal.CrystalMalt, "crystal", "caramel", "cara*")
	roasted = ofClass(journal.RoastMalt, "roast*", "chocolate", "black", "brown", "amber")
)

func wheaten(g journal.Grain, card *journal.Card) bool {
	named := assay.HasWord(g.Malt.Name+" "+g.Adjunct.Name, "wheat")
	return assay.MaltFacts(card).Cereal.Is(journal.Wheat) || named
}

// fermentsOut tells whether a line of the grist is sugar that yeast takes whole.
func fermentsOut(g journal.Grain, card *journal.Card) bool {
	return g.Sugar.Written() && !staysSweet(card)
}

// staysSweet tells whether a card's sugar is one that yeast mostly leaves.
func staysSweet(card *journal.Card) bool {
	left := assay.SugarFacts(card).Fermentable
	return left.Written() && float64(left.Value) <= 50
}

// called is one container as a clause names it.
func (x *exam) called(k figures.Container) string {
	name := k.Called()
	if rest, several := strings.CutPrefix(name, "each "); several {
		name = "a " + rest
	}
	return name
}
