package book

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// noon is the clock of most tests.
var noon = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)

const settingsFile = "---\njournal: A test book\naddress: https://brewing.example/log\nprivate: [nothing]\n---\n"

// entries are files of a journal, each the front matter alone: the name and its
// lines.
type entries map[string]string

func read(t testing.TB, files entries) *journal.Journal {
	t.Helper()
	fsys := fstest.MapFS{"index.md": {Data: []byte(settingsFile)}}
	for name, front := range files {
		fsys[name] = &fstest.MapFile{Data: []byte("---\n" + strings.TrimSpace(front) + "\n---\n\nThe story.\n")}
	}
	return journal.Read(fsys, journal.Options{})
}

func open(t testing.TB, files entries) *Book {
	t.Helper()
	return Open(read(t, files), noon)
}

func slugsOf(gyles []*Gyle) string {
	var all []string
	for _, g := range gyles {
		all = append(all, g.Slug)
	}
	return strings.Join(all, " ")
}

// idsOf are a gyle's notices of the book's own, with the part and severity.
func idsOf(g *Gyle) []string {
	own := map[string]bool{}
	for _, r := range Rules() {
		own[r.ID] = true
	}
	var ids []string
	for _, n := range g.Notices {
		if own[n.ID] {
			ids = append(ids, fmt.Sprintf("%s %s %s", n.Severity, n.ID, n.Of))
		}
	}
	slices.Sort(ids)
	return ids
}

func TestOrderOfBrewing(t *testing.T) {
	b := open(t, entries{
		"gyles/a.md": "gyle: 3\nbeer: C\nbrewed: 2026-03-01",
		"gyles/b.md": "gyle: 1\nbeer: A\nbrewed: 2026-03-01 18:00",
		"gyles/c.md": "gyle: 2\nbeer: B\nyeast: {yeast: ale, pitched: 2026-02-01}",
		"gyles/d.md": "gyle: 4\nbeer: D",
		"gyles/e.md": "gyle: 5\nbeer: E\nparty: {on: 2020-01-01}",
		"gyles/f.md": "gyle: 6\nbeer: F\nbrewed: 2027-01-01",
	})
	if got, want := slugsOf(b.Gyles), "5 4 6 1 3 2"; got != want {
		t.Errorf("order of pages: got %s, want %s", got, want)
	}
	if got := b.Gyle(2).Begun.Format(time.DateOnly); got != "2026-02-01" {
		t.Errorf("gyle 2 began %s, want the day of its yeast", got)
	}
	if !b.Gyle(5).Begun.IsZero() {
		t.Error("a party says when a gyle began")
	}
	var years []string
	for _, y := range b.Years {
		years = append(years, y.Name+": "+slugsOf(y.Gyles))
	}
	if got, want := strings.Join(years, "; "), "2027: 6; 2026: 1 3 2"; got != want {
		t.Errorf("years: got %s, want %s", got, want)
	}
}

func TestFoldersOfGyles(t *testing.T) {
	b := open(t, entries{
		"gyles/first.md":  "gyle: 7\nbeer: One\nbrewed: 2026-02-01",
		"gyles/second.md": "gyle: 7\nbeer: Other\nbrewed: 2026-01-01",
		"gyles/third.md":  "gyle: seven\nbeer: Unnumbered",
		"gyles/fourth.md": "gyle: 9\nbeer: New\nformerly: [8, 7, 9]",
	})
	for file, want := range map[string]string{
		"gyles/first.md": "7", "gyles/second.md": "7-second", "gyles/third.md": "third", "gyles/fourth.md": "9",
	} {
		if got := b.GyleIn(file).Slug; got != want {
			t.Errorf("%s: folder %s, want %s", file, got, want)
		}
	}
	if b.Gyle(8) != b.Gyle(9) {
		t.Error("an old number does not lead to the gyle that had it")
	}
	if b.Gyle(7) != b.GyleIn("gyles/first.md") {
		t.Error("a number in use leads elsewhere because another gyle formerly had it")
	}
	want := []string{"look number-in-use formerly[1]", "look number-in-use formerly[2]"}
	if got := idsOf(b.Gyle(9)); !slices.Equal(got, want) {
		t.Errorf("notices %q, want %q", got, want)
	}
	for _, file := range []string{"gyles/first.md", "gyles/second.md", "gyles/third.md"} {
		if n := b.GyleIn(file).Notices; len(n) == 0 || n[0].Severity != notice.Unreadable {
			t.Errorf("%s: its error is not at the head of its notices", file)
		}
	}
}

func TestErrorsOfNoGyle(t *testing.T) {
	b := open(t, entries{
		"cards/h.md":   "card: hop\nname: goldings\nalpha: 5 L",
		"cards/i.md":   "card: hop\nname: Goldings",
		"gyles/one.md": "gyle: 1\nbeer: One\nbrewed: yesterday",
	})
	if len(b.Notices) < 3 {
		t.Errorf("%d notices of no gyle, want the hop's error and both cards of one name: %v", len(b.Notices), b.Notices)
	}
	for _, n := range b.Notices {
		if !strings.HasPrefix(n.Place.File, "cards/") {
			t.Errorf("%v is not about a card", n)
		}
	}
	if n := b.Gyle(1).Notices; len(n) == 0 || n[0].Severity != notice.Unreadable {
		t.Errorf("gyle 1 lacks its error: %v", n)
	}
}

