package scribe

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// said is a jotting in one line.
func said(j Jotting) string {
	var all []string
	for _, v := range j.Values {
		all = append(all, fmt.Sprintf("%s=%s", v.Key, v.said()))
	}
	return j.List + ": " + strings.Join(all, "; ")
}

func gyle(t *testing.T, front string) *journal.Gyle {
	t.Helper()
	d := journal.ReadFile("14.md", []byte("---\ngyle: 14\nbeer: B\n"+front+"---\n"), nil)
	if d.Gyle == nil || len(d.Errors) > 0 {
		t.Fatalf("the test's entry: %v", d.Errors)
	}
	return d.Gyle
}

func TestUnderstand(t *testing.T) {
	const at = "2026-03-20 12:00"
	g := gyle(t, "brewed: 2026-03-20\nracked: {on: 2026-03-16}\nyeast: [{yeast: a, pitched: 2026-03-20}, {yeast: b}]\n")
	for typed, want := range map[string]string{
		"1.022 19.5C":          "readings: when=" + at + "; gravity=1.022; temp=19.5C",
		"19.5 C 1.022":         "readings: when=" + at + "; gravity=1.022; temp=19.5 C",
		"1.022 ± 0.001":        "readings: when=" + at + "; gravity=1.022 ± 0.001",
		"10.2 P 66F":           "readings: when=" + at + "; gravity=10.2 P; temp=66F",
		"brix 6.1 19C":         "readings: when=" + at + "; brix=6.1; temp=19C",
		"ph 5.3":               "readings: when=" + at + "; ph=5.3",
		"PH 5.3":               "readings: when=" + at + "; ph=5.3",
		"1.022 sample at 30 C": "readings: when=" + at + "; gravity=1.022; sample_at=30 C",
		"0.2 bar package 1":    "readings: when=" + at + "; pressure=0.2 bar; package=1",
		`"roused, of pears"`:   "readings: when=" + at + "; note=roused, of pears",
		`1.022 "of pears"`:     "readings: when=" + at + "; gravity=1.022; note=of pears",
		`1.022 with "glass hydrometer" when 2026-03-19`: "readings: when=2026-03-19; gravity=1.022; with=glass hydrometer",
		"mash ph 5.4":                          ": mash.ph=5.4",
		"mashed 9 L 74C":                       ": mash.started=" + at + "; mash.liquor=9 L; mash.strike=74C",
		"mash grain-at 16 C":                   ": mash.grain_at=16 C",
		"sparge 20 L 76C last runnings 1.01":   ": sparge.liquor=20 L; sparge.at=76C; sparge.last_runnings=1.01",
		"copper before 28 L 1.030 70C":         ": copper.before.volume=28 L; copper.before.gravity=1.030; copper.before.temp=70C",
		"copper after 24 L 1.036":              ": copper.after.volume=24 L; copper.after.gravity=1.036",
		"boiling":                              ": copper.started=" + at,
		"boiled 1 h 10 min":                    ": copper.boiled=1 h 10 min",
		"fermenter 22.5 L 1.036 vessel bucket": ": fermenter.vessel=bucket; fermenter.volume=22.5 L; fermenter.gravity=1.036",
		"spunded 0.8 bar":                      ": fermenter.spunding.set=0.8 bar; fermenter.spunding.from=" + at,
		"spunded package 1 12 psi to 2026-03-25": ": packages[1].spunding.set=12 psi; packages[1].spunding.from=" + at +
			"; packages[1].spunding.to=2026-03-25",
		"gassed 0.7 bar 8C with mixed share 60 %": ": packages[0].gas.with=mixed; packages[0].gas.share=60 %; packages[0].gas.set=0.7 bar; " +
			"packages[0].gas.at=8C; packages[0].gas.from=" + at,
		"gassed package 2 0.7 bar":                      ": packages[2].gas.set=0.7 bar; packages[2].gas.from=" + at,
		`added liquor "boiled water" 2 L`:               "added: liquor=boiled water; volume=2 L; when=" + at,
		"added wort speise 1 L gravity 1.040":           "added: wort=speise; volume=1 L; gravity=1.040; when=" + at,
		"vented until quiet package 0":                  "done: when=" + at + "; did=vented; package=0; until=quiet",
		"broached replaced by cylinder":                 ": served.broached=" + at + "; served.replaced_by=cylinder",
		"pitched 19C":                                   ": yeast[1].pitched=" + at + "; yeast[1].at=19C",
		"dry-hopped goldings 15 g 3 days":               "hops: hop=goldings; weight=15 g; dry=3 days; when=" + at,
		"added fruit damson 2 kg":                       "added: fruit=damson; weight=2 kg; when=" + at,
		"racked 20 L 18C moved closed":                  ": racked.volume=20 L; racked.temp=18C; racked.moved=closed",
		"primed 1 lb 4 oz sucrose":                      ": priming.sugar=sucrose; priming.weight=1 lb 4 oz; priming.on=" + at,
		`filled "bottle 500 mL" 24`:                     "packages: vessel=bottle 500 mL; count=24; on=" + at,
		`filled "soft bag 10 L" 9 L`:                    "packages: vessel=soft bag 10 L; fill=9 L; on=" + at,
		"cellared 12C":                                  ": cellared.at=12C; cellared.from=" + at,
		"broached through hand pump":                    ": served.broached=" + at + "; served.through=hand pump",
		"broached package 1":                            ": packages[1].broached=" + at,
		"poured 3 pt-uk package 0":                      "poured: when=" + at + "; volume=3 pt-uk; package=0",
		"vented":                                        "done: when=" + at + "; did=vented",
		"vented package 0 12C":                          "done: when=" + at + "; did=vented; package=0; at=12C",
		`cleaned "hand pump" with "line cleaner"`:       "done: when=" + at + "; did=cleaned; what=hand pump; with=line cleaner",
		"cleaned bottles":                               "done: when=" + at + "; did=cleaned; what=bottles",
		"cleaned hand pump and line with percarbonate":  "done: when=" + at + "; did=cleaned; what=hand pump and line; with=percarbonate",
		"filled pin":                                    "packages: vessel=pin; on=" + at,
		"topped up 0.5 L":                               "done: when=" + at + "; did=topped up; volume=0.5 L",
		`roused "smells of pears"`:                      "done: when=" + at + "; did=roused; note=smells of pears",
		"tasted sweet, flat":                            "tastings: when=" + at + "; found=sweet, flat",
		`tasted by maudie 34/50 12C sweet "like bread"`: "tastings: when=" + at + "; by=maudie; at=12C; score=34; out_of=50; found=sweet; text=like bread",
		"next mash one degree cooler":                   "next: =mash one degree cooler",
	} {
		j, err := Understand(args(typed), noon, g, nil)
		if err != nil {
			t.Errorf("%s: %v", typed, err)
		} else if got := said(j); got != want {
			t.Errorf("%s:\n got %s\nwant %s", typed, got, want)
		}
	}
}

