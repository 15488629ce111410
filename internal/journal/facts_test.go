package journal

import "testing"

// TestFactsAreTheLabelledKeys: a key of a card or of an aim with a label in the
// vocabulary is a fact, in the vocabulary's order, whatever its type.
func TestFactsAreTheLabelledKeys(t *testing.T) {
	d := ReadFile("cards/bag.md", []byte("---\ncard: vessel\nname: bag\nkind: soft bag\ncapacity: 10.5 L\nrelief: false\n---\n"), &Settings{})
	if len(d.Errors) > 0 || d.Card == nil {
		t.Fatalf("%v", d.Errors)
	}
	written := map[string]string{}
	for _, f := range d.Card.Facts() {
		switch v := f.Value.(type) {
		case Choice[VesselKind]:
			written[f.Key] = v.String()
		case Quantified:
			if kind, litres, _, unit := v.Canonical(); v.Given() {
				written[f.Key] = kind.Name + " in " + unit
				if litres != 10.5 {
					t.Errorf("%s is %g", f.Key, litres)
				}
			}
		case Flag:
			if v.No() {
				written[f.Key] = f.Label
			}
		}
	}
	for key, want := range map[string]string{"kind": "soft bag", "capacity": "volume in L", "relief": "relief valve"} {
		if written[key] != want {
			t.Errorf("%s: %q, want %q", key, written[key], want)
		}
	}
	if facts := (&Card{Kind: Choice[CardKind]{Word: CardMalt}}).Facts(); facts != nil {
		t.Errorf("a card without facts has %v", facts)
	}
	first := Aim{}.Facts()[0]
	if first.Key != "volume" || first.Label != "in the fermenter" {
		t.Errorf("what is aimed at begins with %s, %s", first.Key, first.Label)
	}
}
