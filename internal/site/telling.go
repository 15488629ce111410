package site

import (
	"html"
	"html/template"
	"path"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/site/view"
)

// tell puts a gyle's story on its page: its picture, which stands at the head and not
// in the story as well, its words, and its footnotes, which may stand in the margin.
func (w pageWriter) tell(v *GylePage, g *book.Gyle) {
	story := w.placed(w.story(g.File).html, w.path)
	src := ""
	if g.Cover.Text != "" {
		shown, _ := w.show(path.Clean(g.Cover.Text))
		src = w.placed(shown.Src, w.path)
	}
	if g.Cover.Text == "" || w.inStory(g, path.Clean(g.Cover.Text)) {
		v.Cover, story = lifted(story, src)
	} else {
		v.Cover = w.cover(g)
	}
	story, notes, noted := strings.Cut(story, footnotes)
	if noted {
		v.Footnotes = template.HTML(footnotes + notes)
	}
	v.Story = template.HTML(story)
}

// footnotes begins those of a story, which come last.
const footnotes = `<div class="footnotes"`

// lifted takes the first picture with this address, or with any for "", out of a story.
func lifted(story, src string) (view.Picture, string) {
	const begins, ends = "<figure>", "</figure>"
	before, rest, found := strings.Cut(story, begins+`<img src="`+src)
	inner, after, closed := strings.Cut(rest, ends)
	if !found || !closed {
		return view.Picture{}, story
	}
	image, caption, _ := strings.Cut(`<img src="`+src+inner, "<figcaption>")
	image = strings.Replace(image, ` loading="lazy"`, "", 1)
	caption = html.UnescapeString(strings.TrimSuffix(caption, "</figcaption>"))
	return view.Picture{HTML: template.HTML(image), Caption: caption}, before + strings.TrimLeft(after, "\n")
}
