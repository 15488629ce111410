package rules_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/assay/healthy"
	"gylebook/internal/causes"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

// limitCase is a limit with a rule that asks for it.
type limitCase struct {
	limit, id, loose, tight string
	example                 *healthy.Example
	says                    string // of the finding under the tight limit
}

// limitCases are each limit with a rule that asks for it: loose, it spares what the
// rule's example raises; tight, it raises what the example spares. An example of its
// own stands where the rule's is not about this limit.
var limitCases = []limitCase{
	{"level_for", "not-finished", "", "10 days", nil, "your settings ask for 240 hours"},
	{"readings_every", "readings-sparse", "30 days", "30 h", nil, "your settings ask for one every 30 hours"},
	{"lines_cleaned_every", "line-overdue", "9 weeks", "12 h", nil, "(your settings allow 12 hours)"},
	{"clean_for", "clean-missing", "60 days", "12 h", nil, "since 12 hours before it was broached"},
	{"settle_for", "settle-short", "4 h", "3 days", nil, ""},
	{"mash_heat", "mash-off", "60 to 75 C", "64 to 67 C", nil, "64 to 67 °C is right by your settings"},
	{"mash_ph", "mash-ph-off", "5.0 to 6.2", "5.2 to 5.4", nil, "5.2 to 5.4 is right by your settings"},
	{"yield", "yield-outlier", "20 to 150 %", "90 to 95 %", nil, "your settings expect 90 to 95 %"},
	{"works_at", "pitched-warm", "14 to 30 C", "14 to 20 C", cardless("26 C", "23 C"), "14 to 20 °C is right by your settings"},
	{"works_at", "pitched-cold", "8 to 24 C", "18 to 24 C", cardless("12 C", "16 C"), "18 to 24 °C is right by your settings"},
	{"opened_hops_keep", "hops-old", "12 months", "15 days", nil, "by your settings they keep 0.5 months"},
	{"serve_at", "serve-temperature", "10 to 19 C", "10 to 12 C", nil, "10 to 12 °C is where your settings want it"},
	{"pints_each", "pints-short", "1 pt-uk", "9 pt-uk", partyOf("30", "6"), ""},
	{"condition_within", "over-condition", "2 vol", "0.05 vol", nil, "(your settings allow 0.05 over it)"},
}

// cardless is a pitch of a yeast that no card knows.
func cardless(raises, spares string) *healthy.Example {
	set := func(at string) []string { return []string{"yeast[0].yeast=the garden ale", "yeast[0].at=" + at} }
	return &healthy.Example{In: "working", Raises: set(raises), Spares: set(spares), Day: "2026-03-02"}
}

// partyOf is a long party of many guests, or of few.
func partyOf(many, few string) *healthy.Example {
	set := func(guests string) []string {
		return []string{"party.on=2026-04-04", "party.guests=" + guests, "party.hours=12"}
	}
	return &healthy.Example{In: "bagged", Raises: set(many), Spares: set(few)}
}

// TestEachLimit: with a looser limit of the settings a rule's example is spared, with
// a tighter one the near miss is raised, and it says whose limit it is.
func TestEachLimit(t *testing.T) {
	examples := healthy.Examples(t, "testdata/examples.yaml")
	for _, c := range limitCases {
		t.Run(c.limit+" "+c.id, func(t *testing.T) {
			example := examples[c.id]
			if c.example != nil {
				example = *c.example
			}
			raised, spared := example.Raised(t), example.Spared(t)
			if c.loose != "" {
				if with, without := healthy.WithID(rules.Examine(healthy.Limited(t, raised, c.limit+": "+c.loose)), c.id), healthy.WithID(rules.Examine(raised), c.id); len(with) > 0 || len(without) == 0 {
					t.Errorf("%s: %s: raised %v, and without %v", c.limit, c.loose, with, without)
				}
			}
			with, without := healthy.WithID(rules.Examine(healthy.Limited(t, spared, c.limit+": "+c.tight)), c.id), healthy.WithID(rules.Examine(spared), c.id)
			if healthy.Gravest(with) <= healthy.Gravest(without) {
				t.Fatalf("%s: %s: raised %v, and without %v", c.limit, c.tight, with, without)
			}
			if !strings.Contains(with[0].Says, c.says) {
				t.Errorf("%q does not say %q", with[0].Says, c.says)
			}
			for system, pattern := range foreign {
				sheet := healthy.InUnits(healthy.Limited(t, spared, c.limit+": "+c.tight), system)
				for _, n := range healthy.WithID(rules.Examine(sheet), c.id) {
					if found := pattern.FindString(withoutVessels(sheet, n.Says+" "+n.Why)); found != "" {
						t.Errorf("in units: %s has %q: %s", system, found, n.Says)
					}
				}
			}
		})
	}
}

// TestEveryLimitIsAsked: each key of limits has its case, and its example is what
// holds without it. A month is 30.4 days to rules and 30.44 to the reader.
func TestEveryLimitIsAsked(t *testing.T) {
	var typed []string
	for _, w := range journal.Words() {
		key, ok := strings.CutPrefix(w.Path, "limits.")
		if !ok {
			continue
		}
		typed = append(typed, key+": "+w.Example)
		if !slices.ContainsFunc(limitCases, func(c limitCase) bool { return c.limit == key }) {
			t.Errorf("no case has %s", key)
		}
	}
	moved := assay.HabitsOf(healthy.SettingsWith(t, strings.Join(typed, ", ")))
	for limit, number := range moved {
		if math.Abs(number-limit.Number) > 0.002*limit.Number {
			t.Errorf("%s: its example has %g, and %g holds", limit.Name, number, limit.Number)
		}
	}
	for _, limit := range slices.Concat(assay.Shared(), rules.Limits()) {
		if _, is := moved[limit]; is != (limit.Key != "") || is && !strings.Contains(strings.Join(typed, ", "), limit.Key+": ") {
			t.Errorf("%s: moved by %q, and the settings move it: %v", limit.Name, limit.Key, is)
		}
	}
}

