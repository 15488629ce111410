package journal

import (
	"strings"
	"testing"
	"time"
)

// in is a journal's settings with one choice of units for all.
func in(units string) *Settings {
	return ReadFile("index.md", []byte("---\njournal: Any\nunits: "+units+"\n---\n"), nil).Settings
}

// TestWhatIsCertainIsRead: what can mean one thing only is read as that, in the entry's own
// settings; what may mean two is an error that offers the likelier.
func TestWhatIsCertainIsRead(t *testing.T) {
	for _, c := range []struct {
		units, line, key string
		want             string // of the same line written as the vocabulary has it; "" where it must be refused
	}{
		{"us", "fermenter: {volume: 5 gal}", "fermenter.volume", "fermenter: {volume: 5 gal-us}"},
		{"uk", "fermenter: {volume: 5 gallons}", "fermenter.volume", "fermenter: {volume: 5 gal-uk}"},
		{"us", "mash: {liquor: 14 qts}", "mash.liquor", "mash: {liquor: 14 qt-us}"},
		{"us", "fermenter: {volume: 5.25 Gal ± 0.1 gal}", "fermenter.volume", "fermenter: {volume: 5.25 gal-us ± 0.1 gal-us}"},
		{"metric", "fermenter: {volume: 5 gal}", "fermenter.volume", ""},
		{"metric", "sparge: {at: 168 degrees F}", "sparge.at", "sparge: {at: 168 F}"},
		{"metric", "sparge: {at: 76 deg. C}", "sparge.at", "sparge: {at: 76 C}"},
		{"metric", "sparge: {at: 76 degrees}", "sparge.at", ""},
		{"metric", "copper: {boiled: 60}", "copper.boiled", "copper: {boiled: 60 min}"},
		{"metric", "copper: {boiled: 1}", "copper.boiled", ""},
		{"metric", "hops: [{hop: x, boiled: 10, alpha: 5.5}]", "hops[0].boiled", "hops: [{hop: x, boiled: 10 min, alpha: 5.5 %}]"},
		{"metric", "hops: [{hop: x, boiled: 0}]", "hops[0].boiled", ""}, // or stood in the hot wort
		{"metric", "hops: [{hop: x, steeped: 20}]", "hops[0].steeped", "hops: [{hop: x, steeped: 20 min}]"},
		{"metric", "hops: [{hop: x, dry: 4}]", "hops[0].dry", ""},
		{"metric", "hops: [{hop: x, form: Pellets}]", "hops[0].form", "hops: [{hop: x, form: pellet}]"},
		{"metric", "hops: [{hop: x, into: kettle}]", "hops[0].into", "hops: [{hop: x, into: copper}]"},
		{"metric", "copper: {fuel: propane, indoors: yes}", "copper.fuel", "copper: {fuel: bottled gas, indoors: yes}"},
		{"metric", "copper: {fuel: gas, indoors: yes}", "copper.fuel", ""},
		{"metric", "yeast: [{yeast: x, sold: packet}]", "yeast[0].sold", "yeast: [{yeast: x, sold: dried}]"},
		{"metric", "yeast: [{yeast: x, weight: 1 sachet}]", "yeast[0].weight", ""},
		{"metric", "priming: {sugar: x, weight: 4 tsp}", "priming.weight", ""},
		{"metric", "priming: {sugar: x, weight: 100}", "priming.weight", ""},
		{"metric", "mash: {rests: [{at: 66, for: 60}, {at: 152, for: 2}]}", "mash.rests[1].for", ""},
		{"us", "mash: {rests: [{at: 152, for: 60}], strike: 164}", "mash.strike", "mash: {rests: [{at: 152 F, for: 60 min}], strike: 164 F}"},
		{"metric", "mash: {rests: [{at: 66, for: 90}]}", "mash.rests[0].at", "mash: {rests: [{at: 66 C, for: 90 min}]}"},
		{"metric", "mash: {rests: [{at: 20}]}", "mash.rests[0].at", ""},
		{"metric", "racked: {temp: 18}", "racked.temp", ""},
		{"metric", "aim: {OG: 1.045, Bitterness: 30}", "aim.og", "aim: {og: 1.045, bitterness: 30 IBU}"},
		{"metric", "Fermenter: {Volume: 20 L}", "fermenter.volume", "fermenter: {volume: 20 L}"},
		{"metric", "brewed: 12 Oct 2026", "brewed", "brewed: 2026-10-12"},
		{"metric", "brewed: October 12, 2026", "brewed", "brewed: 2026-10-12"},
		{"metric", "brewed: 13.11.2026", "brewed", "brewed: 2026-11-13"},
		{"metric", "brewed: 10/24/2026", "brewed", "brewed: 2026-10-24"},
		{"metric", "brewed: 05/06/2026", "brewed", ""},
		{"metric", "readings: [{when: 12 Oct 2026 8:15pm}]", "readings[0].when", "readings: [{when: 2026-10-12 20:15}]"},
		{"metric", "readings: [{when: 2026-10-12 9:30}]", "readings[0].when", "readings: [{when: 2026-10-12 09:30}]"},
		{"metric", "readings: [{when: 9:30}]", "readings[0].when", ""},
		{"metric", "tastings: [{score: 7/10}]", "tastings[0].score", "tastings: [{score: 7, out_of: 10}]"},
		{"metric", "tastings: [{score: 4 out of 5}]", "tastings[0].out_of", "tastings: [{score: 4, out_of: 5}]"},
		{"metric", "done: [{when: 2026-10-12, did: bled}]", "done[0].did", ""},
		{"metric", "done: [{when: 2026-10-12, did: vented, until: flat}]", "done[0].until", ""},
	} {
		read := func(line string) *Document {
			return ReadFile("1.md", []byte("---\ngyle: 1\nbeer: Any\n"+line+"\n---\n"), in(c.units))
		}
		d := read(c.line)
		if c.want == "" {
			if len(d.Errors) == 0 || !d.Gyle.Unreadable(c.key).Written() {
				t.Errorf("%s is read, and may mean another thing: %v", c.line, d.Errors)
			}
			continue
		}
		if len(d.Errors) > 0 {
			t.Errorf("%s is not read: %v", c.line, d.Errors)
		}
		if got, want := valuesOf(d), valuesOf(read(c.want)); got != want {
			t.Errorf("%s gives\n%s\nand as the vocabulary has it\n%s", c.line, got, want)
		}
	}
}

