package book

import (
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// steps is changes in words.
func steps(all []Step) string {
	var out strings.Builder
	for _, s := range all {
		fmt.Fprintf(&out, "gyle %s to gyle %s\n", s.From.Slug, s.To.Slug)
		for _, c := range s.Recipe {
			fmt.Fprintf(&out, "  %s\n", inWords(c))
		}
		for _, c := range s.Results {
			fmt.Fprintf(&out, "  came out: %s\n", inWords(c))
		}
	}
	return out.String()
}

func inWords(c Change) string {
	was, is := firstOf(c.Was.Text, "none"), firstOf(c.Is.Text, "none")
	text := fmt.Sprintf("%s %s: %s to %s", c.Part, c.Label, was, is)
	if !math.IsNaN(c.By) {
		text += ", by " + phrase(quantity.Plain(c.By), c.Unit)
	}
	if c.PlusMinus > 0 {
		text += " ± " + quantity.Plain(c.PlusMinus)
	}
	if !c.Clear() {
		text += ", not clear of its doubt"
	}
	return text
}

// TestChangesOfAFamily compares the recipe's changes and the scores with those
// reviewed. The other results are figures, and have tests of their own.
//
// The family is three brewings of one beer: the second moves the mash and the
// crystal malt and changes the yeast; the third is still on paper and has no
// yeast or boil yet. Weights in other units that come to the same are no change.
func TestChangesOfAFamily(t *testing.T) {
	const golden = "testdata/family/changes.golden"
	b := Open(journal.Read(os.DirFS("testdata/family"), journal.Options{}), noon)
	if len(b.Families) != 1 {
		t.Fatalf("%d families, want 1", len(b.Families))
	}
	family := b.Families[0]
	changes := family.Steps()
	for i := range changes {
		changes[i].Results = slices.DeleteFunc(changes[i].Results, func(c Change) bool { return c.Figure != "" })
	}
	got := fmt.Sprintf("%s (%s): %s\n%s", family.Name, family.Slug, slugsOf(family.Gyles), steps(changes))
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Error(diff)
	}
}

func TestResultsSideBySide(t *testing.T) {
	b := open(t, entries{
		"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-01-01\nfermenter: {volume: 20 L, gravity: 1.040}\ncopper: {after: {volume: 22 L, gravity: 1.040}}",
		"2.md": "gyle: 2\nbeer: A\nbrewed: 2026-02-01\nfollows: 1\nfermenter: {volume: 20 L, gravity: 1.050}",
	})
	f := b.Families[0]
	for _, r := range SideBySide(f.Gyles) {
		if r.Figure != "og" || r.Part != OfResult {
			continue
		}
		for i, g := range f.Gyles {
			og, ok := g.Sheet.Find("og", "")
			if !ok || r.Cells[i].Value != og.Value || r.Cells[i].PlusMinus != og.PlusMinus {
				t.Errorf("gyle %s: the cell has %+v, the sheet %v", g.Slug, r.Cells[i], og.Value)
			}
		}
		c := f.Steps()[0].Results[0]
		if want := r.Cells[1].Value - r.Cells[0].Value; c.By != want || !c.Clear() || c.PlusMinus < r.Cells[0].PlusMinus {
			t.Errorf("the change is %+v, want by %v", c, want)
		}
		return
	}
	t.Error("no row for the original gravity")
}

func TestLineage(t *testing.T) {
	b := open(t, entries{
		"1.md": "gyle: 1\nbeer: Root\nbrewed: 2026-01-01",
		"2.md": "gyle: 2\nbeer: Left\nbrewed: 2026-02-01\nfollows: 1",
		"3.md": "gyle: 3\nbeer: Right\nbrewed: 2026-03-01\nfollows: 1",
		"4.md": "gyle: 4\nbeer: Alone\nbrewed: 2026-03-02",
		"5.md": "gyle: 5\nbeer: Ring\nbrewed: 2026-04-01\nfollows: 6",
		"6.md": "gyle: 6\nbeer: Ring\nbrewed: 2026-05-01\nfollows: 5",
		"7.md": "gyle: 7\nbeer: Right\nbrewed: 2026-01-15",
		"8.md": "gyle: 8\nbeer: Right\nfollows: 7",
		"9.md": "gyle: 9\nbeer: Blend\ndrawn_from: [{gyle: 3, volume: 5 L}, {gyle: 4, volume: 5 L}, {gyle: 3, volume: 1 L}]",
	})
	if got := slugsOf(b.Gyle(1).Revised); got != "2 3" {
		t.Errorf("gyle 1 is revised by %s, want 2 3", got)
	}
	if b.Gyle(5).Follows != nil || b.Gyle(6).Follows != nil {
		t.Error("a ring of revisions is not cut")
	}
	if got := slugsOf(b.Gyle(9).Drawn) + ", " + slugsOf(b.Gyle(3).Parted); got != "3 4, 9" {
		t.Errorf("drawn and parted: got %s, want 3 4, 9", got)
	}
	var got []string
	for _, f := range b.Families {
		got = append(got, f.Name+" "+f.Slug+": "+slugsOf(f.Gyles))
	}
	want := "Right right-7: 7 8; Ring ring: 5 6; Right right: 1 2 3"
	if joined := strings.Join(got, "; "); joined != want {
		t.Errorf("families: got %s, want %s", joined, want)
	}
	if b.Gyle(4).Family != nil {
		t.Error("a gyle alone has a family")
	}
}

func TestRingsOfAGraph(t *testing.T) {
	graph := graphOfGyles{{1}, {2}, {0}, {2, 3}, {}, {4, 3}}
	order, rings := graph.untangled()
	place := map[int]int{}
	for i, node := range order {
		place[node] = i
	}
	for node, to := range graph {
		for _, next := range to {
			if !rings.same(node, next) && place[next] > place[node] {
				t.Errorf("%d stands before %d, which it leads to", node, next)
			}
		}
	}
	for node, on := range []bool{true, true, true, true, false, false} {
		if (rings[node] > 0) != on {
			t.Errorf("node %d on a ring: got %t, want %t", node, rings[node] > 0, on)
		}
	}
	if rings.same(0, 3) {
		t.Error("two rings are taken for one")
	}
}
