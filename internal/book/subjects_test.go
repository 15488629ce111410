package book

import (
	"strings"
	"testing"
)

func TestOneSubjectHoweverSpelt(t *testing.T) {
	b := open(t, entries{
		"cards/hop.md":  "card: hop\nname: Bishops Crook\nalso: [crook, B. Crook]",
		"cards/idle.md": "card: hop\nname: Idle",
		"1.md": `gyle: 1
beer: A
brewed: 2026-01-01
hops: [{hop: crook, weight: 25 g, boiled: 60 min}, {hop: BISHOPS  CROOK, weight: 15 g, steeped: 20 min, at: 80 C}, {hop: b. crook, weight: 1 oz, dry: 3 days}]
packages: [{vessel: bottle 500 mL, count: 3}, {vessel: Bottle 0.5 L, fill: 480 mL, count: 2}, {vessel: bottle  500mL}]
grist: [{malt: strange malt, weight: 3 kg}, {adjunct: Strange  Malt, weight: 1 kg}]`,
		"2.md": "gyle: 2\nbeer: B\nbrewed: 2026-02-01\ngrist: [{malt: Strange Malt, weight: 3 kg}]\npackages: [{vessel: bottle 500 mL}]\nfermenter: {vessel: bottle 330 mL}",
	})
	hop := b.Subject("hop", "bishopscrook")
	if hop == nil || hop != b.Subject("hop", "Crook") || hop.Name != "Bishops Crook" {
		t.Fatalf("the hop's spellings lead to %+v", hop)
	}
	var amounts []string
	for _, u := range b.Uses(hop) {
		amounts = append(amounts, u.Amount)
	}
	if got, want := strings.Join(amounts, "; "), "25 g at 60 min; 15 g steeped 20 min at 80 °C; 1 oz dry for 3 days"; got != want {
		t.Errorf("amounts: got %s, want %s", got, want)
	}
	if idle := b.Subject("hop", "idle"); idle == nil || len(b.Uses(idle)) != 0 {
		t.Error("a card that nobody uses has no page")
	}
	bottle := b.Subject("vessel", "bottle 0.5 L")
	if bottle == nil || bottle != b.Subject("vessel", "bottle 500 mL") || len(b.Uses(bottle)) != 4 || bottle.Name != "bottle 500 mL" {
		t.Errorf("the half-litre bottle is not one subject: %+v", bottle)
	}
	if other := b.Subject("vessel", "bottle 330 mL"); other == nil || other == bottle {
		t.Error("two sizes of bottle are one")
	}
	if malt := b.Subject("malt", "STRANGE MALT"); malt.Name != "Strange Malt" || len(b.Uses(malt)) != 3 || malt.Card != nil {
		t.Errorf("a malt without a card: %s, %d uses; want the spelling used most", malt.Name, len(b.Uses(malt)))
	}
	if b.Subject("hop", "nobody's") != nil {
		t.Error("a name that nobody uses has a subject")
	}
}

func TestAmountsAsABrewerSaysThem(t *testing.T) {
	b := open(t, entries{"1.md": `gyle: 1
beer: A
brewed: 2026-01-01
style: dark mild
liquor: {water: well water, volume: 33 L, salts: [{salt: gypsum, weight: 3 g, into: mash}]}
grist: [{malt: one malt, weight: 3.2 kg}, {malt: two malt, weight: 0.8 kg}, {sugar: strange sugar, weight: 100 g}]
finings: [{with: copper finings, weight: 2 g, into: copper}]
added: [{fruit: damson, weight: 2 kg, into: fermenter}]
yeast: [{yeast: house ale, sold: slurry, volume: 200 mL, from_gyle: 9, at: 19 C}]
fermenter: {vessel: bucket, volume: 22.5 L, gravity: 1.036, with: old glass}
readings: [{when: 2026-01-02, gravity: 1.030, with: old glass}, {when: 2026-01-03, brix: 8, with: Old Glass}]
priming: {sugar: sucrose, weight: 44 g}
packages: [{vessel: soft bag 10 L, fill: 9 L}, {vessel: bottle 500 mL, count: 24, priming: {sugar: sucrose, each: 1.5 g}}]
done: [{when: 2026-01-09, did: cleaned, what: pump, with: line cleaner}]
tastings: [{by: Nobody, score: 34}, {by: Nobody, score: 7, out_of: 10}]`})
	want := `style dark mild: 
water well water: 33 L
salt gypsum: 3 g into the mash
malt one malt: 3.2 kg, 78 % of the grist
malt two malt: 0.8 kg, 20 % of the grist
sugar strange sugar: 100 g, 2.4 % of the grist
fruit damson: 2 kg into the fermenter
fining copper finings: 2 g into the copper
yeast house ale: 200 mL slurry from gyle 9, pitched at 19 °C
vessel bucket: 22.5 L to work in
instrument old glass: 2 readings of gravity, 1 reading of Brix
sugar sucrose: 44 g to prime
vessel soft bag 10 L: 9 L
vessel bottle 500 mL: 24 filled
sugar sucrose: 1.5 g in each of 24 to prime
cleaner line cleaner: cleaned pump
taster Nobody: 34 of 50
taster Nobody: 7 of 10
`
	var got strings.Builder
	for _, u := range b.Gyle(1).Uses() {
		got.WriteString(u.Subject.Kind + " " + u.Subject.Name + ": " + u.Amount + "\n")
	}
	if got.String() != want {
		t.Errorf("got\n%s\nwant\n%s", got.String(), want)
	}
}

func TestSubjectsRunByKindAndName(t *testing.T) {
	b := open(t, entries{"1.md": "gyle: 1\nbeer: A\nhops: [{hop: zeta}, {hop: Éclair}, {hop: eagle}, {hop: number 10}, {hop: number 9}]\ngrist: [{malt: zz}]"})
	var names []string
	for _, s := range b.Subjects {
		names = append(names, s.Kind+" "+s.Name)
	}
	if got, want := strings.Join(names, ", "), "hop eagle, hop Éclair, hop number 9, hop number 10, hop zeta, malt zz"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestUsualInstrumentsCount(t *testing.T) {
	j := read(t, entries{"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-01-01\nreadings: [{when: 2026-01-01, gravity: 1.040, temp: 20 C}, {when: 2026-01-03, gravity: 1.020, with: other}]"})
	j.Settings.Instruments.Gravity.Name = "usual"
	b := Open(j, noon)
	for name, want := range map[string]string{"usual": "1 reading of gravity", "other": "1 reading of gravity"} {
		s := b.Subject("instrument", name)
		if s == nil || len(b.Uses(s)) != 1 || b.Uses(s)[0].Amount != want || !b.Uses(s)[0].Where.Written() {
			t.Errorf("%s: %+v, want %s", name, s, want)
		}
	}
}
