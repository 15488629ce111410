package site

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	"gylebook/internal/site/view"
)

// What the board shows of each kind, and how many of the newest a page lists.
const (
	boardNewest  = 6
	boardComing  = 10
	boardNotices = 40
)

// BoardPage is board.html: what is in the house, what wants seeing to, what is to come.
// Empty beers are on the gyle list.
type BoardPage struct {
	view.Frame
	Rungs   []Rung
	Notices []view.Notice // the errors, dangers and what to mend, of everything
	Quiet   string        // what else there is to see: "12 notes on single pages"
	Coming  []Dated       // what the calendar holds
}

// Rung is one stage with its gyles.
type Rung struct {
	Stage string
	Gyles []view.GyleRow
}

// Dated is what happens on one day, or at one moment.
type Dated struct {
	When string
	What []view.Link
}

var _ = declare(pagesOf[*Site, BoardPage]{
	path: board, template: "board.html", menu: menu{1, "Board"}, fill: pageWriter.board,
})

// board is the page that has the errors of every broken file, as the home page does.
const board = "board/index.html"

func (w pageWriter) board(v *BoardPage, _ *Site) {
	v.Title, v.Description = "Board", "What is in the house, what wants seeing to, and what is to come."
	for _, rung := range w.book.Board {
		gyles := w.publishedOf(rung.Gyles)
		if rung.Stage != figures.Empty && len(gyles) > 0 {
			v.Rungs = append(v.Rungs, Rung{Stage: rung.Stage.String(), Gyles: w.rowsOf(gyles)})
		}
	}
	v.Notices, v.Quiet = w.boardNotices()
	v.Coming = w.coming(boardComing)
}

// aboutNotice is a notice with the gyle that it is about.
type aboutNotice struct {
	notice.Notice
	about view.Link
}

// allNotices are those of everything that are not accepted, and the accepted dangers.
func (w pageWriter) allNotices() []aboutNotice {
	var all []aboutNotice
	take := func(n notice.Notice, about view.Link) {
		if n.Accepted == "" || n.Severity == notice.Danger {
			all = append(all, aboutNotice{n, about})
		}
	}
	for _, g := range w.gyles {
		for _, n := range w.gyleNotices(g) {
			take(n, w.gyle(g))
		}
	}
	for _, n := range w.presentable(w.looseNotices()) {
		take(n, view.Link{})
	}
	return all
}

// graveNotices are the errors, the dangers and what to mend, the gravest first.
func (w pageWriter) graveNotices() []aboutNotice {
	grave := slices.DeleteFunc(w.allNotices(), func(n aboutNotice) bool { return n.Severity < notice.Mend })
	slices.SortStableFunc(grave, func(x, y aboutNotice) int { return notice.Graver(x.Notice, y.Notice) })
	return grave
}

// boardNotices are the grave ones; the rest is counted.
func (w pageWriter) boardNotices() ([]view.Notice, string) {
	grave := w.graveNotices()
	rest := len(w.allNotices()) - min(len(grave), boardNotices)
	var out []view.Notice
	for _, n := range grave[:min(len(grave), boardNotices)] {
		out = append(out, w.notice(n.Notice, n.about))
	}
	if rest == 0 {
		return out, ""
	}
	return out, counted(rest, "smaller matter") + " on the pages of single gyles, cards and notes."
}

// looseNotices are those of no published gyle: the book's, the site's of other
// files, the replacement templates'. Those of drafts are left out.
func (s *Site) looseNotices() []notice.Notice {
	all := slices.Clone(s.book.Notices)
	for _, st := range s.byFile {
		if s.book.GyleIn(st.entry.File) == nil {
			all = append(all, s.storyNotices(st)...)
		}
	}
	all = append(all, s.theme.notices()...)
	return slices.DeleteFunc(all, func(n notice.Notice) bool {
		g := s.whole.GyleIn(n.Place.File)
		return g != nil && !s.published(g)
	})
}

// newest is the latest gyles and notes together.
func (w pageWriter) newest() []view.Story {
	type dated struct {
		when  time.Time
		story view.Story
	}
	var all []dated
	for _, g := range w.gyles[:min(len(w.gyles), 4*boardNewest)] {
		if g.Sheet.Stage > figures.Paper {
			all = append(all, dated{g.Begun, w.gyleStory(g)})
		}
	}
	for _, n := range w.notes[:min(len(w.notes), boardNewest)] {
		all = append(all, dated{n.note.On.Time, w.noteStory(n)})
	}
	slices.SortStableFunc(all, func(x, y dated) int { return y.when.Compare(x.when) })
	var out []view.Story
	for _, d := range all[:min(len(all), boardNewest)] {
		out = append(out, d.story)
	}
	return out
}

func (w pageWriter) gyleStory(g *book.Gyle) view.Story {
	return view.Story{Title: w.numbered(g), When: w.spell.day(g.Begun), Summary: cmp.Or(g.Summary.Text, w.story(g.File).excerpt)}
}

// coming is what the calendar holds from now on, so many things of it.
func (w pageWriter) coming(most int) []Dated {
	var out []Dated
	count := 0
	for _, e := range w.events() {
		if !e.Planned && e.At.Before(w.book.Now) || e.Gyle.Sheet.Stage == figures.Empty {
			continue
		}
		when := w.nearDay(e.At)
		if !e.AllDay {
			when += ", " + e.At.In(w.spell.zone).Format("15:04")
		}
		link := w.gyle(e.Gyle)
		link.Text += ": " + lowerFirst(e.Says)
		if last := len(out) - 1; last >= 0 && out[last].When == when {
			out[last].What = append(out[last].What, link)
		} else {
			out = append(out, Dated{When: when, What: []view.Link{link}})
		}
		if count++; count == most {
			break
		}
	}
	return out
}

// events is the calendar as it may be published.
func (s *Site) events() []book.Event {
	return slices.DeleteFunc(slices.Clone(s.book.Calendar()), func(e book.Event) bool {
		return !s.published(e.Gyle) || (e.What == book.Party || e.What == book.PlanStep) && s.private.Party
	})
}

func lowerFirst(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToLower(text[:1]) + text[1:]
}
