package journal

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

// advice is what an entry with one line in it that cannot be read is told to do.
func advice(t *testing.T, line string) string {
	t.Helper()
	d := ReadFile("gyles/14.md", []byte("---\ngyle: 14\nbeer: x\n"+line+"\n---\n"), nil)
	if len(d.Errors) != 1 {
		t.Errorf("%s: %d errors: %v", line, len(d.Errors), d.Errors)
		return ""
	}
	return d.Errors[0].Do
}

// TestAdviceOnWordsForNumbers: what brewers write where a weight, a time or a score is
// wanted, and what they read back. A spoonful is no weight; a packet has its weight
// printed on it; hops at flame-out stood in the wort; and so on.
func TestAdviceOnWordsForNumbers(t *testing.T) {
	const (
		spoons  = "Weigh it, and write the grams: a spoonful may be half as much again."
		packet  = "Write what is printed on it: weight: 11 g, volume: 100 mL, or cells: 200 billion."
		steeped = "Write steeped: and how long they stood in the hot wort; boiled: 0 min, if they came straight out."
		first   = "Write the length of the whole boil: hops in the first wort boil as long."
		dry     = "Write dry: and how long they were in the beer, instead."
	)
	for _, spoon := range []string{"tsp", "tsp.", "tbsp", "Tbsp.", "teaspoon", "teaspoons", "tablespoon", "tablespoons",
		"cup", "cups", "handful", "spoon", "spoons"} {
		if got := advice(t, "priming: {sugar: sucrose, weight: 2 "+spoon+"}"); got != spoons {
			t.Errorf("2 %s: %q", spoon, got)
		}
	}
	for _, pack := range []string{"pack", "packs", "packet", "packets", "sachet", "sachets", "pouch", "vial", "vials",
		"bottle"} {
		for _, key := range []string{"weight", "volume", "cells"} {
			if got := advice(t, "yeast: [{yeast: x, "+key+": 1 "+pack+"}]"); got != packet {
				t.Errorf("%s: 1 %s: %q", key, pack, got)
			}
		}
	}
	for _, word := range []string{"flameout", "flame out", "Flame-out", "whirlpool", "hopstand", "hop stand", "0"} {
		if got := advice(t, "hops: [{hop: x, weight: 20 g, boiled: "+word+"}]"); got != steeped {
			t.Errorf("boiled: %s: %q", word, got)
		}
	}
	for line, want := range map[string]string{
		"hops: [{hop: x, weight: 20 g, boiled: fwh}]":             first,
		"hops: [{hop: x, weight: 20 g, boiled: first wort}]":      first,
		"hops: [{hop: x, weight: 20 g, boiled: dry hop}]":         dry,
		"copper: {boiled: unboiled}":                              "Write none, if that is meant.",
		"copper: {boiled: raw}":                                   "Write none, if that is meant.",
		"mash: {rests: [{at: boiling, for: 60 min}]}":             "Write 100 C, if that is meant.",
		"grist: [{malt: x, weight: 3 kg, extract: light}]":        "Write syrup: light, if it is a malt extract; extract: is what a kilogram of it can give.",
		"tastings: [{when: 2026-04-20, score: seven}]":            "",
		"tastings: [{when: 2026-04-20, score: 7/ten}]":            "",
		"racked: {volume: 20 L, temp: no}":                        "",
		"readings: [{when: 2026-03-10, gravity: 1.041 SG of it}]": "",
	} {
		if got := advice(t, line); got != want {
			t.Errorf("%s:\n got %q\nwant %q", line, got, want)
		}
	}
}

// TestAdviceOnMoments: a day that may be two is given back as both, an hour alone gets
// brew day, a month a day, and a word that means another day tomorrow is refused.
func TestAdviceOnMoments(t *testing.T) {
	const today = "Write the date: tomorrow that will be another day."
	for line, want := range map[string]string{
		"brewed: 3/4/2026":                              "Write 2026-03-04 or 2026-04-03, whichever is meant.",
		"brewed: 1/12/1000":                             "Write 1000-01-12 or 1000-12-01, whichever is meant.",
		"brewed: 3/4/26":                                "",
		"brewed: 13/14/2026":                            "",
		"brewed: 0/4/2026":                              "",
		"brewed: 13/4/26":                               "",
		"brewed: 2026-03":                               "Write a day of it, as 2026-03-15.",
		"brewed: today":                                 today,
		"brewed: Yesterday":                             today,
		"brewed: last night":                            today,
		"yeast: [{yeast: x, best_by: 2026-02}]":         "Write 2026-02-28, if that is meant.",
		"yeast: [{yeast: x, best_by: 2028-02}]":         "Write 2028-02-29, if that is meant.",
		"yeast: [{yeast: x, best_by: 2026-12}]":         "Write 2026-12-31, if that is meant.",
		"mash: {started: \"9:05\"}":                     "Write the day before it, as 2026-03-07 09:05.",
		"brewed: 2026-03-21\nmash: {started: \"9:05\"}": "Write 2026-03-21 09:05, if it was on brew day; else put its own day before it.",
		"mash: {started: 3/4/2026 8:00}":                "Write 2026-03-04 or 2026-04-03, whichever is meant, and then the time, as 08:00.",
	} {
		if got := advice(t, line); got != want {
			t.Errorf("%s:\n got %q\nwant %q", line, got, want)
		}
	}
}

