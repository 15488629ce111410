package site

import (
	"cmp"
	"html/template"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	"gylebook/internal/site/view"
)

// What the front page shows of each kind; all of it is on the board.
const (
	frontOn       = 4
	frontComing   = 5
	frontDangers  = 5
	frontOpening  = 2   // paragraphs
	frontNewest   = 650 // letters of the newest story
	leastOfAStory = 400 // letters of a story that is worth the front page
)

// FrontPage is front.html, the home page: whose book this is, the newest story, what is
// on and what is to come.
type FrontPage struct {
	view.Frame
	Heading  string
	Scene    view.Picture  // the first picture of index.md
	Opening  template.HTML // its first paragraphs
	About    template.HTML // the rest of it
	Dangers  []view.Notice
	Grave    string // what else wants seeing to: "2 to mend"
	BoardRef string
	Newest   *Newest // nil while nothing has been brewed
	On       []view.GyleRow
	Coming   []Dated
	Stories  []view.Story // the next newest
}

// Newest is a gyle whose story begins on the front page.
type Newest struct {
	Beer    view.Link
	Number  string
	When    string
	Begins  string
	Picture view.Picture
	Chart   template.HTML // in place of a picture
}

var _ = declare(pagesOf[*Site, FrontPage]{path: front, template: "front.html", fill: pageWriter.front})

// front is the home page.
const front = "index.html"

func (w pageWriter) front(v *FrontPage, _ *Site) {
	v.Title, v.Heading, v.BoardRef = w.bookTitle(), w.bookTitle(), w.to(board)
	words := w.story(w.settings.File)
	v.Description = cmp.Or(words.excerpt, w.count())
	scene, text := lifted(w.placed(words.html, w.path), "")
	opening, about := opened(text)
	v.Scene, v.Opening, v.About = scene, template.HTML(opening), template.HTML(about)
	w.alarm(v)
	v.Newest, v.Stories = w.newestGyle(), w.newest()
	if v.Newest != nil {
		v.Stories = without(v.Stories, v.Newest.Beer.Href)
	}
	v.On, v.Coming = w.on(), w.coming(frontComing)
	w.describe(&v.Frame, described{Type: "Blog", Name: w.bookTitle()})
}

// opened parts a story after its first paragraphs, or before its first heading.
func opened(text string) (opening, rest string) {
	end := len(text)
	if i := strings.Index(text, "<h2"); i >= 0 {
		end = i
	}
	at := 0
	for range frontOpening {
		i := strings.Index(text[at:end], "</p>")
		if i < 0 {
			break
		}
		at += i + len("</p>")
	}
	if at == 0 {
		at = end
	}
	return text[:at], text[at:]
}

// alarm is what is dangerous now, a line each, and how much else there is to see to.
func (w pageWriter) alarm(v *FrontPage) {
	var rest []notice.Notice
	for _, n := range w.graveNotices() {
		if n.Severity == notice.Danger && len(v.Dangers) < frontDangers {
			v.Dangers = append(v.Dangers, w.notice(n.Notice, n.about))
		} else {
			rest = append(rest, n.Notice)
		}
	}
	v.Grave = countedBySeverity(rest)
}

// newestGyle is the gyle brewed last whose story is more than a line or two; else the
// one brewed last.
func (w pageWriter) newestGyle() *Newest {
	var newest *book.Gyle
	for _, g := range w.gyles {
		if g.Sheet.Stage == figures.Paper {
			continue
		}
		if len(w.story(g.File).begins) >= leastOfAStory {
			newest = g
			break
		}
		if newest == nil {
			newest = g
		}
	}
	if newest == nil {
		return nil
	}
	n := &Newest{Beer: w.gyle(newest), Number: newest.Slug, When: w.spell.day(newest.Begun), Begins: w.story(newest.File).begins}
	n.Begins = cmp.Or(n.Begins, newest.Summary.Text)
	var page GylePage
	w.tell(&page, newest)
	if n.Picture = page.Cover; n.Picture.HTML == "" {
		n.Chart = w.fermentationChart(newest)
	}
	return n
}

// without are the stories but the one at an address.
func without(all []view.Story, href string) []view.Story {
	var kept []view.Story
	for _, s := range all {
		if s.Title.Href != href {
			kept = append(kept, s)
		}
	}
	return kept
}

// on is what is in the house, what pours first.
func (w pageWriter) on() []view.GyleRow {
	var on []view.GyleRow
	for stage := figures.Pouring; stage >= figures.Copper; stage-- {
		for _, rung := range w.book.Board {
			if rung.Stage == stage {
				on = append(on, w.rowsOf(rung.Gyles)...)
			}
		}
	}
	return on[:min(len(on), frontOn)]
}
