package rules

import (
	"fmt"
	"slices"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// nameRules are about names that no card knows, and what is lost by it. A name
// that is not known must never hide a danger: it counts as the worst that it can
// be, and a rule says so.
func nameRules() []Rule {
	return []Rule{
		{
			ID: "vessel-unknown", Watches: alive, Worst: notice.Mend, Source: common,
			When: "beer is in a container, or to go into one, of which neither the larder nor a card knows the kind",
			look: vesselUnknown,
		},
		{
			ID: "sugar-unknown", Watches: alive, Worst: notice.Mend, Source: "what sugars give by stoichiometry, as in the larder",
			When: "primed with a sugar of which no card knows how much gas it gives",
			look: sugarUnknown,
		},
		{
			ID: "gas-unknown", Watches: sealed, Worst: notice.Mend, Source: common,
			When: "primed and closed in, and how much gas that makes cannot be reckoned",
			look: gasUnknown,
		},
		{
			ID: "names-unknown", Watches: always, Worst: notice.Note, Source: "the cards of the journal and the larder",
			When: "a style, malt, sugar, hop, yeast, water, salt, fining, fruit, cleaner or instrument that no card knows, where something is lost by it or a known name is near",
			look: namesUnknown,
		},
	}
}

func vesselUnknown(c *inspection) []Found {
	var found []Found
	for _, k := range c.Containers() {
		if k.Vessel != nil || c.Spent(k) {
			continue
		}
		f := Found{
			Severity: notice.Mend, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("“%s” is no vessel that is known, so it counts as one that keeps its shape and has no maker's figure.", k.Package.Vessel.Name),
			Why:  "Without its kind and size nobody can tell what it takes, or how full it is.",
			Do:   "Write its kind and size, as bottle 500 mL, keg 19 L or soft bag 10 L, or a vessel card (“gylebook words vessel” lists the kinds).",
		}
		if !k.Package.Vessel.Written() {
			f.Says = "No vessel is named here, so it counts as one that keeps its shape and has no maker's figure."
			if where := c.Gyle.Unreadable(k.Key + ".vessel"); where.Written() {
				f.Where = where
				f.Says = "The vessel could not be read, so it counts as one that keeps its shape and has no maker's figure."
			}
		}
		found = append(found, f)
	}
	return found
}

func sugarUnknown(c *inspection) []Found {
	primings := []*journal.Priming{&c.Gyle.Priming}
	for _, k := range c.Containers() {
		if !c.Spent(k) {
			primings = append(primings, &k.Package.Priming)
		}
	}
	var found []Found
	for _, p := range primings {
		card := c.Card(journal.CardSugar, p.Sugar)
		if !p.Sugar.Written() || p.Wort.Written() || card != nil && card.Sugar != nil && card.Sugar.CO2.Written() {
			continue
		}
		found = append(found, Found{
			Severity: notice.Mend, Where: p.Sugar.Where,
			Says: fmt.Sprintf("No card says how much gas “%s” gives, so it is reckoned as plain sugar, with a wide ±.", p.Sugar.Name),
			Why:  "Plain sugar gives the most of all; malt extract gives little more than half as much.",
			Do:   "Write a known sugar" + c.nearest(journal.CardSugar, p.Sugar.Name, " (", "?)") + ", or a sugar card with its co2. “gylebook words sugar” lists the known ones.",
		})
	}
	return found
}

// gasUnknown is of sugar or gas that is in, or may be by a line that could not be read,
// and of which nothing can be said.
func gasUnknown(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		priming := k.Package.Priming.Where
		if !priming.Written() {
			priming = c.Gyle.Priming.Where
		}
		if _, ok := c.Find(figures.IDCondition, k.Key); ok || c.tooHot(k) {
			continue
		}
		lacks, do, where := c.lacksFor(figures.IDCondition, k.Key)
		if !c.unreadable(where.Key).Written() && (!priming.Written() || k.Forced()) {
			continue
		}
		if !where.Written() {
			where = priming
		}
		found = append(found, Found{
			Severity: notice.Mend, Where: where, Of: k.Key,
			Says: fmt.Sprintf("How much gas %s will hold cannot be reckoned: %s.", k.Called(), lacks),
			Why:  "Sugar or gas is in it, and nobody can say whether it takes the pressure.",
			Do:   do + " Until then keep it cold, and look at it daily.",
		})
	}
	return found
}

// lacksFor is why a figure is not given, what to do about it, and the line to put
// right where one could not be read.
func (c *inspection) lacksFor(id figures.ID, of string) (lacks, do string, where journal.Where) {
	for _, m := range c.Missing {
		if m.Figure != id || m.Of != of {
			continue
		}
		for _, key := range m.Needs {
			if where = c.unreadable(key); where.Written() {
				return where.Key + " could not be read", "Put that line right.", where
			}
		}
		if i := slices.IndexFunc(m.Needs, func(key string) bool { return strings.HasSuffix(key, ".yeast") }); i >= 0 && len(c.Gyle.Yeast) > 0 && c.Gyle.Yeast[0].Yeast.Written() {
			return "no card says how far its yeast ferments, and the gravity was not seen to stand still", "Read a degassed glass now and again in two days.", c.Gyle.Yeast[0].Yeast.Where
		}
		if len(m.Needs) > 0 {
			keys := strings.Join(m.Needs, " and ")
			return keys + " is not noted", "Note it (" + strings.Join(m.Needs, ", ") + ").", where
		}
		if m.Because != "" {
			return m.Because, "Correct what was typed.", where
		}
	}
	return "something it needs is not noted", "Note what was racked, how warm it was, and the sugar.", where
}