// TestBareBarometer: the unit of a barometer by what it shows. At the sea the air's
// pressure is 870 to 1085 hPa in the records of weather (World Meteorological
// Organization), and half of it at 5500 m; 500 to 820 may be two units, and so is none.
func TestBareBarometer(t *testing.T) {
	for shows, want := range map[float64]string{
		1013: "hPa", 870: "hPa", 850: "hPa", 1085: "hPa", 1110: "hPa", 1111: "", 849: "", 760: "", 500: "",
		101.3: "kPa", 50: "kPa", 111: "kPa", 112: "", 49: "", 29.92: "inHg", 20: "inHg", 32: "inHg", 33: "", 19: "", 1: "",
	} {
		if got := likelyBarometer(shows); got != want {
			t.Errorf("%v is of %q, want %q", shows, got, want)
		}
	}
}

// TestFrontMatterOfAnotherKind is told apart from a page that has none.
func TestFrontMatterOfAnotherKind(t *testing.T) {
	for _, first := range []string{"+++", ";;;", "{", "---yaml", "---toml", "---json"} {
		d := ReadFile("gyles/14.md", []byte(first+"\ngyle: 14\n"), nil)
		if len(d.Errors) != 1 || d.Errors[0].Do != "Write the keys as YAML between two lines of ---." ||
			d.Errors[0].Place.Line != 1 {
			t.Errorf("%s: %v", first, d.Errors)
		}
	}
	for _, first := range []string{"A story", "----", "+ a list", "[a link](x.md)"} {
		if d := ReadFile("gyles/14.md", []byte(first+"\ngyle: 14\n"), nil); len(d.Errors) != 0 {
			t.Errorf("%s: %v", first, d.Errors)
		}
	}
}

// TestQuotedIsShort: what is given back is cut by letters, and only where it is longer.
func TestQuotedIsShort(t *testing.T) {
	for _, letters := range []int{39, 40, 41, 80} {
		text := strings.Repeat("ü", letters)
		got := strings.Trim(quote(text), `"`)
		if whole := got == text; whole != (letters <= 40) || !whole &&
			(!strings.HasSuffix(got, "…") || utf8.RuneCountInString(got) != 41) {
			t.Errorf("%d letters are quoted as %s", letters, got)
		}
	}
}

// TestFastTimeLeavesWhatItDoesNotKnow: the quick reader of a logger's times never
// takes for one what the careful reader refuses.
func TestFastTimeLeavesWhatItDoesNotKnow(t *testing.T) {
	c := logClock{zone: time.UTC}
	for text, ok := range map[string]bool{
		"2026-03-07 15:04": true, "2026-03-07T15:04": true, "2026-03-07T15:04:05Z": true,
		"2026-03-07 15:04:05.25+01:00": true,
		"2026-03-07x15:04":             false, "2026-03-07!15:04": false, "2026-03-07 15.04": false, "2026-03-07 1x:04": false,
		"2026-03-07 15:x4": false, "2026-03-07 24:04": false, "2026-03-07 15:60": false, "2026-03-07 15:04:5": false,
		"2026-03-07 15:04:x5": false, "2026-03-07 15:04:05+1:00": false, "2026-03-07 15:04:05+24:00": false,
		"2026-03-07 15:04:05+01:60": false, "2026-03-07 15:04 PM": false, "2026-02-30 15:04": false,
	} {
		c.turnToDay([]byte(text))
		got, fast := c.fastTime([]byte(text))
		want, dateOnly, err := ParseMoment(text, c.zone)
		if fast != ok || fast && (err != nil || dateOnly || want.Unix() != got) {
			t.Errorf("%q: %d, %v; read with care it is %v (%v)", text, got, fast, want, err)
		}
	}
}
