package site

import (
	"cmp"
	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/site/view"
)

// CopperCardPage is copper-card.html, for brew day, on paper or by the copper: what to
// weigh, how hot, what goes in when, and what to read and write down.
type CopperCardPage struct {
	view.Frame
	Number, Beer string
	Gyle         view.Link
	Facts        []Fact
	Grist        view.Table
	Liquor       view.Table
	Mash         []string
	Clock        view.BrewClock
	Write        []string // what to read and write down
	Cautions     []string
}

// Fact is a name with a value.
type Fact struct {
	Name  string
	Value view.Measure
}

var _ = declare(pagesOf[*book.Gyle, CopperCardPage]{
	path: "gyles/*/copper-card/index.html", template: "copper-card.html", unlisted: true,
	each: (*Site).gylesShown, slug: gyleSlug, fill: pageWriter.copperCard,
})

func copperCardPath(g *book.Gyle) string { return "gyles/" + g.Slug + "/copper-card/index.html" }

func (w pageWriter) copperCard(v *CopperCardPage, g *book.Gyle) {
	v.Title = "Copper card, gyle " + g.Slug + ", " + beer(g)
	v.Number, v.Beer, v.Gyle = g.Slug, beer(g), w.numbered(g)
	w.ribbon(&v.Frame, colourOf(g))
	v.Description = "What to weigh, heat, add and write down on brew day."
	if !g.Unread {
		v.Facts = w.cardFacts(g)
		v.Grist, v.Liquor = w.gristTable(g), w.liquorTable(g)
		v.Mash = w.mashSteps(g)
		v.Clock = w.brewClock(g)
		v.Write = toWrite(g)
	}
	v.Cautions = append([]string{"Hot liquor and wort scald in seconds. Stand the vessel firmly, keep children and animals away, never lift it full."}, follow)
}

// cardFacts are what to aim at, and what is worked out for it.
func (w pageWriter) cardFacts(g *book.Gyle) []Fact {
	var facts []Fact
	add := func(name string, m view.Measure) {
		if m.Value != "" {
			facts = append(facts, Fact{Name: name, Value: m})
		}
	}
	add("Aim, in the fermenter", w.spell.value(g.Aim.Volume))
	add("Aim, original gravity", w.spell.value(g.Aim.OG))
	for _, id := range []figures.ID{
		figures.IDOGExpected, figures.IDLiquorNeeded, figures.IDLiquorToGrist, figures.IDStrikeTemperature,
		figures.IDBitterness, figures.IDColour, figures.IDPitchingRate,
	} {
		if f, ok := g.Sheet.First(id); ok {
			add(f.Label, w.spell.figure(f))
		}
	}
	return facts
}

func (w pageWriter) mashSteps(g *book.Gyle) []string {
	var steps []string
	m := g.Mash
	if strike, ok := g.Sheet.First(figures.IDStrikeTemperature); ok || m.Strike.Written() {
		heat := w.text(m.Strike)
		if ok {
			heat = w.phrase(", ", heat, w.with("worked out", w.spell.figure(strike)))
		}
		steps = append(steps, "Strike with "+w.phrase(" at ", cmp.Or(w.text(m.Liquor), "the liquor"), heat))
	}
	for _, r := range m.Rests {
		rest := "Rest at " + w.text(r.At) + w.with(" for", r.For)
		steps = append(steps, w.phrase(", ", rest, w.with("by", r.By), w.with("liquor", r.Liquor), w.with("at", r.LiquorAt)))
	}
	if g.Sparge.Where.Written() {
		steps = append(steps, w.phrase(" ", "Sparge", w.with("with", g.Sparge.Liquor), w.with("at", g.Sparge.At)))
	}
	switch {
	case g.Copper.Boiled.None:
		steps = append(steps, "Do not boil: raw ale")
	case g.Copper.Boiled.Written():
		steps = append(steps, "Boil for "+w.text(g.Copper.Boiled))
	}
	return steps
}

// toWrite are the readings of brew day that the entry does not have yet.
func toWrite(g *book.Gyle) []string {
	var all []string
	add := func(has bool, what string) {
		if !has {
			all = append(all, what)
		}
	}
	add(g.Mash.GrainAt.Written(), "grist before it goes in, its heat")
	add(g.Mash.PH.Written(), "mash pH, cooled sample")
	boils := !g.Copper.Boiled.None
	add(g.Copper.Before.Volume.Written() || !boils, "volume before the boil, and how hot")
	add(g.Copper.Before.Gravity.Written() || !boils, "gravity before the boil")
	add(g.Copper.Started.Written() || !boils, "time it came to the boil")
	add(g.Copper.After.Volume.Written(), "volume after the boil, and how hot")
	add(g.Copper.After.Gravity.Written(), "gravity after the boil")
	add(g.Fermenter.Volume.Written(), "volume in the fermenter")
	add(g.Fermenter.Gravity.Written(), "original gravity, with the sample’s heat")
	pitched := len(g.Yeast) > 0 && g.Yeast[0].Pitched.Written()
	add(pitched, "time and heat at pitching")
	return all
}
