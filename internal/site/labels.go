package site

import (
	"cmp"
	"html/template"
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/rules"
	"gylebook/internal/site/view"
)

// mostLabels is how many are laid out: six sheets of eight.
const mostLabels = 48

// LabelsPage is labels.html, the container labels, made for paper: one for each container.
type LabelsPage struct {
	view.Frame
	Gyle    view.Link
	Code    template.HTML // the page's address as a QR code, a <symbol>; "" where the journal has no address
	Address string        // the same to read
	Labels  []Label
}

// Label is one container's.
type Label struct {
	Number   string
	Beer     string
	Style    string
	Facts    string   // strength, volume
	Dates    string   // racked or filled, drink by
	Contains string   // the allergens
	Lines    []string // what else must be told
	Care     string   // how to keep it, and what to do if it swells
	Class    string   // gives the beer's colour
}

var _ = declare(pagesOf[*book.Gyle, LabelsPage]{
	path: "gyles/*/labels/index.html", template: "labels.html", unlisted: true,
	each: (*Site).gylesShown, slug: gyleSlug, fill: pageWriter.labels,
})

func labelsPath(g *book.Gyle) string { return "gyles/" + g.Slug + "/labels/index.html" }

func (w pageWriter) labels(v *LabelsPage, g *book.Gyle) {
	v.Title, v.Gyle = "Labels, gyle "+g.Slug+", "+beer(g), w.numbered(g)
	v.Description = "Labels for the containers of gyle " + g.Slug + ", to print and cut."
	if g.Unread {
		return
	}
	v.Address = w.public(gylePath(g))
	v.Code = addressCode(v.Address)
	containers := g.Sheet.Containers()
	for _, c := range containers {
		label := w.label(g, &c)
		for range c.Count() {
			if len(v.Labels) < mostLabels {
				v.Labels = append(v.Labels, label)
			}
		}
	}
	if len(containers) == 0 {
		v.Labels = append(v.Labels, w.label(g, nil))
	}
}

// label is one container's; without a container that of the beer.
func (w pageWriter) label(g *book.Gyle, c *figures.Container) Label {
	volume, bestBy, filled, kind := "", "", journal.Moment{}, journal.VesselKind("")
	if c != nil {
		volume = cmp.Or(w.text(c.Package.Fill), c.Name())
		filled, kind = g.Sheet.Filled(*c), containerKind(*c)
		if f, ok := g.Sheet.Find(figures.IDDrinkBy, c.Key); ok {
			bestBy = w.spell.day(f.Date)
		}
	}
	racked, packed := w.spell.date(g.Racked.On), w.spell.date(filled)
	if packed == racked {
		packed = ""
	}
	return Label{
		Number: g.Slug, Beer: beer(g), Style: g.Style.Name, Class: shade(colourOf(g)),
		Facts:    phrase(" · ", w.labelStrength(g), volume),
		Dates:    phrase("; ", with("racked", racked), with("filled", packed), with("drink by", bestBy)),
		Contains: strings.Join(w.allergens(g), ", "),
		Lines:    w.labelLines(g), Care: labelCare(kind),
	}
}

// containerKind is what sort of vessel a container is, as its card has it.
func containerKind(c figures.Container) journal.VesselKind {
	for _, kind := range []journal.VesselKind{journal.Bottle, journal.SoftBag, journal.PressureBarrel, journal.Cask, journal.Keg} {
		if c.Is(kind) {
			return kind
		}
	}
	return ""
}

// labelCare is how to keep a container and what to do if it swells: for whoever
// is handed it and has not read the book. Common practice, no source.
func labelCare(kind journal.VesselKind) string {
	switch kind {
	case journal.Bottle:
		return "Live beer, with sediment. Keep it cool, dark and upright; open it cold and slowly, over a sink. If one gushes or bursts, chill the rest, and open them with gloves and goggles."
	case journal.SoftBag:
		return "Live beer, with sediment. Keep it cold. If it swells tight, chill it, then turn its tap upward and let gas out until it is slack."
	case journal.Cask, journal.PressureBarrel, journal.Keg:
		return "Live beer, with sediment. Keep it cold and still. If it swells or hisses, chill it, then let gas out slowly, outdoors, cap away from faces."
	}
	return "Live beer, with sediment. Keep it cold. If it swells, chill it, then let gas out slowly, outdoors, cap away from faces."
}

// labelLines are what a label must tell, beside what the beer is and contains.
func (w pageWriter) labelLines(g *book.Gyle) []string {
	lines := w.diet(g)
	if f, ok := g.Sheet.First(figures.IDUnitsPerPint); ok {
		lines = append(lines, w.spell.measure(f.Value, 0, f.Unit, 1).String()+" in a UK pint")
	}
	if g.Label.Text.Text != "" {
		lines = append(lines, g.Label.Text.Text)
	}
	return lines
}

// labelStrength is the alcohol to one decimal, as it is when drunk.
func (w pageWriter) labelStrength(g *book.Gyle) string {
	if g.Label.ABV.Written() {
		return ofVolume(w.spell.value(g.Label.ABV)).String()
	}
	for _, id := range []figures.ID{figures.IDABVConditioned, figures.IDABV} {
		if f, ok := g.Sheet.First(id); ok {
			return w.spell.measure(f.Value, 0, f.Unit, 1).String()
		}
	}
	return ""
}

// allergens are what the brewer's label names, and what is in the beer besides.
func (w pageWriter) allergens(g *book.Gyle) []string {
	var all []string
	add := func(what string) {
		if what = strings.TrimSpace(what); what != "" && !slices.Contains(all, what) {
			all = append(all, what)
		}
	}
	for _, t := range g.Label.Allergens {
		add(t.Text)
	}
	for _, name := range rules.Allergens(g.Sheet) {
		add(name)
	}
	if g.Label.Sulphites.Yes() {
		add("sulphites")
	}
	return all
}

// diet is what the label says for vegans and of finings.
func (w pageWriter) diet(g *book.Gyle) []string {
	var lines []string
	fished := false
	for _, f := range g.Finings {
		card := w.book.Journal.Larder.Card(journal.CardFining, f.With.Name)
		if card != nil && card.Fining != nil && card.Fining.Vegan.No() {
			lines = append(lines, "Fined with "+f.With.Name)
			fished = true
		}
	}
	switch {
	case g.Label.Vegan.No() || fished:
		lines = append(lines, "Not vegan")
	case g.Label.Vegan.Yes():
		lines = append(lines, "Vegan")
	}
	if g.Label.Vegetarian.Yes() {
		lines = append(lines, "Vegetarian")
	}
	return lines
}
