package journal

import (
	"math"
	"testing"
)

// TestVesselsAsBrewersWriteThem: a vessel that is not known has no capacity and
// no kind, and so no warning of its own; whatever can be known is.
func TestVesselsAsBrewersWriteThem(t *testing.T) {
	for _, c := range []struct {
		typed, name, kind string
		size              float64
	}{
		{"500 mL bottle", "bottle 500 mL", "bottle", 0.5},
		{"bottles 500 mL", "bottle 500 mL", "bottle", 0.5},
		{"500ml bottles", "bottle 500ml", "bottle", 0.5},
		{"bottle 50 cL", "bottle 50 cL", "bottle", 0.5},
		{"bottle 500", "bottle 500 mL", "bottle", 0.5},
		{"bottle 1500", "bottle 1.5 L", "bottle", 1.5},
		{"2 L PET bottle", "2 L PET bottle", "bottle", 2},
		{"plastic bottle 2 L", "2 L plastic bottle", "bottle", 2},
		{"swing top bottle 500 mL", "500 mL swing top bottle", "bottle", 0.5},
		{"Champagne bottle 750 mL", "750 mL Champagne bottle", "bottle", 0.75},
		{"corny keg 19 L", "19 L corny keg", "keg", 19},
		{"mini keg 5 L", "5 L mini keg", "keg", 5},
		{"19 L keg", "keg 19 L", "keg", 19},
		{"kegs 19 L", "keg 19 L", "keg", 19},
		{"barrel 25 L", "25 L barrel", "pressure barrel", 25},
		{"polypin 20 L", "20 L polypin", "soft bag", 20},
		{"soft bags 10 L", "soft bag 10 L", "soft bag", 10},
		{"50 L bucket", "bucket 50 L", "bucket", 50},
		{"pins", "pins", "cask", 20.457405},
		// A kind without a size, or with one that may be another: what it holds
		// is not known.
		{"keg", "keg", "keg", 0},
		{"keg 2", "keg 2", "keg", 0},
		{"pint bottle", "pint bottle", "bottle", 0},
		{"keg 5 gal", "keg 5 gal", "keg", 0},
		{"bottle 2", "bottle 2", "bottle", 0},
		{"bottle five", "bottle five", "bottle", 0},
		{"bottle 0 L", "bottle 0 L", "bottle", 0},
		{"keg -5 L", "keg -5 L", "keg", 0},
		{"bottle 500 mL or 330 mL", "bottle 500 mL or 330 mL", "bottle", 0},
		// What is surely no such thing, or may be one of two.
		{"bottles in a keg", "", "", 0},
		{"oak barrel 50 L", "", "", 0},
		{"bottler", "", "", 0},
		{"flagon 2 L", "", "", 0},
	} {
		card := vesselOf(c.typed)
		switch {
		case card == nil && c.kind == "":
		case card == nil || c.kind == "":
			t.Errorf("%q: %+v, want kind %q", c.typed, card, c.kind)
		case card.Name.Text != c.name || string(card.Vessel.Is.Word) != c.kind ||
			math.Abs(float64(card.Vessel.Size.Value)-c.size) > 1e-9 || card.Vessel.Size.Written() != (c.size > 0):
			t.Errorf("%q: %s, a %s of %v L, want %s, a %s of %v L", c.typed, card.Name, card.Vessel.Is.Word,
				card.Vessel.Size.Value, c.name, c.kind, c.size)
		}
	}
	if card := vesselOf("2 L PET bottle"); !card.Vessel.Material.Is(PlasticMade) {
		t.Error("a PET bottle is not of plastic")
	}
}
