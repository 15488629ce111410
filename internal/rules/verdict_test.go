package rules_test

import (
	"slices"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

// TestFinishedOrQuiet asks for a verdict on a healthy working bitter with its
// readings changed as a brewer's could be. Its yeast should end near 1.011.
func TestFinishedOrQuiet(t *testing.T) {
	const noSecond, noThird = "readings[1]=", "readings[2]="
	cases := []struct {
		what  string
		in    string
		on    string
		sets  []string
		want  rules.Answer
		says  string // a part of what it says
		again string // when to read again, "" for never
	}{
		{what: "level for two days where it should be", on: "2026-03-11", want: rules.Finished, says: "level at 1.010 for 2 days"},
		{what: "not one reading", on: "2026-03-11", sets: []string{"readings="}, want: rules.CannotTell, says: "no gravity was read", again: "2026-03-11 12:00"},
		{what: "one reading, high", on: "2026-03-05", sets: []string{noThird, noSecond}, want: rules.NotFinished, says: "1.016", again: "2026-03-06 09:00"},
		{what: "one reading, where it should be", on: "2026-03-08 12:00", sets: []string{noThird}, want: rules.CannotTell, says: "one gravity, 1.010, is not enough", again: "2026-03-10 09:00"},
		{what: "level for a day", on: "2026-03-09 12:00", sets: []string{"readings[2].when=2026-03-09 09:00"}, want: rules.CannotTell, says: "for only 24 hours", again: "2026-03-10 09:00"},
		{what: "level, and high: stuck", on: "2026-03-11", sets: []string{"readings[1].gravity=1.020", "readings[2].gravity=1.020"}, want: rules.NotFinished, says: "quiet at 1.020", again: "2026-03-12 09:00"},
		{what: "chilled as soon as it was level", on: "2026-03-11", sets: []string{"readings[2].temp=8 C", "readings[2].sample_at=20 C"}, want: rules.CannotTell, says: "chilled from 20 to 8 °C", again: "2026-03-13 12:00"},
		{what: "chilled once it had been level for two days", on: "2026-03-13", sets: []string{"readings[+].when=2026-03-12 09:00", "readings[3].gravity=1.010", "readings[3].temp=6 C", "readings[3].sample_at=20 C"}, want: rules.Finished, says: "level at 1.010 for 4 days"},
		{what: "a cool night is no chilling", on: "2026-03-11", sets: []string{"readings[2].temp=18.5 C"}, want: rules.Finished, says: "Finished"},
		{what: "lower than its yeast goes", on: "2026-03-11", sets: []string{"readings[1].gravity=1.001", "readings[2].gravity=1.001"}, want: rules.CannotTell, says: "lower than this yeast should go", again: "2026-03-17 09:00"},
		{what: "hops the day before", on: "2026-03-11", sets: []string{"hops[+].hop=goldings", "hops[1].weight=30 g", "hops[1].dry=3 days", "hops[1].when=2026-03-09"}, want: rules.CannotTell, says: "dry hops went in 21 hours before", again: "2026-03-12 12:00"},
		{what: "hops long before", on: "2026-03-11", sets: []string{"hops[+].hop=goldings", "hops[1].weight=30 g", "hops[1].dry=3 days", "hops[1].when=2026-03-06"}, want: rules.Finished, says: "Finished"},
		{what: "an unknown yeast that stands still", on: "2026-03-11", sets: []string{"yeast[0].yeast=nobody knows"}, want: rules.Finished, says: "level at 1.010 for 2 days."},
		{what: "in bottles, and it was", in: "bottled", want: rules.Finished, says: "level at 1.010 for 2 days"},
		{what: "in bottles, after a day", in: "bottled", sets: []string{"readings[1].when=2026-03-09 20:00"}, want: rules.CannotTell, says: "for only 13 hours"},
	}
	for _, c := range cases {
		t.Run(c.what, func(t *testing.T) {
			if c.in == "" {
				c.in = "working"
			}
			v, ok := rules.FinishedOrQuiet(healthy.Sheet(t, c.in, c.on, c.sets...))
			if !ok {
				t.Fatal("no verdict")
			}
			if v.Answer != c.want || !strings.Contains(v.Says, c.says) {
				t.Errorf("%s: %q; want %s, with %q", v.Answer, v.Says, c.want, c.says)
			}
			if again := ""; v.Again.IsZero() != (c.again == "") || !v.Again.IsZero() && v.Again.Format("2006-01-02 15:04") != c.again {
				if !v.Again.IsZero() {
					again = v.Again.Format("2006-01-02 15:04")
				}
				t.Errorf("read again at %q, want %q", again, c.again)
			}
			for _, e := range v.Evidence {
				if strings.Contains(e.Says, " on ") && e.Where.Line == 0 {
					t.Errorf("no place for %q", e.Says)
				}
			}
		})
	}
}

// TestNoVerdictWhereThereIsNothingToJudge: wort, and beer that is all drunk.
func TestNoVerdictWhereThereIsNothingToJudge(t *testing.T) {
	for entry, day := range map[string]string{"planned": "", "mashing": "2026-03-01 09:40", "pitching": "2026-03-01"} {
		if v, ok := rules.FinishedOrQuiet(healthy.Sheet(t, entry, day)); ok {
			t.Errorf("%s: %s", entry, v.Says)
		}
	}
	if v, ok := rules.FinishedOrQuiet(healthy.Sheet(t, "bottled", "2026-06-01", "served.emptied=2026-05-01")); ok {
		t.Errorf("all drunk: %s", v.Says)
	}
}

// TestVerdictAndWarningsAgree: wherever a beer was packaged and the warnings say
// that it was not shown to be finished, so does the verdict, in all the written
// entries.
func TestVerdictAndWarningsAgree(t *testing.T) {
	j := readBook(t)
	agreed := 0
	for _, want := range verdicts {
		s := sheetIn(t, j, want.file, want.on)
		v, ok := rules.FinishedOrQuiet(s)
		found := rules.Examine(s)
		for _, id := range []string{"not-finished", "hop-creep", "stuck"} {
			if len(healthy.WithID(found, id)) == 0 || s.Stage == figures.Empty {
				continue
			}
			agreed++
			if !ok || v.Answer == rules.Finished {
				t.Errorf("%s on %s: %s, but the verdict is %q", want.file, want.on, id, v.Says)
			}
		}
	}
	if agreed < 5 {
		t.Errorf("only %d entries have anything to agree on", agreed)
	}
}

// TestTooMuchSugarSaysHowMuchAndWhatHelps holds the words about gas that is in
// already to what they must name: what it comes to, what the container takes, and
// how cold or how much vented it would be right.
func TestTooMuchSugarSaysHowMuchAndWhatHelps(t *testing.T) {
	cases := []struct {
		id, in string
		sets   []string
		says   []string // in what it says, why and what to do, together
		not    []string
	}{
		{
			id: "primed-wrong-volume", in: "bottled", sets: []string{"priming.worked_for=26 L", "priming.weight=110 g"},
			says: []string{"30 % too much", "against 1.8 aimed at", "At the warmest, 20 °C, it comes to", "no maker's figure", "at 4 °C it is"},
		},
		{
			id: "primed-wrong-volume", in: "bottled", sets: []string{"priming.worked_for=22.5 L", "priming.weight=80 g"},
			says: []string{"comes out right all the same"}, not: []string{"at 4 °C"},
		},
		{
			id: "primed-wrong-volume", in: "bottled", sets: []string{"priming.worked_for=15 L", "priming.weight=50 g"},
			says: []string{"too little", "less gas", "can be served as it is"},
		},
		{
			id: "over-condition", in: "casked", sets: []string{"priming.weight=100 g", "aim.condition=1.2 vol", "packages[0].vessel=pin"},
			says: []string{"against 1.2 aimed at", "Chill it to 8 °C where it stands, then vent it slowly", "it then keeps 1.19 ± 0.10 vol"},
		},
		{
			id: "pressure-high", in: "bottled", sets: []string{"packages[0].vessel=weak bottle", "conditioned.warmest=32 C"},
			says: []string{"its maker allows 2.5 bar", "at 4 °C it is"},
		},
		{
			id: "pressure-high", in: "bottled", sets: []string{"packages[0].vessel=weak bottle", "priming.weight=900 g"},
			says: []string{"its maker allows 2.5 bar", "Keep away from them", "Cool the place"},
		},
	}
	for _, c := range cases {
		t.Run(c.id+" "+strings.Join(c.sets, " "), func(t *testing.T) {
			found := healthy.WithID(rules.Examine(healthy.Sheet(t, c.in, "", c.sets...)), c.id)
			if len(found) == 0 {
				t.Fatal("it is not raised")
			}
			n := found[0]
			all := n.Says + " " + n.Why + " " + n.Do
			for _, want := range c.says {
				if !strings.Contains(all, want) {
					t.Errorf("no %q in %q", want, all)
				}
			}
			for _, unwanted := range c.not {
				if strings.Contains(all, unwanted) {
					t.Errorf("%q in %q", unwanted, all)
				}
			}
		})
	}
}

// TestGasBeyondAllReckoningIsStillADanger: where so much gas is in that no
// pressure can be given, no warning may fall away.
func TestGasBeyondAllReckoningIsStillADanger(t *testing.T) {
	for _, vessel := range []string{"weak bottle", "bottle 500 mL", "keg 19 L", "demijohn"} {
		found := rules.Examine(healthy.Sheet(t, "bottled", "", "packages[0].vessel="+vessel, "packages[0].count=", "packages[0].fill=18 L", "priming.weight=1500 g"))
		if !slices.ContainsFunc(found, func(n notice.Notice) bool { return n.Severity == notice.Danger && n.Of == "packages[0]" }) {
			t.Errorf("%s: no danger", vessel)
		}
	}
}
