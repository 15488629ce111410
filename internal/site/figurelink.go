package site

import (
	"cmp"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"sync"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/site/markdown"
)

// toFigure is a link to a figure's working, to be filled with its value:
// figure:abv, figure:abv?gyle=11, figure:pressure-warmest?of=packages[1].
func (r *resolver) toFigure(rest string) markdown.Target {
	id, query, _ := strings.Cut(rest, "?")
	asked, err := url.ParseQuery(query)
	if err != nil {
		asked = url.Values{}
	}
	if !knownFigure(id) {
		return dead(id, "there is no figure "+id, "Name one that there is: figure:"+cmp.Or(string(figures.KindCalled(id)), near(id, figureIDs()))+".")
	}
	g, fault := r.figuresGyle(id, asked.Get("gyle"))
	if fault.Fault.ID != "" {
		return fault
	}
	f, ok := g.Sheet.First(figures.ID(id))
	if of := asked.Get("of"); of != "" {
		f, ok = g.Sheet.Find(figures.ID(id), of)
	}
	if !ok {
		target := r.within(gylePath(g), "p-missing", "not known yet")
		target.Class = "figure unknown"
		if len(g.Sheet.Missing) == 0 {
			target.Href = ""
		}
		return target
	}
	target := r.within(workingsPath(g), workingID(f), r.site.spell.figure(f).String())
	target.Class = "figure"
	return target
}

// figuresGyle is the gyle that a figure is of: the one named, else the one whose
// story it is.
func (r *resolver) figuresGyle(id, name string) (*book.Gyle, markdown.Target) {
	if name == "" {
		g := r.site.whole.GyleIn(r.story.entry.File)
		if g == nil {
			return nil, dead(id, "figure:"+id+" stands in no gyle's story, and does not say of which gyle", "Write figure:"+id+"?gyle= and the number.")
		}
		return g, markdown.Target{}
	}
	number, err := strconv.Atoi(name)
	if g := r.site.numbered(number); err == nil && g != nil {
		if !r.site.published(g) {
			return nil, r.gyle(g, "")
		}
		return g, markdown.Target{}
	}
	return nil, dead(id, "there is no gyle "+name, "Name one that there is: "+r.nearGyles(number)+".")
}

// familyOf is the heading that each figure stands under, by id.
var familyOf = sync.OnceValue(func() map[figures.ID]string {
	headings := map[figures.ID]string{}
	for _, f := range figures.Families() {
		for _, k := range f.Kinds {
			headings[k.ID] = f.Heading
		}
	}
	return headings
})

// figureLabels are the labels of all declared figures, by id.
var figureLabels = sync.OnceValue(func() map[figures.ID]string {
	labels := map[figures.ID]string{}
	for _, k := range figures.Kinds() {
		labels[k.ID] = k.Label
	}
	return labels
})

func knownFigure(id string) bool { return figureLabels()[figures.ID(id)] != "" }

func figureIDs() []string {
	var ids []string
	for id := range figureLabels() {
		ids = append(ids, string(id))
	}
	slices.Sort(ids)
	return ids
}

// workingID is the id of the element that shows how a figure was worked out.
func workingID(f figures.Figure) string { return "w-" + string(f.ID) + idPart(f.Of) }

// idPart is what tells several figures of one kind apart, as part of an id.
func idPart(of string) string {
	var b strings.Builder
	gap := true
	for _, r := range strings.ToLower(of) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			if gap {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
		} else {
			gap = true
		}
	}
	return b.String()
}