// unreadable is where a key was written that could not be read; of the weight of
// a priming, the weight in each will do.
func (c *inspection) unreadable(key string) journal.Where {
	where := c.Gyle.Unreadable(key)
	if of, is := strings.CutSuffix(key, "priming.weight"); is && !where.Written() {
		where = c.Gyle.Unreadable(of + "priming.each")
	}
	return where
}

// nearest is the known name that is nearest to one, between two texts; "" for
// none.
func (c *inspection) nearest(kind journal.CardKind, name, before, after string) string {
	if c.Larder == nil {
		return ""
	}
	if near := c.Larder.Near(kind, name); len(near) > 0 {
		return before + near[0] + after
	}
	return ""
}

// unknownName is a name without a card, and what is lost by it, "" for nothing.
type unknownName struct {
	kind journal.CardKind
	name journal.Name
	lost string
}

// mostNames is how many unknown names one note lists.
const mostNames = 5

func namesUnknown(c *inspection) []Found {
	var listed, lost []string
	var first journal.Where
	kind, more := "", 0
	for _, u := range c.unknownNames() {
		near := c.nearest(u.kind, u.name.Name, " (", "?)")
		item := string(u.kind) + " “" + u.name.Name + "”" + near
		if u.lost == "" && near == "" || slices.Contains(listed, item) {
			continue
		}
		if !first.Written() {
			first, kind = u.name.Where, string(u.kind)
		}
		if len(listed) == mostNames {
			more++
			continue
		}
		listed = append(listed, item)
		if u.lost != "" && !slices.Contains(lost, u.lost) {
			lost = append(lost, u.lost)
		}
	}
	if len(listed) == 0 {
		return nil
	}
	says := "No card knows these names: " + strings.Join(listed, ", ")
	if len(listed) == 1 {
		says = "No card knows this name: " + listed[0]
	}
	if more > 0 {
		says += fmt.Sprintf(" and %d more", more)
	}
	why := "Facts that a card would give are left out."
	if len(lost) > 0 {
		why = "So nothing says " + strings.Join(lost, ", ") + "."
	}
	return []Found{{
		Severity: notice.Note, Where: first, Says: says + ".", Why: why,
		Do: fmt.Sprintf("Write the known name if that is meant, or a card with its facts. “gylebook words %s” lists the known names, and so for every kind.", kind),
	}}
}

// unknownNames are the names of an entry that no card knows, in its order.
func (c *inspection) unknownNames() []unknownName {
	g := c.Gyle
	var all []unknownName
	note := func(kind journal.CardKind, name journal.Name, lost string, isLost bool) {
		if !name.Written() || c.Card(kind, name) != nil {
			return
		}
		if !isLost {
			lost = ""
		}
		all = append(all, unknownName{kind, name, lost})
	}
	note(journal.CardStyle, g.Style, "what is customary in its style", true)
	note(journal.CardWater, g.Liquor.Water, "which ions are in the water", true)
	for _, s := range g.Liquor.Salts {
		note(journal.CardSalt, s.Salt, "which ions are in the salt", true)
	}
	for _, m := range g.Grist {
		lacks := !m.Extract.Written() || !m.Colour.Written()
		for _, name := range []journal.Name{m.Malt, m.Adjunct} {
			note(journal.CardMalt, name, "what the malt gives and how dark it is", lacks)
		}
		for _, name := range []journal.Name{m.Sugar, m.Syrup} {
			note(journal.CardSugar, name, "what the sugar gives", lacks)
		}
	}
	for _, h := range g.Hops {
		note(journal.CardHop, h.Hop, "how bitter the hop is", !h.Alpha.Written() && !h.Dry.Written())
	}
	for _, a := range g.Added {
		note(journal.CardFruit, a.Fruit, "how much sugar the fruit brings", !a.Sugar.Written())
		note(journal.CardFruit, a.Juice, "how much sugar the juice brings", !a.Sugar.Written())
	}
	for _, f := range g.Finings {
		note(journal.CardFining, f.With, "whether the fining is vegan or an allergen", true)
	}
	for _, p := range g.Yeast {
		note(journal.CardYeast, p.Yeast, "how far the yeast ferments and at what heat", true)
	}
	for _, d := range g.Done {
		note(journal.CardCleaner, d.With, "whether the cleaner must be rinsed off", d.Did.Is(journal.Cleaned))
	}
	for _, name := range instrumentsOf(g) {
		note(journal.CardInstrument, name, "", false) // a plain refractometer is as true as most: only a slip is worth a word
	}
	return all
}

func instrumentsOf(g *journal.Gyle) []journal.Name {
	names := []journal.Name{g.Copper.Before.With, g.Copper.After.With, g.Fermenter.With}
	for _, r := range g.Readings {
		names = append(names, r.With)
	}
	return names
}

// unrated tells whether nothing is known of what a container takes.
func unrated(k figures.Container) bool {
	return k.Rigid() && (k.Vessel == nil || !k.Vessel.Rated.Written())
}
