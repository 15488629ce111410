package journal

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const setEntry = `---
gyle: 14
beer: Towpath Mild
racked: {on: 2026-03-16, volume: 21 L}
hops:
  - {hop: goldings, weight: 25 g, boiled: 60 min}
  - {hop: fuggles, weight: 15 g, boiled: 10 min}
yeast: {yeast: house ale}
sparge:
next: [one, two]
---
`

func TestSets(t *testing.T) {
	base := ReadFile("x.md", []byte(setEntry), nil)
	for _, c := range []struct{ sets, gone, come string }{
		{"racked.volume=20L", "racked.volume = 21 [L] @4:34", "racked.volume = 20 [L] @1:1"},
		{"racked.volume=", "racked.volume = 21 [L] @4:34", ""},
		{"racked=", "racked.on = 2026-03-16T00:00:00Z (a date) @4:14|racked.volume = 21 [L] @4:34", ""},
		{"hops[1].alpha = 4 % ", "", "hops[1].alpha = 4 [%] @1:1"},
		{"hops[+].hop=saaz|hops[2].weight=10 g", "", "hops[2].hop = name \"saaz\" @1:1|hops[2].weight = 10 [g] @2:1"},
		{"hops[+]={hop: saaz, dry: 3 days}", "", "hops[2].hop = name \"saaz\" @1:1|hops[2].dry = 4320 [days] @1:1"},
		{"aim.og=1.040", "", "aim.og = 1.04 [] @1:1"},
		{"sparge.at=76 C", "", "sparge.at = 76 [°C] @1:1"},
		{"yeast[0].at=19 C", "", "yeast[0].at = 19 [°C] @1:1"},
		{"mash.rests[+].at=66 C", "", "mash.rests[0].at = 66 [°C] @1:1"},
		{"summary=a=b: c", "", "summary = \"a=b: c\" @1:1"},
		{"summary=\"quoted # words\"", "", "summary = \"quoted # words\" @1:1"},
		{"tags=[a, b]", "", "tags[0] = \"a\" @1:1|tags[1] = \"b\" @1:1"},
		{"next[1]=three", "next[1] = \"two\" @10:13", "next[1] = \"three\" @1:1"},
		{"next[0]=|next[+]=three", "next[0] = \"one\" @10:8|next[1] = \"two\" @10:13",
			"next[0] = \"two\" @10:13|next[1] = \"three\" @2:1"},
		{"poured[+].volume=", "", ""},
		{"label.vegan=", "", ""},
	} {
		d := ReadFileSet("x.md", []byte(setEntry), nil, strings.Split(c.sets, "|"))
		want := map[string]bool{}
		for _, line := range strings.Split(summary(base), "\n") {
			want[line] = true
		}
		for _, line := range strings.Split(c.gone, "|") {
			if line != "" && !want[line] {
				t.Fatalf("%s: %q was never there:\n%s", c.sets, line, summary(base))
			}
			delete(want, line)
		}
		for _, line := range strings.Split(c.come, "|") {
			want[line] = true
		}
		got := map[string]bool{"": true}
		for _, line := range strings.Split(summary(d), "\n") {
			got[line] = true
		}
		want[""] = true
		if diff := cmp.Diff(want, got); diff != "" || len(d.Errors) > 0 {
			t.Errorf("%s (-want +got):\n%s%s", c.sets, diff, listing(d.Errors))
		}
	}
	if summary(base) != summary(ReadFile("x.md", []byte(setEntry), nil)) {
		t.Error("sets changed what is read without them")
	}
}

// TestSetPlace: a value from a set says which set it is from.
func TestSetPlace(t *testing.T) {
	d := ReadFileSet("x.md", []byte(setEntry), nil, []string{"aim.fg=1.010", "racked.volume=20 L"})
	if w := d.Gyle.Racked.Volume.Where; w.File != "--set" || w.Line != 2 || w.Key != "racked.volume" || !w.Written() {
		t.Errorf("%+v", w)
	}
}

func TestBadSets(t *testing.T) {
	for sets, want := range map[string]string{
		"racked.volume": "--set:1:1: error: racked.volume: no =: expected KEY=VALUE [bad-set]",
		"racked.volume=20": "--set:1:1: error: racked.volume: no unit after \"20\": expected one of L, mL, cL, hL, gal-uk, qt-uk, " +
			"pt-uk, fl-oz-uk, gal-us, qt-us, pt-us, fl-oz-us, m3 [wrong-unit]",
		"racked.volum=20 L":   "--set:1:1: error: \"volum\" is no key of racked [unknown-key]",
		"racked..volume=1":    "--set:1:1: error: racked..volume: a path with nothing between its dots [bad-set]",
		"=1":                  "--set:1:1: error: : a path with nothing between its dots [bad-set]",
		"hops[2].weight=1 g":  "--set:1:1: error: hops[2].weight: [2]: the list has 2, counted from 0; [+] adds one [bad-set]",
		"hops[x].weight=1 g":  "--set:1:1: error: hops[x].weight: [x]: expected [0], [1] … or [+] [bad-set]",
		"hops[0=1":            "--set:1:1: error: hops[0: [0: expected [0], [1] … or [+] [bad-set]",
		"hops[-1]=x":          "--set:1:1: error: hops[-1]: [-1]: expected [0], [1] … or [+] [bad-set]",
		"hops.weight=1 g":     "--set:1:1: error: hops.weight: no place for weight: it is in a list [bad-set]",
		"beer[0]=x":           "--set:1:1: error: beer[0]: a number in brackets after a single value [bad-set]",
		"tags=[a":             "--set:1:1: error: tags: a [ without its ], or parts without a comma between them [bad-set]",
		"gyle=":               "x.md:2:1: error: no gyle: expected its number, unique in the journal [missing-key]",
		"a.a.a.a.a.a.a.a.a=1": "--set:1:1: error: \"a\" is no key of a gyle [unknown-key]",
		strings.Repeat("a.", 30) + "a=1": "--set:1:1: error: a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.…: a path " +
			"deeper than any value [bad-set]",
	} {
		d := ReadFileSet("x.md", []byte(setEntry), nil, []string{sets})
		if sets == "gyle=" {
			// Without its deciding key it is no gyle any more.
			want = "x.md:4:1: error: \"racked\" is no key of a note, and no gyle, card or journal key says what " +
				"else this file is [no-deciding-key]"
			if len(d.Errors) != 1 || d.Errors[0].ID != idNoDecidingKey {
				t.Errorf("%s: %s", sets, listing(d.Errors))
			}
			continue
		}
		if len(d.Errors) != 1 || d.Errors[0].String() != want || d.Errors[0].Line != sets {
			t.Errorf("%s:\n%swant\n%s", sets, listing(d.Errors), want)
		}
	}
}