func TestConcernsRunFromTheGravest(t *testing.T) {
	b := open(t, entries{
		"gyles/one.md":   "gyle: 1\nbeer: One\nbrewed: soon\nfollows: 99",
		"gyles/two.md":   "gyle: 2\nbeer: Two\nbrewed: 2026-01-01\nfollows: 98\naccept: [{finding: no-such-gyle, because: it was in the old book}]",
		"gyles/three.md": "gyle: 3\nbeer: Three\nbrewed: 2026-02-01\nfollows: 97\nserved: {emptied: 2026-03-01}",
		"gyles/five.md":  "gyle: 5\nbeer: Five\nbrewed: 2025-01-01\nserved: {emptied: 2025-02-01}\nunheard: of",
		"gyles/four.md":  "gyle: 4\nbeer: Four\nbrewed: 2026-01-02\nfollows: 96",
	})
	var own []string
	last := notice.Unreadable
	for _, c := range b.Concerns() {
		if c.Severity > last {
			t.Errorf("%v comes after something less grave", c.Notice)
		}
		last = c.Severity
		if c.ID == "no-such-gyle" {
			own = append(own, c.Gyle.Slug)
		}
	}
	if got, want := strings.Join(own, " "), "1 4 3"; got != want {
		t.Errorf("gyles with a lost number: got %s, want %s: what is there before what is empty, the latest first, the accepted not at all", got, want)
	}
	accepted := b.Gyle(2).Notices
	if n := accepted[len(accepted)-1]; n.Accepted != "it was in the old book" {
		t.Errorf("the accepted finding is not last with its reason: %+v", n)
	}
}

func TestDraftsLeaveNoTrace(t *testing.T) {
	full := open(t, entries{
		"gyles/one.md":   "gyle: 1\nbeer: One\nbrewed: 2026-01-01\ntags: [secret, plain]",
		"gyles/two.md":   "gyle: 2\nbeer: Two\nbrewed: 2026-02-01\nfollows: 1\ntags: [hidden]\nhops: {hop: moonshadow, weight: 5 g, boiled: 60 min}\ndraft: true",
		"gyles/three.md": "gyle: 3\nbeer: Three\nbrewed: 2026-03-01\nfollows: 2",
		"notes/n.md":     "title: Draft note\ndraft: true\ntags: [notehidden]\non: someday",
	})
	b := full.Published()
	for name, text := range map[string]string{"gyle": "Two", "tag": "hidden", "hop": "moonshadow", "note": "Draft note", "note's error": "notes/n.md"} {
		if !strings.Contains(portrait(full), text) {
			t.Fatalf("the test's own %s is not in the full book", name)
		}
		if strings.Contains(portrait(b), text) {
			t.Errorf("the draft's %s is still there", name)
		}
	}
	if len(b.Families) != 0 || b.Gyle(3).Follows != nil {
		t.Error("a family is held together by a draft")
	}
	if b.Gyle(3).Sheet != full.Gyle(3).Sheet {
		t.Error("publishing worked a gyle out anew")
	}
	if full.Gyle(3).Follows != full.Gyle(2) {
		t.Error("leaving drafts out changed the book itself")
	}
}

// portrait is all of a book in words, to compare two by.
func portrait(b *Book) string {
	var out strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&out, format+"\n", args...) }
	for _, g := range b.Gyles {
		say("gyle %s %s %s %s, follows %s, revised %s, drawn %s, parted %s", g.Slug, g.File, g.Beer.Text, g.Begun, slugsOf(some(g.Follows)), slugsOf(g.Revised), slugsOf(g.Drawn), slugsOf(g.Parted))
		say("  %s; %+v", g.Status, g.Tasted)
		for _, n := range g.Formerly {
			if has := b.Gyle(n.N); has != nil {
				say("  number %d leads to %s", n.N, has.File)
			}
		}
		past := g.Sheet.Past
		if past.Next != nil {
			say("  next %+v", *past.Next)
			past.Next = nil
		}
		say("  past %+v", past)
		json, err := figures.JSON(g.Sheet, g.Notices)
		say("  %s %v", json, err)
		for _, u := range g.Uses() {
			say("  %s %s %s %v", u.Subject.Kind, u.Subject.Name, u.Amount, u.Where)
		}
	}
	for _, s := range b.Subjects {
		say("subject %s %s %s %t", s.Kind, s.Name, s.Slug, s.Card != nil)
		for _, u := range b.Uses(s) {
			say("  %s %s %v", u.Gyle.Slug, u.Amount, u.Where)
		}
	}
	for _, f := range b.Families {
		say("family %s %s %s", f.Name, f.Slug, slugsOf(f.Gyles))
		for _, r := range SideBySide(f.Gyles) {
			say("  %s %s %v", r.Part, r.Label, r.Cells)
		}
		say("%s", steps(f.Steps()))
	}
	for _, g := range slices.Concat(b.Tags, b.Years) {
		say("group %s %s %s %d", g.Name, g.Slug, slugsOf(g.Gyles), len(g.Notes))
	}
	for _, n := range b.Notes {
		say("note %s %s", n.File, n.Title)
	}
	for _, s := range slices.Concat([]Series{b.Trends().BrewhouseYield, b.Trends().MashYield}, b.Trends().Losses, b.Trends().Attenuation, b.Trends().Aims) {
		say("series %s %s %+v", s.ID, s.Of, s.Learned)
		for _, p := range s.Points {
			say("  %s %v ± %v of %v", p.Gyle.Slug, p.Value, p.PlusMinus, p.Aim)
		}
	}
	for _, e := range b.Calendar() {
		say("event %s %s %s %s %v", e.At, e.Gyle.Slug, e.Says, e.UID(b), e.PlusMinus)
	}
	for _, r := range b.Board {
		say("rung %s %s", r.Stage, slugsOf(r.Gyles))
	}
	for _, c := range b.Concerns() {
		say("concern %s", c.Notice)
	}
	return out.String()
}

func some(g *Gyle) []*Gyle {
	if g == nil {
		return nil
	}
	return []*Gyle{g}
}
