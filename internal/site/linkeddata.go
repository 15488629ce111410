package site

import (
	"encoding/json"
	"html/template"
	"path"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/site/view"
)

// What a page says of itself to machines, in the open vocabularies of
// schema.org (as JSON-LD) and of the Open Graph protocol. Both are about public
// pages, so that a journal without an address has neither.

// described is a thing of schema.org. Its fields are those that this site can fill
// with what a reader sees on the page too.
type described struct {
	Context     string     `json:"@context,omitempty"`
	Type        string     `json:"@type"`
	Name        string     `json:"name,omitempty"`
	Headline    string     `json:"headline,omitempty"`
	URL         string     `json:"url,omitempty"`
	Description string     `json:"description,omitempty"`
	Language    string     `json:"inLanguage,omitempty"`
	Published   string     `json:"datePublished,omitempty"`
	Modified    string     `json:"dateModified,omitempty"`
	Author      *described `json:"author,omitempty"`
	PartOf      *described `json:"isPartOf,omitempty"`
	BasedOn     string     `json:"isBasedOn,omitempty"`
	Category    string     `json:"recipeCategory,omitempty"`
	Yield       string     `json:"recipeYield,omitempty"`
	Ingredients []string   `json:"recipeIngredient,omitempty"`
	Keywords    []string   `json:"keywords,omitempty"`
	Image       string     `json:"image,omitempty"`
}

// describe puts a page's description of itself into its frame.
func (w pageWriter) describe(f *view.Frame, thing described) {
	if f.Canonical == "" {
		return
	}
	thing.Context, thing.URL, thing.Description, thing.Language = "https://schema.org", f.Canonical, f.Description, f.Language
	thing.Image = f.Image
	if w.settings.Keeper.Text != "" {
		thing.Author = &described{Type: "Person", Name: w.settings.Keeper.Text}
	}
	if thing.Type != "Blog" {
		thing.PartOf = &described{Type: "Blog", Name: w.bookTitle(), URL: w.address()}
	}
	data, err := json.Marshal(thing) // it escapes what could end a script
	if err != nil {
		return
	}
	f.LinkedData = template.JS(data)
}

// describeGyle tells of a gyle as of a recipe that was brewed.
func (w pageWriter) describeGyle(f *view.Frame, g *book.Gyle) {
	f.Image = w.publicPicture(g)
	thing := described{Type: "Recipe", Name: beer(g), Headline: f.Title, Category: g.Style.Name, Yield: w.text(g.Fermenter.Volume)}
	if thing.Yield == "" {
		thing.Yield = w.text(g.Aim.Volume)
	}
	if !g.Begun.IsZero() && !g.Begun.After(w.book.Now) {
		thing.Published, thing.Modified = w.spell.isoDay(g.Begun), w.spell.isoDay(w.lastEvent(g))
	}
	if w.published(g.Follows) {
		thing.BasedOn = w.public(gylePath(g.Follows))
	}
	for _, t := range g.Tags {
		thing.Keywords = append(thing.Keywords, t.Text)
	}
	for _, u := range g.Uses() {
		if u.Subject == nil {
			continue
		}
		switch u.Subject.Kind {
		case "malt", "sugar", "hop", "yeast", "fruit", "water", "salt":
			thing.Ingredients = append(thing.Ingredients, phrase(", ", u.Subject.Name, u.Amount))
		}
	}
	f.Published = thing.Published
	w.describe(f, thing)
}

// describeNote tells of a note as of a blog's entry.
func (w pageWriter) describeNote(f *view.Frame, n *noteEntry) {
	thing := described{Type: "BlogPosting", Name: n.title(), Headline: n.title()}
	if n.note.On.Written() {
		thing.Published = w.spell.isoDay(n.note.On.Time)
		f.Published = thing.Published
	}
	w.describe(f, thing)
}

// publicPicture is the public address of a gyle's cover, else of the first of
// its photos, "" for neither.
func (w pageWriter) publicPicture(g *book.Gyle) string {
	for _, file := range w.gylePhotos(g) {
		if _, listed := w.files[path.Clean(file)]; !listed {
			continue
		}
		if p := w.photos.look(path.Clean(file)); p.err == nil {
			sizes := p.look.Sizes()
			return w.public(p.path(sizes[len(sizes)-1]))
		}
	}
	return ""
}

// isoDay is a date as ISO 8601 has it, in the journal's zone.
func (s speller) isoDay(t time.Time) string { return t.In(s.zone).Format(time.DateOnly) }