// TestGassedWhich: of several containers it must be said which stands under gas.
func TestGassedWhich(t *testing.T) {
	g := gyle(t, "packages: [{vessel: keg 19 L}, {vessel: pin}]\n")
	if j, err := Understand(args("gassed 0.7 bar"), noon, g, nil); err == nil ||
		!strings.Contains(err.Error(), "say which") {
		t.Errorf("got %s, %v", said(j), err)
	}
}

func TestBrewDayDatesTheEntry(t *testing.T) {
	j, err := Understand(args("mashed 9 L"), noon, gyle(t, ""), nil)
	if want := ": mash.started=2026-03-20 12:00; mash.liquor=9 L; brewed=2026-03-20"; err != nil || said(j) != want {
		t.Errorf("got %s, %v, want %s", said(j), err, want)
	}
}

func TestUnderstandRefuses(t *testing.T) {
	g := gyle(t, "")
	for typed, want := range map[string]string{
		"":                          "nothing to jot",
		"1045":                      "1.045?",
		"1,045":                     "1.045",
		"5.3":                       "has no unit",
		"20":                        "has no unit",
		"6.1 Bx":                    "may be gravity or brix",
		"19C 20C":                   "temp is said twice, 19C and 20C",
		"1.022 gravity 1.020":       "gravity is said twice",
		"raked 20 L":                "did you mean racked?",
		"smells of pears":           "go in quotation marks",
		"copper 24 L":               "copper before or copper after",
		"poured 3 pints":            "pt-uk or pt-us",
		"poured 3":                  "has no unit",
		"poured":                    "say what, such as poured 3 pt-uk",
		"racked 20 L 1.010":         "has no unit: say",
		"racked 20 L 32 IBU":        "no place of itself in racked",
		"1.022 pears":               "or after note",
		"vented pakage 0":           "did you mean package?",
		"racked volum 20 L":         "did you mean volume?",
		"ph":                        "say what it is",
		`"racked 20 L 18C"`:         "take off the quotation marks",
		`"1.022 19C"`:               "take off the quotation marks",
		`1.022 "a b" "c d"`:         "between one pair",
		"mash ph 54":                "lies between 1 and 13 (5.4?)",
		"gravity 1045":              "(1.045?)",
		"195C":                      "(19.5 C?)",
		"20 X":                      "no quantity that can be read",
		"mash":                      "say what, such as mash ph 5.4",
		"broached package x":        "counted from 0",
		"broached package 1 at 12C": "said of the whole gyle",
		"next":                      "say what",
	} {
		j, err := Understand(args(typed), noon, g, nil)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got %s, error %v, want one that says %q", typed, said(j), err, want)
		}
	}
}

// TestEveryPlacesExample: what the help shows can be typed.
func TestEveryPlacesExample(t *testing.T) {
	for _, p := range Places() {
		j, err := Understand(args(p.Eg), noon, gyle(t, ""), nil)
		if err != nil {
			t.Errorf("%s: %v", p.Eg, err)
			continue
		}
		if _, err := Write("14.md", []byte("---\ngyle: 14\nbeer: B\n---\n"), nil, j); err != nil {
			t.Errorf("%s: %v", p.Eg, err)
		}
	}
}

func TestWhen(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 10, 25, 1, 30, 20, 0, time.UTC) // 01:30 by the clock there, for the second time
	if got, want := Now(now, london).Text, "2026-10-25T01:30:00Z"; got != want {
		t.Errorf("in the hour that comes twice: %s, want %s", got, want)
	}
	if got, want := Now(now.Add(-time.Hour), london).Text, "2026-10-25 01:30"; got != want {
		t.Errorf("an hour before: %s, want %s", got, want)
	}
	now = time.Date(2026, 3, 20, 12, 0, 0, 0, time.UTC)
	for text, want := range map[string]string{"9:05": "2026-03-20 09:05", "2026-03-07": "2026-03-07",
		"2026-03-07 16:10": "2026-03-07 16:10", "2026-03-07T16:10:00+01:00": "2026-03-07T16:10:00+01:00"} {
		if got, err := At(text, now, time.UTC); err != nil || got.Text != want || !got.Chosen {
			t.Errorf("At(%s) is %+v, %v, want %s", text, got, err, want)
		}
	}
	for text, want := range map[string]string{"13:00": `say --when "2026-03-19 13:00"`, "25:00": "not", "yesterday": "expected 16:10"} {
		if got, err := At(text, now, time.UTC); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("At(%s) is %+v, %v, want an error that says %q", text, got, err, want)
		}
	}
}
