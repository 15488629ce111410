package figures

import (
	"slices"
	"strings"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Wort that joins beer, and what is done under the name of topping up.

func (b *bench) wortAdded(i int, a *journal.Addition) addition {
	out := b.placed(a, addition{what: a.Wort.Text})
	volume := b.volumeOr(read(b, a.Volume, keyOf(a.Volume.Where, "added", i, "volume"), ofVolume), out)
	what := firstName(a.Wort.Text, "wort")
	gravity := read(b, a.Gravity, keyOf(a.Gravity.Where, "added", i, "gravity"), ofHydrometer)
	if !gravity.known {
		return b.placed(a, b.wortUnread(what, volume))
	}
	return b.placed(a, b.wort(what, volume, gravity))
}

// wort is so much wort of a gravity, which ferments as this beer's own did.
func (b *bench) wort(what string, volume Estimate[q.Volume], gravity Estimate[q.Gravity]) addition {
	out := addition{what: what, liquid: volume, wort: gravity}
	out.raises = from2(b, litreDegrees, volume, gravity)
	out.gas = func() Estimate[q.Mass] { return from3(b, brewing.GasOfWort, volume, gravity, b.attenuationOfWort()) }
	out.most = func() Estimate[q.Mass] { return from3(b, brewing.GasOfWort, volume, gravity, b.keenestAttenuation()) }
	return out
}

// strongWort is the gravity of wort at worst of which nobody says how strong it is: first
// runnings (common practice, no source).
const strongWort = q.Gravity(1.080)

// wortUnread is so much wort of which nobody says how strong it is: perhaps as the beer's
// own, perhaps its first runnings or what came after them.
func (b *bench) wortUnread(what string, volume Estimate[q.Volume]) addition {
	const about = "the gravity of the wort"
	off := customary(b, q.Gravity(0), 0.020, "SG", about, "not written: taken as within 20 points of the beer's own (common practice, no source)")
	usual := customary(b, q.Gravity(1.050), 0.030, "SG", about, "not written: taken as 1.020 to 1.080 (common practice, no source)")
	near := from2(b, func(og, off q.Gravity) (q.Gravity, error) { return max(og+off, 1), nil }, b.og(), off)
	likely := first(near, usual)
	strongest := likely
	if likely.Value+likely.PlusMinus() < strongWort {
		strongest = exactly(strongWort)
	}
	out := b.wort(what, volume, likely)
	out.most = b.wort(what, volume, strongest).most
	return out
}

// keenestAttenuation is the most that any of the beer's cultures takes of a wort, or what
// was seen of them where that is more.
func (b *bench) keenestAttenuation() Estimate[q.Percent] {
	_, most, _ := b.attenuationLimits(allOf)
	keenest, must := exactly(most), b.musts().pitched
	for _, end := range []Estimate[q.Gravity]{b.endsAt(must, exactly(most)), b.fg()} {
		if takes := from2(b, brewing.ApparentAttenuation, must.og, end); takes.known && takes.Value > keenest.Value {
			keenest = takes
		}
	}
	return keenest
}

// driestApparent is the most that an apparent attenuation comes to: as much as
// brewing.FinalGravityFromAttenuation holds for.
const driestApparent = q.Percent(130)

// attenuationOfWort is how far wort that joins the beer ferments: as the beer itself
// did or should.
func (b *bench) attenuationOfWort() Estimate[q.Percent] {
	own := from2(b, brewing.ApparentAttenuation, b.ogToFerment(), b.expectedFG())
	if own.known && own.Value <= 0 { // a wort reckoned weaker than the beer was read tells nothing
		own = b.expectedAttenuation()
	}
	return from1(b, func(a q.Percent) (q.Percent, error) { return min(max(a, 0), driestApparent), nil }, first(own, b.expectedAttenuation()))
}

// toppings are what was done under the name of topping up: with wort, beer or
// liquor, as its words have it. Where they do not say, it is taken as liquor, which
// is what the strength goes by, and gives gas in the bound as wort would.
func (b *bench) toppings() []addition {
	var all []addition
	for i := range b.Gyle.Done {
		d := &b.Gyle.Done[i]
		if !d.Did.Is(journal.ToppedUp) || d.When.Written() && (!b.past(d.When) || !d.When.Middle().After(b.pitchedAt())) {
			continue
		}
		into, _ := b.intoWhich(journal.Choice[journal.Place]{}, d.Package)
		out := addition{what: "what it was topped up with", where: d.Where, into: into}
		volume := b.volumeOr(read(b, d.Volume, keyOf(d.Volume.Where, "done", i, "volume"), ofVolume), out)
		words := strings.ToLower(d.What.Text + " " + d.With.Name + " " + d.Note.Text)
		var a addition
		switch {
		case containsAny(words, "wort", "speise", "krausen", "kräusen"):
			a = b.wortUnread("wort", volume)
		case containsAny(words, "syrup", "honey", "treacle", "molasses"):
			a = b.sweetLiquid(volume, 1150, 150)
		case containsAny(words, "sugar"):
			a = b.sweetLiquid(volume, 350, 350)
		case containsAny(words, "juice", "cider", "lemonade"):
			a = b.wortUnread("what it was topped up with", volume)
		case containsAny(words, "liquor", "water", "beer", "ale", "lager"):
			a = addition{what: "what it was topped up with", liquid: volume, gas: noGas, raises: noRise()}
			a.beer = containsAny(words, "beer", "ale", "lager")
			a.water = !a.beer
		default:
			a = addition{what: "what it was topped up with", liquid: volume, raises: noRise()}
			wort := b.wortUnread("", volume)
			a.gas = func() Estimate[q.Mass] {
				return b.anywhereUpTo(times[q.Mass](b, wort.gas(), 0.5), "whether it was topped up with wort", "not written: liquor, or wort")
			}
			a.most = wort.most
		}
		a.where, a.when, a.into = d.Where, d.When, into
		all = append(all, a)
	}
	return all
}

// sweetLiquid is so much of a liquid with so much sugar in it, in g/L: syrup and honey 1.0
// to 1.3 kg, sugar in water anything to 700 g (common practice, no source).
func (b *bench) sweetLiquid(volume Estimate[q.Volume], sugar, off float64) addition {
	const what = "what it was topped up with"
	strength := customary(b, q.Number(sugar), off, "g/L", "the sugar in "+what, "not written (common practice, no source)")
	weight := from2(b, func(v q.Volume, gramsPerLitre q.Number) (q.Mass, error) {
		return q.Mass(v.Litres() * max(float64(gramsPerLitre), 0)), nil
	}, volume, strength)
	return addition{
		what: what, liquid: volume, weight: weight, sugar: true, raises: times[q.Number](b, weight, sucroseExtract/1000.0),
		gas: func() Estimate[q.Mass] {
			return b.gasOfSugar(weight, b.card(journal.CardSugar, journal.Name{Name: "glucose"}), "sugar")
		},
	}
}

// anywhereUpTo is a mass between nought and twice the given one.
func (b *bench) anywhereUpTo(half Estimate[q.Mass], what, reason string) Estimate[q.Mass] {
	share := customary(b, q.Number(1), 1, "", what, reason)
	return from2(b, func(m q.Mass, share q.Number) (q.Mass, error) { return m * q.Mass(max(share, 0)), nil }, half, share)
}

func containsAny(text string, words ...string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(text, w) })
}
