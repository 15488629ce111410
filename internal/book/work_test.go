package book

import (
	"os"
	"strings"
	"testing"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

func TestDrawnFromAnotherGyle(t *testing.T) {
	b := open(t, entries{
		"1.md":  "gyle: 1\nbeer: A\nbrewed: 2026-01-01\nfermenter: {volume: 20 L, gravity: 1.060}",
		"2.md":  "gyle: 2\nbeer: B\nbrewed: 2026-01-01\nfermenter: {volume: 20 L, gravity: 1.040}\nformerly: [20]",
		"3.md":  "gyle: 3\nbeer: C\ndrawn_from: [{gyle: 1, volume: 5 L, on: 2026-01-10}, {gyle: 20, volume: 5 L, on: 2026-01-10}]",
		"4.md":  "gyle: 4\nbeer: D\ndrawn_from: [{gyle: 3, volume: 5 L, on: 2026-01-11}]",
		"5.md":  "gyle: 5\nbeer: E\ndrawn_from: [{gyle: 6, volume: 5 L, on: 2026-01-11}]",
		"6.md":  "gyle: 6\nbeer: F\ndrawn_from: [{gyle: 5, volume: 5 L, on: 2026-01-11}]",
		"7.md":  "gyle: 7\nbeer: G\ndrawn_from: [{gyle: 7, volume: 5 L, on: 2026-01-11}, {gyle: 1, volume: 5 L, on: 2026-01-11}]",
		"8.md":  "gyle: 8\nbeer: H\nfermenter: {volume: 20 L, gravity: 1.040}\ndrawn_from: [{gyle: 9, volume: 5 L, on: 2026-01-11}]",
		"10.md": "gyle: 10\nbeer: J\ndrawn_from: [{gyle: 11, volume: 5 L, on: 2026-01-11}]",
		"11.md": "gyle: 11\nbeer: K\nfermenter: {volume: 20 L, gravity: 1.040}\ndrawn_from: [{gyle: 10, volume: 5 L, on: 2026-01-11}]",
		"9.md":  "gyle: 9\nbeer: I\ndrawn_from: [{gyle: 8, volume: 5 L, on: 2026-01-11}]",
	})
	for number, want := range map[int]float64{3: 1.050, 4: 1.050} {
		og, ok := b.Gyle(number).Sheet.Find("og", "")
		if !ok || og.Value < want-0.0005 || og.Value > want+0.0005 {
			t.Errorf("gyle %d: original gravity %v, want half way, about %v", number, og.Value, want)
		}
	}
	for _, number := range []int{5, 6, 7, 9, 10} {
		if og, ok := b.Gyle(number).Sheet.Find("og", ""); ok {
			t.Errorf("gyle %d, drawn from itself, has the original gravity %v", number, og.Value)
		}
	}
}

func TestAFaultOfOursLeavesTheOtherGyles(t *testing.T) {
	b := &Book{Journal: read(t, brewedOften(3)), Now: noon}
	b.gather(b.Journal.Gyles, nil)
	w := newWorkbench(b, nil)
	w.figure = func(g *journal.Gyle, c figures.Context) *figures.Sheet {
		if g.Number.N == 2 {
			panic("a number too many")
		}
		return figures.Work(g, c)
	}
	w.examine = func(s *figures.Sheet) []notice.Notice {
		if s.Gyle.Number.N == 3 {
			panic("a warning too many")
		}
		return nil
	}
	w.work()
	b.link() // an empty sheet must not trip what comes after
	for _, g := range b.Gyles {
		want := map[int]string{2: "a number too many", 3: "a warning too many"}[g.Number.N]
		if want == "" {
			if len(g.Notices) != 0 || len(g.Sheet.Figures) == 0 {
				t.Errorf("gyle 1 was touched: %v", g.Notices)
			}
			continue
		}
		if len(g.Notices) != 1 || g.Notices[0].ID != idFault || !strings.Contains(g.Notices[0].Says, want) || g.Sheet == nil {
			t.Errorf("gyle %d: %v, want one notice of %s", g.Number.N, g.Notices, want)
		}
	}
}

// TestWholeJournalsOpen opens the demonstration journal and the entry with
// every key at several clocks: nothing of ours may fail on them.
func TestWholeJournalsOpen(t *testing.T) {
	for _, folder := range []string{"../../journal", "../../testdata/journal", "../../testdata/gyles-by-hand", "testdata/family"} {
		j := journal.Read(os.DirFS(folder), journal.Options{})
		if len(j.Gyles) == 0 {
			t.Errorf("%s has no gyle", folder)
		}
		for _, years := range []int{-9, 0, 9} {
			b := Open(j, noon.AddDate(years, 0, 0))
			for _, c := range b.Concerns() {
				if c.ID == idFault {
					t.Error(c.Notice)
				}
			}
			if again := Open(j, b.Now); portrait(again) != portrait(b) {
				t.Errorf("%s: opened twice, two books", folder)
			}
		}
	}
}

func TestAJournalOfNothing(t *testing.T) {
	for name, j := range map[string]*journal.Journal{
		"empty": read(t, nil), "zero": {}, "no larder": {Gyles: read(t, brewedOften(2)).Gyles},
	} {
		b := Open(j, noon)
		if b.Subject("hop", "goldings") != nil && name != "no larder" {
			t.Errorf("%s: a hop that nobody used", name)
		}
		if len(b.Board) != len(figures.Stages()) || b.Gyle(99) != nil || b.GyleIn("nowhere.md") != nil {
			t.Errorf("%s: %+v", name, b.Board)
		}
		b.Published()
	}
}