// loosest and tightest are all limits at once, as far as anybody may go.
const (
	loosest  = "readings_every: 900 days, lines_cleaned_every: 900 days, clean_for: 900 days, settle_for: 1 min, mash_heat: 1 to 99 C, mash_ph: 1 to 13, yield: 0 to 999 %, works_at: 0 to 60 C, opened_hops_keep: 900 months, serve_at: 0 to 60 C, pints_each: 0.1 pt-uk, condition_within: 90 vol"
	tightest = "level_for: 60 days, readings_every: 1 h, lines_cleaned_every: 1 h, clean_for: 1 h, settle_for: 40 days, mash_heat: 66 to 66.1 C, mash_ph: 5.3 to 5.31, yield: 75 to 75.1 %, works_at: 19 to 19.1 C, opened_hops_keep: 1 day, serve_at: 12 to 12.1 C, pints_each: 20 pt-uk, condition_within: 0.01 vol"
)

// TestNoLimitTouchesADanger: whatever the settings say, each rule's example raises the
// same dangers, of the same parts; and what a beer may taste of is the same.
func TestNoLimitTouchesADanger(t *testing.T) {
	dangers := 0
	for name, s := range exampleSheets(t) {
		want := dangersOf(s)
		dangers += len(want)
		for _, limits := range []string{loosest, tightest} {
			other := healthy.Limited(t, s, limits)
			if got := dangersOf(other); !slices.Equal(got, want) {
				t.Errorf("%s under %.30s…: dangers %v, want %v", name, limits, got, want)
			}
		}
		if got, want := healthy.WithID(rules.Examine(healthy.Limited(t, s, loosest)), "units"), healthy.WithID(rules.Examine(s), "units"); len(got) != len(want) {
			t.Errorf("%s: units %v, want %v", name, got, want)
		}
		if got, want := suspectsOf(healthy.Limited(t, s, loosest)), suspectsOf(s); got != want {
			t.Errorf("%s: suspects\n%s, want\n%s", name, got, want)
		}
	}
	if dangers < 20 {
		t.Errorf("only %d dangers were looked at", dangers)
	}
}

// TestNoLimitMovesAFigure: figures are of the beer, and a habit is no evidence.
func TestNoLimitMovesAFigure(t *testing.T) {
	for name, s := range exampleSheets(t) {
		want := figuresOf(s)
		for _, limits := range []string{loosest, tightest} {
			if got := figuresOf(healthy.Limited(t, s, limits)); !slices.Equal(got, want) {
				t.Errorf("%s under %.30s…: figures\n%v, want\n%v", name, limits, got, want)
			}
		}
	}
}

func figuresOf(s *figures.Sheet) []string {
	var all []string
	for _, f := range s.Figures {
		all = append(all, fmt.Sprint(f.ID, f.Of, f.Value, f.PlusMinus, f.Date, f.Provisional))
	}
	return all
}

func dangersOf(s *figures.Sheet) []string {
	var all []string
	for _, n := range rules.Examine(s) {
		if n.Severity == notice.Danger {
			all = append(all, n.ID+" "+n.Of)
		}
	}
	return all
}

// suspectsOf are the causes of what was tasted, with their weights.
func suspectsOf(s *figures.Sheet) string {
	var b strings.Builder
	for _, d := range causes.Diagnose(s, causes.Hear(s.Gyle)) {
		for _, suspect := range d.Suspects {
			fmt.Fprintln(&b, d.Word, suspect.ID, suspect.Weight)
		}
	}
	return b.String()
}

// TestNearerSpeaksFirst: a yeast's own card goes before the settings, the settings
// before the trade.
func TestNearerSpeaksFirst(t *testing.T) {
	for _, c := range []struct {
		yeast, limits, says string
	}{
		{"the garden ale", "", "14 to 24 °C is right"},
		{"the garden ale", "works_at: 20 to 23 C", "20 to 23 °C is right by your settings"},
		{"dried ale", "works_at: 26 to 29 C", "its card says"},
		{"dried ale", "", "its card says"},
	} {
		s := healthy.Limited(t, healthy.Sheet(t, "working", "2026-03-02", "yeast[0].yeast="+c.yeast, "yeast[0].at=6 C"), c.limits)
		found := healthy.WithID(rules.Examine(s), "pitched-cold")
		if len(found) != 1 || !strings.Contains(found[0].Says, c.says) {
			t.Errorf("%s with limits {%s}: %v, want %q", c.yeast, c.limits, found, c.says)
		}
	}
}

// TestLevelForLonger: a beer that stood still for two days is safe; where the settings
// ask for more it is worth a look, and the figures wait.
func TestLevelForLonger(t *testing.T) {
	bottled := healthy.Sheet(t, "bottled", "")
	found := healthy.WithID(rules.Examine(healthy.Limited(t, bottled, "level_for: 4 days")), "not-finished")
	if len(found) != 1 || found[0].Severity != notice.Look {
		t.Fatalf("level for two days, and four were asked: %v", found)
	}
	working := healthy.Limited(t, healthy.Sheet(t, "working", "2026-03-11"), "level_for: 4 days")
	if st := working.Stability(); st.Stable || !st.AtLeast() || st.Needs != 4*24*time.Hour {
		t.Errorf("the working beer is level: %+v", st)
	}
	v, ok := rules.FinishedOrQuiet(working)
	if !ok || v.Answer == rules.Finished || !strings.Contains(v.Says, "your settings ask for 96 hours") {
		t.Errorf("verdict %+v", v)
	}
}
