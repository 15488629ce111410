package book

import (
	"strings"
	"testing"

	"gylebook/internal/proposals"
)

// firstTry ended dry at 64 °C; the second was mashed at 66.
const firstTry = `gyle: 1
beer: Try
brewed: 2026-01-01
aim: {volume: 20 L, og: 1.042, fg: 1.010}
grist: [{malt: pale malt, weight: 4 kg, extract: 300 Ldeg/kg}]
mash: {rests: [{at: 64 C, for: 60 min}]}
hops: [{hop: goldings, weight: 40 g, alpha: 5 %, boiled: 60 min}]
yeast: {yeast: nobodys ale, pitched: 2026-01-01 14:00}
fermenter: {volume: 20 L, gravity: 1.042}
readings: [{when: 2026-01-05, gravity: 1.007, temp: 20 C}, {when: 2026-01-09, gravity: 1.007, temp: 20 C}]
`

func secondTry(changes ...string) string {
	text := strings.NewReplacer("gyle: 1", "gyle: 2\nfollows: 1", "2026-01", "2026-03", "at: 64 C", "at: 66 C", "1.007", "1.0095").Replace(firstTry)
	return strings.NewReplacer(changes...).Replace(text)
}

func TestOutcomes(t *testing.T) {
	for name, test := range map[string]struct {
		second string
		made   int
		true   bool
		others string
	}{
		"the mash alone":               {secondTry(), 1, true, ""},
		"another malt besides":         {secondTry("weight: 4 kg", "weight: 4.4 kg"), 1, true, "pale malt"},
		"hops do nothing to a gravity": {secondTry("weight: 40 g", "weight: 60 g"), 1, true, ""},
		"nothing was changed":          {secondTry("at: 66 C", "at: 64 C"), 0, false, ""},
		"changed, and it went too far": {secondTry("1.0095", "1.016"), 1, false, ""},
		"it follows nobody":            {secondTry("follows: 1\n", ""), 0, false, ""},
	} {
		b := open(t, entries{"1.md": firstTry, "2.md": test.second})
		outcomes, others := b.Gyle(2).Outcomes()
		if len(outcomes) != test.made {
			t.Errorf("%s: %d proposals were carried out, want %d", name, len(outcomes), test.made)
			continue
		}
		if test.made > 0 && (outcomes[0].True != test.true || outcomes[0].Figure != "fg" || outcomes[0].Is != "66 °C") {
			t.Errorf("%s: %+v", name, outcomes[0])
		}
		if got := strings.Join(others, "; "); got != test.others {
			t.Errorf("%s: also changed %q, want %q", name, got, test.others)
		}
	}
}

// TestWhatIsExpectedIsWhatTheNextGyleSays: with the change typed into the next entry,
// its own page gives the gravity that the proposal expects, to the last digit: both
// lean on the same yields.
func TestWhatIsExpectedIsWhatTheNextGyleSays(t *testing.T) {
	files := brewedOften(5)
	last := strings.NewReplacer("gyle: 5", "gyle: 6", "og: 1.040", "og: 1.046").Replace(files["gyles/5.md"])
	files["gyles/6.md"] = strings.ReplaceAll(last, "2020-03", "2020-04")
	b := open(t, files)
	var grist proposals.Proposal
	for _, p := range proposals.Propose(b.Gyle(6).Sheet) {
		if p.Figure == "og" {
			grist = p
		}
	}
	if grist.Key != "grist[0].weight" {
		t.Fatalf("no grist is proposed: %+v", grist)
	}
	files["gyles/7.md"] = "gyle: 7\nbeer: Often\nfollows: 6\nbrewed: 2027-01-01\naim: {volume: 20 L, og: 1.046}\ngrist: [{malt: pale malt, weight: " + grist.Value + ", extract: 300 Ldeg/kg, colour: 5 EBC}]\n"
	next, ok := open(t, files).Gyle(7).Sheet.Find("og-expected", "")
	if !ok || next.Value != grist.Expect.Value || next.PlusMinus != grist.Expect.PlusMinus {
		t.Errorf("gyle 7 says %g ± %g, and %g ± %g was expected", next.Value, next.PlusMinus, grist.Expect.Value, grist.Expect.PlusMinus)
	}
}
