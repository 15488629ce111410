package site

import (
	"cmp"
	"html/template"
	"slices"
	"strings"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	"gylebook/internal/site/view"
)

// What the board shows of each kind. The stage of empty beer has only the
// latest, since all of it is on the gyle list.
const (
	boardEmpty   = 5
	boardNewest  = 6
	boardComing  = 10
	boardNotices = 40
)

// BoardPage is board.html, the home page: what is in the house, what wants seeing to, what is new.
type BoardPage struct {
	view.Frame
	Heading string
	Body    template.HTML // the words of index.md
	Rungs   []Rung
	Notices []view.Notice // the errors, dangers and what to mend, of everything
	Quiet   string        // what else there is to see: "12 notes on single pages"
	Newest  []view.Story
	Coming  []Dated // what the calendar holds
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
	path: "index.html", template: "board.html", menu: menu{1, "Board"}, fill: pageWriter.board,
})

func (w pageWriter) board(v *BoardPage, _ *Site) {
	v.Title, v.Heading = w.bookTitle(), w.bookTitle()
	v.Body = template.HTML(w.placed(w.story(w.settings.File).html, w.path))
	v.Description = cmp.Or(w.story(w.settings.File).excerpt, w.count())
	for _, rung := range w.book.Board {
		gyles := w.publishedOf(rung.Gyles)
		if rung.Stage == figures.Empty {
			gyles = gyles[:min(len(gyles), boardEmpty)]
		}
		if len(gyles) > 0 {
			v.Rungs = append(v.Rungs, Rung{Stage: rung.Stage.String(), Gyles: w.rowsOf(gyles)})
		}
	}
	v.Notices, v.Quiet = w.boardNotices()
	v.Newest, v.Coming = w.newest(), w.coming()
	w.describe(&v.Frame, described{Type: "Blog", Name: w.bookTitle()})
}

// boardNotices is everything that wants seeing to, the gravest first: errors,
// dangers and what to mend stand here; the rest is counted.
func (w pageWriter) boardNotices() ([]view.Notice, string) {
	type shown struct {
		notice.Notice
		about view.Link
	}
	var grave []shown
	quiet := 0
	sort := func(n notice.Notice, about view.Link) {
		switch {
		case n.Accepted != "":
		case n.Severity >= notice.Mend:
			grave = append(grave, shown{n, about})
		default:
			quiet++
		}
	}
	for _, g := range w.gyles {
		for _, n := range w.gyleNotices(g) {
			sort(n, w.gyle(g))
		}
	}
	for _, n := range w.presentable(w.looseNotices()) {
		sort(n, view.Link{})
	}
	slices.SortStableFunc(grave, func(x, y shown) int { return notice.Graver(x.Notice, y.Notice) })
	var out []view.Notice
	for _, n := range grave[:min(len(grave), boardNotices)] {
		out = append(out, w.notice(n.Notice, n.about))
	}
	more := ""
	if rest := quiet + max(0, len(grave)-boardNotices); rest > 0 {
		more = counted(rest, "smaller matter") + " on the pages of single gyles, cards and notes."
	}
	return out, more
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

// coming is what the calendar holds from now on.
func (w pageWriter) coming() []Dated {
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
		if count++; count == boardComing {
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