// valuesOf is what was read of a gyle, without the places.
func valuesOf(d *Document) string {
	var out []string
	for _, line := range strings.Split(summary(d), "\n") {
		value, _, _ := strings.Cut(line, " @")
		out = append(out, value)
	}
	return strings.Join(out, "\n")
}

// TestBesides: a note, and who did it, is read beside any part of a list, and told apart from
// the keys that have a place of their own.
func TestBesides(t *testing.T) {
	d := ReadFile("1.md", []byte("---\ngyle: 1\nbeer: Any\nbrewed: 2026-10-01\ngrist:\n  - {malt: pale, weight: 4 kg, Note: from the new sack, by: Sam}\n"+
		"readings:\n  - {when: 2026-10-08, gravity: 1.012, note: clear}\n---\n"), nil)
	if len(d.Errors) > 0 || len(d.Gyle.Asides) != 2 || d.Gyle.Asides[0].Text != "from the new sack" || d.Gyle.Asides[1].Key != "grist[0].by" ||
		d.Gyle.Readings[0].Note.Text != "clear" {
		t.Errorf("%v, %+v", d.Errors, d.Gyle.Asides)
	}
	if d.Gyle.Brewed.Time.Month() != time.October {
		t.Error(d.Gyle.Brewed)
	}
}

// TestDoubtIsProposed: about, and between two, are proposed as a number with its half-width,
// which is read.
func TestDoubtIsProposed(t *testing.T) {
	for typed, want := range map[string]string{
		"fermenter: {gravity: 1.042-1.044}":         "1.043 ± 0.001",
		"fermenter: {gravity: 1.011 to 1.012}":      "1.0115 ± 0.0005",
		"fermenter: {gravity: about 1.045}":         "1.045 ± 0.001",
		"fermenter: {volume: ca. 20 L}":             "20 ± 1 L",
		"fermenter: {volume: between 19 and 20 L}":  "19.5 ± 0.5 L",
		"grist: [{malt: pale, weight: 4 - 4.5 kg}]": "4.25 ± 0.25 kg",
	} {
		d := ReadFile("1.md", []byte("---\ngyle: 1\nbeer: Any\n"+typed+"\n---\n"), nil)
		if len(d.Errors) != 1 || !strings.Contains(d.Errors[0].Do, "Write "+want+",") {
			t.Errorf("%s: %v", typed, d.Errors)
		}
	}
}
