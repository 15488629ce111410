package site

import (
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/site/view"
)

// vesselHistory is what has been in a vessel: each filling with what it was
// filled with, for how long, the pressure it came to, and when it was last
// cleaned for it; the latest gyle first.
func (w pageWriter) vesselHistory(subject *book.Subject, uses []book.Use) view.Table {
	t := newTable("p-history", "History", "Gyle", "#Held", "#Times", "~Filled", "~Empty", "#At the warmest", "#Margin", "~Cleaned")
	seen := map[*book.Gyle]bool{}
	for _, u := range uses {
		g := u.Gyle
		if seen[g] || len(seen) == mostUses {
			continue
		}
		seen[g] = true
		for _, c := range g.Sheet.Containers() {
			if w.book.Subject("vessel", c.Package.Vessel.Name) != subject {
				continue
			}
			times := ""
			if c.Count() > 1 {
				times = itoa(c.Count())
			}
			filled := g.Sheet.Filled(c)
			margin := w.of(g, "pressure-margin", c.Key)
			if margin.Value == "" {
				margin = w.of(g, "bag-slack", c.Key)
			}
			t.row(w.numbered(g), value(w.spell, c.Package.Fill), times, w.spell.tableMoment(filled), w.spell.tableMoment(g.Sheet.Emptied(c)),
				w.of(g, "pressure-warmest", c.Key), margin, w.cleaned(g, subject, c.Index))
		}
		if w.book.Subject("vessel", g.Fermenter.Vessel.Name) == subject && g.Fermenter.Vessel.Name != "" {
			t.row(w.numbered(g), value(w.spell, g.Fermenter.Volume), "", w.spell.tableDay(g.Begun), w.spell.tableMoment(g.Racked.On), "", "", w.cleaned(g, subject, -1))
		}
	}
	t.Note = "Cleaned is the latest cleaning that the gyle’s entry tells of and that names this vessel or container. Pressures are above the atmosphere; the margin is what is left to the maker’s rating or, in a soft bag, before it goes tight."
	return t.done()
}

// cleaned is the latest cleaning of a container, or of a vessel by its name.
func (w pageWriter) cleaned(g *book.Gyle, vessel *book.Subject, container int) string {
	var latest *journal.Deed
	for i, d := range g.Done {
		names := d.Package.Written() && d.Package.N == container || !d.Package.Written() && namesVessel(d.What.Text, vessel.Name)
		if d.Did.Word == journal.Cleaned && names && (latest == nil || d.When.Time.After(latest.When.Time)) {
			latest = &g.Done[i]
		}
	}
	if latest == nil {
		return ""
	}
	return phrase(" ", w.spell.tableDay(latest.When.Time), with("with", latest.With.Name))
}

// namesVessel tells whether a text is about a vessel of this name: whether a
// word of the name, in the singular or the plural, stands in it. Words of less
// than three letters and numbers do not count: those are sizes.
func namesVessel(text, name string) bool {
	said := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r != '-' && (r < 'a' || r > 'z') })
	for _, w := range strings.Fields(strings.ToLower(name)) {
		if len(w) < 3 || w == "soft" || w == "steel" || w == "pressure" || strings.ContainsAny(w, "0123456789") {
			continue
		}
		if slices.Contains(said, w) || slices.Contains(said, w+"s") {
			return true
		}
	}
	return false
}
