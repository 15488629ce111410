package figures

import (
	"math"
	"slices"
	"testing"

	"gylebook/internal/journal"
)

// watery is a gyle with a mash of 10 L in 30 L of a plain water.
func watery(t *testing.T, liquor string) *Sheet {
	t.Helper()
	d := journal.ReadFile("gyles/1.md", withLines(plainGrist, "mash: {liquor: 10 L, ph: 5.4}", "liquor: {water: brook, volume: 30 L, "+liquor+"}"), nil)
	if d.Gyle == nil || len(d.Errors) > 0 {
		t.Fatalf("the entry does not read: %v", d.Errors)
	}
	brook := journal.ReadFile("cards/brook.md", []byte("---\ncard: water\nname: brook\ncalcium: 50 ppm\nmagnesium: 6 ppm\nsodium: 10 ppm\nsulphate: 30 ppm\nchloride: 20 ppm\nalkalinity: 100 ppm\n---\n"), nil).Card
	c := plainContext()
	c.Larder = journal.NewLarder([]*journal.Card{brook})
	return Work(d.Gyle, c)
}

func ionOf(t *testing.T, s *Sheet, name string) Figure {
	t.Helper()
	f, ok := s.Find("ion", name)
	if !ok {
		t.Fatalf("no %s; missing are %+v", name, s.Missing)
	}
	return f
}

// TestWhereSaltsGo: wherever it goes in, a salt is spread over all the liquor; for
// the mash's alkalinity it counts in what it went into.
func TestWhereSaltsGo(t *testing.T) {
	plain, _ := watery(t, "salts: []").Find("residual-alkalinity", "")
	for into, calcium := range map[string]float64{ // mg/L more in the mash, for 3 g of gypsum
		"liquor": 3000.0 / 30 * 0.2328, "mash": 3000.0 / 10 * 0.2328, "copper": 0, "sparge": 0,
	} {
		s := watery(t, "salts: [{salt: gypsum, weight: 3 g, into: "+into+"}]")
		if f := ionOf(t, s, "sulphate"); math.Abs(f.Value-(30+100*0.5579)) > 0.01 {
			t.Errorf("into the %s: sulphate %g", into, f.Value)
		}
		f, _ := s.Find("residual-alkalinity", "")
		if got, want := plain.Value-f.Value, calcium/1.4015; math.Abs(got-want) > 0.01 {
			t.Errorf("into the %s: the mash's alkalinity falls by %g, want %g", into, got, want)
		}
	}
	if math.Abs(plain.Value-(100-50/1.4015-6/1.6999)) > 0.01 {
		t.Errorf("of the plain water %g", plain.Value)
	}
}

// TestAcidsKeepTheBalance: what an acid takes of bicarbonate it leaves as its own
// ion, equivalent for equivalent, where that is an ion of a water report.
func TestAcidsKeepTheBalance(t *testing.T) {
	before := watery(t, "salts: []")
	for acid, ion := range map[string]struct {
		name       string
		perCharge  float64 // mg for an mEq
		everything bool
	}{"hydrochloric": {"chloride", 35.45, true}, "sulphuric": {"sulphate", 96.056 / 2, true}, "lactic": {"chloride", 35.45, false}} {
		s := watery(t, "acids: [{acid: "+acid+", strength: 30 %, volume: 3 mL, into: liquor}]")
		taken := (ionOf(t, before, "bicarbonate").Value - ionOf(t, s, "bicarbonate").Value) / 61.016
		left := (ionOf(t, s, ion.name).Value - ionOf(t, before, ion.name).Value) / ion.perCharge
		if taken < 0.3 || ion.everything && !near(taken, left, 0.003) || !ion.everything && left != 0 {
			t.Errorf("%s acid takes %g mEq/L of bicarbonate and leaves %g of %s", acid, taken, left, ion.name)
		}
	}
	flooded := watery(t, "acids: [{acid: lactic, strength: 80 %, volume: 60 mL, into: mash}]")
	if f := ionOf(t, flooded, "bicarbonate"); f.Value != 0 {
		t.Errorf("more acid than bicarbonate leaves %g of it", f.Value)
	}
	if f, ok := flooded.Find("residual-alkalinity", ""); !ok || f.Value > -300 {
		t.Errorf("60 mL of strong acid in the mash leave an alkalinity of %g", f.Value)
	}
}

// TestWaterLacks: what is not known of the liquor is asked for, or said.
func TestWaterLacks(t *testing.T) {
	lacks := func(s *Sheet, id ID, of string) Missing {
		for _, m := range s.Missing {
			if m.Figure == id && m.Of == of {
				return m
			}
		}
		return Missing{}
	}
	for _, c := range []struct {
		liquor            string
		id                ID
		of, need, because string
	}{
		{"liquor: {volume: 30 L, salts: [{salt: gypsum, weight: 3 g}]}", "ion", "calcium", "liquor.water", ""},
		{"liquor: {water: nobodys, volume: 30 L}", "ion", "calcium", "", "no card says what is in nobodys"},
		{"liquor: {water: nobodys, salts: [{salt: moon dust, weight: 3 g}]}", "ion", "calcium", "liquor.volume", "no card says what is in nobodys"},
	} {
		m := lacks(works(t, withLines(plainGrist, c.liquor)), c.id, c.of)
		if m.Because != c.because || c.need != "" && !slices.Contains(m.Needs, c.need) && len(m.Needs) > 0 {
			t.Errorf("%s: %+v", c.liquor, m)
		}
	}
	if s := works(t, withLines(plainGrist, "liquor: {volume: 30 L, chlorine: sulphite}")); slices.ContainsFunc(s.Missing, func(m Missing) bool { return m.Figure == "ion" }) {
		t.Error("an entry that names no water is asked for its ions")
	}
}

// TestChalkHardlyDissolves: half of it, give or take all of that.
func TestChalkHardlyDissolves(t *testing.T) {
	f := ionOf(t, watery(t, "salts: [{salt: chalk, weight: 6 g, into: mash}]"), "calcium")
	if all := 6000.0 / 30 * 0.4004; math.Abs(f.Value-50-all/2) > 0.1 || f.PlusMinus < all/2 {
		t.Errorf("6 g of chalk make %g ± %g of calcium", f.Value, f.PlusMinus)
	}
}
