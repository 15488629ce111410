package figures

import (
	"math"
	"testing"

	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

// The balances are worked here a second time, from the entry's own readings and
// with constants written out anew, so that they share nothing with the formulas
// but the physics.

// value is a figure that a balance needs; ok is false where the gyle has none.
func valueOf(s *Sheet, id ID, of string) (v float64, ok bool) {
	f, ok := s.Find(id, of)
	return f.Value, ok
}

// closes holds two sides of a balance equal.
func closes(t *testing.T, s *Sheet, what string, left, right, within float64) {
	t.Helper()
	if !(math.Abs(left-right) <= within) {
		t.Errorf("gyle %d: %s: %.9g against %.9g", s.Gyle.Number.N, what, left, right)
	}
}

// rounding is what sums of a few floating-point numbers may be out by.
const rounding = 1e-9

func forDemonstration(t *testing.T, balance func(t *testing.T, s *Sheet) (balanced int), atLeast int) {
	t.Helper()
	j := opened(t, demo)
	balanced := 0
	for _, g := range j.Gyles {
		balanced += balance(t, Work(g, contextOf(j, longAfter)))
	}
	if balanced < atLeast {
		t.Errorf("only %d balances could be struck, want at least %d", balanced, atLeast)
	}
}

// TestExtractBalance: what the mash gave and the copper was given is in the
// fermenter, or stayed behind in the copper.
func TestExtractBalance(t *testing.T) {
	forDemonstration(t, func(t *testing.T, s *Sheet) int {
		potential, added := 0.0, 0.0
		for i, g := range s.Gyle.Grist {
			e := s.Inquire().extractOf(i, &g)
			if !e.known {
				return 0
			}
			degrees := g.Weight.Value.Kilograms() * float64(e.Value)
			if g.Into.Is("copper") || g.Into.Is("fermenter") || !g.Into.Written() && (g.Sugar.Written() || g.Syrup.Written()) {
				added += degrees
			} else {
				potential += degrees
			}
		}
		mash, ok1 := s.Find("mash-yield", "")
		brewhouse, ok2 := s.Find("brewhouse-yield", "")
		og, ok3 := valueOf(s, "og", "")
		lost, ok4 := valueOf(s, "losses", "copper to fermenter")
		if !ok1 || !ok2 || !ok3 || !ok4 || potential == 0 {
			return 0
		}
		inFermenter := s.Gyle.Fermenter.Volume.Value.Litres() * (og - 1) * 1000
		came := 1 - lost/(lost+s.Gyle.Fermenter.Volume.Value.Litres()-s.Gyle.Fermenter.Topped.Value.Litres())
		closes(t, s, "extract in the fermenter", potential*brewhouse.Value/100+added*min(came, 1), inFermenter, rounding*inFermenter)
		intoCopper := potential*mash.Value/100 + added
		accounted := inFermenter + lost*(og-1)*1000
		doubt := potential / 100 * math.Hypot(mash.PlusMinus, brewhouse.PlusMinus)
		closes(t, s, "extract through the copper", intoCopper, accounted, doubt)
		return 1
	}, 8)
}

// TestVolumeBalance: every litre after the boil is in the containers or lost at
// a step that has a name.
func TestVolumeBalance(t *testing.T) {
	forDemonstration(t, func(t *testing.T, s *Sheet) int {
		copper, ok1 := valueOf(s, "losses", "copper to fermenter")
		racking, ok2 := valueOf(s, "losses", "fermenter to container")
		filling, ok3 := valueOf(s, "losses", "filling")
		pints, ok4 := valueOf(s, "pints", "")
		if !ok1 || !ok2 || !ok3 || !ok4 || s.Gyle.Copper.After.Temp.Written() {
			return 0
		}
		boiled := s.Gyle.Copper.After.Volume.Value.Litres() + s.Gyle.Fermenter.Topped.Value.Litres()
		closes(t, s, "litres after the boil", copper+racking+filling+pints*0.56826125, boiled, rounding*boiled)
		return 1
	}, 6)
}

// TestGasBalance: a container's gas in all is what was left, what the sugar gave and
// what was still to come; no more of it, in litres, where some was let out or drawn and
// none came in behind.
func TestGasBalance(t *testing.T) {
	forDemonstration(t, func(t *testing.T, s *Sheet) int {
		balanced := 0
		residual, ok1 := valueOf(s, "residual-co2", "")
		toCome, ok2 := valueOf(s, "co2-to-come", "")
		for _, c := range s.Containers() {
			all, ok3 := valueOf(s, "gas-in-all", c.Key)
			if !ok1 || !ok2 || !ok3 || c.Forced() {
				continue
			}
			priming, ok := valueOf(s, "priming-co2", c.Key)
			if !ok {
				priming, _ = valueOf(s, "priming-co2", "")
			}
			put := residual + priming + toCome
			i := s.Inquire()
			filled, now := i.fillToReckon(c).Value.Litres(), value[q.Volume](i.reckon(c), beerNow).Value.Litres()
			switch {
			case i.comesIn(c) == brewing.Breather || c.Package.Purged.Yes():
				continue // gas came in that no figure speaks of
			case untouched(s, c):
				closes(t, s, "the gas of "+c.Key, all, put, rounding)
			case all*now > put*filled+rounding:
				t.Errorf("gyle %d: %s was opened and holds %.4g of %.4g L of gas", s.Gyle.Number.N, c.Key, all*now, put*filled)
			}
			balanced++
		}
		return balanced
	}, 8)
}

// untouched tells whether nothing happened to a container but that it was filled.
func untouched(s *Sheet, c Container) bool {
	for _, p := range s.Inquire().postings(c) {
		if p.what != filling && p.what != putIn {
			return false
		}
	}
	return true
}

// henry is grams of CO2 that a litre of beer dissolves under 1 bar of it: Weiss
// (1974) for water in mol/(L atm), × 44.009 g/mol ÷ 1.01325 bar × 0.936.
func henry(celsius float64) float64 {
	k := celsius + 273.15
	return 0.936 * 44.009 / 1.01325 * math.Exp(-58.0931+90.5069*(100/k)+22.2940*math.Log(k/100))
}

// steam is the pressure of water vapour in bar, by Antoine's equation with the
// usual constants for 1 to 100 °C; another route than the one of the formulas,
// 0.2 % from it.
func steam(celsius float64) float64 {
	return math.Pow(10, 8.07131-1730.63/(233.426+celsius)) / 750.062
}

// pressureBalance finds by halving the gauge pressure at which dissolved gas and
// headspace gas together are all the gas there is.
func pressureBalance(grams, beer, room, celsius, air float64) float64 {
	const r = 0.0831446 // L bar/(mol K)
	missing := func(co2 float64) float64 {
		return co2*henry(celsius)*beer + co2*room*44.009/(r*(celsius+273.15)) - grams
	}
	low, high := 0.0, 100.0
	for range 200 {
		if middle := (low + high) / 2; missing(middle) > 0 {
			high = middle
		} else {
			low = middle
		}
	}
	return low + air + steam(celsius) - 1.01325
}

// steamOff is what the two equations for vapour and the rounded constants may
// make of a pressure, in bar.
const steamOff = 0.002

// TestPressureBalance recomputes every container that keeps its shape, and every
// tight bag, from its condition by root-finding.
func TestPressureBalance(t *testing.T) {
	balanced := 0
	balance := func(t *testing.T, s *Sheet) int {
		for _, c := range s.Containers() {
			i := s.Inquire()
			fill, capacity := i.fill(c), i.capacity(c)
			all, known := valueOf(s, "gas-in-all", c.Key)
			if !known || !fill.known || !capacity.known || !untouched(s, c) || c.Is("bucket") {
				continue
			}
			room := capacity.Value - fill.Value
			grams := all * 1.977 * fill.Value.Litres()
			for id, heat := range map[ID]Estimate[q.Temperature]{"pressure-cellar": i.cellarHeat(c), "pressure-warmest": i.warmest(c).likely} {
				co2, air := grams, 0.0
				if c.Rigid() {
					sealed := i.sealedHeat().Value
					dry := 1.01325 - steam(sealed.Celsius())
					air = dry * heat.Value.Kelvin() / sealed.Kelvin()
					if c.Package.Purged.Yes() {
						air = 0 // what it was purged with is among its gas
					}
				}
				want := pressureBalance(co2, fill.Value.Litres(), room.Litres(), heat.Value.Celsius(), air)
				if !c.Rigid() {
					want = max(want, 0)
				}
				got, ok := valueOf(s, id, c.Key)
				if !ok {
					continue
				}
				closes(t, s, string(id)+" of "+c.Key, got, want, steamOff)
				balanced++
			}
		}
		return 0
	}
	forDemonstration(t, balance, 0)
	j := opened(t, byHand)
	balance(t, Work(j.Find("1"), contextOf(j, longAfter)))
	if balanced < 20 {
		t.Errorf("only %d pressures were recomputed", balanced)
	}
}

// TestBagBalance: what a bag's beer holds and what it has set free are all of
// its gas.
func TestBagBalance(t *testing.T) {
	forDemonstration(t, func(t *testing.T, s *Sheet) int {
		balanced := 0
		for _, c := range s.Containers() {
			free, ok1 := valueOf(s, "gas-free", c.Key)
			all, ok2 := valueOf(s, "gas-in-all", c.Key)
			warmest := s.Inquire().warmest(c).likely
			if !ok1 || !ok2 || !warmest.known || free == 0 {
				continue
			}
			i := s.Inquire()
			beer, heat := value[q.Volume](i.reckon(c), beerNow).Value.Litres(), warmest.Value
			dry := 1.01325 - steam(heat.Celsius())
			held := henry(heat.Celsius()) * dry * beer
			gas := dry * free * 44.009 / (0.0831446 * heat.Kelvin())
			closes(t, s, "grams of gas in "+c.Key, held+gas, all*1.977*beer, 0.001*(held+gas))
			balanced++
		}
		return balanced
	}, 4)
}
