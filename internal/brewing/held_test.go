package brewing

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	q "gylebook/internal/quantity"
)

// How near a formula must come to the pencil: another formula for the vapour of water
// moves a gauge by 0.0002 bar, and what is printed is rounded in its last digit.
const (
	asBar   = 0.0005
	asVol   = 0.0005
	asGrams = 0.006 // of 20 to 110 g
	asLitre = 0.002
)

// pencilled is one section of the table of single sums, in which no cell is empty.
func pencilled(t *testing.T, section string, want int) []row {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("..", "..", "testdata", "accounts-by-hand", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, text, found := strings.Cut(string(raw), "\n## "+section+". ")
	if !found {
		t.Fatalf("no section %s", section)
	}
	text, _, _ = strings.Cut(text, "\n## ")
	var lines [][]string
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "|") && !strings.HasPrefix(line, "|---") {
			lines = append(lines, cellsOf(line))
		}
	}
	if len(lines) != want+1 {
		t.Fatalf("section %s has %d sums, want %d", section, len(lines)-1, want)
	}
	var rows []row
	for _, cells := range lines[1:] {
		r := row{}
		for i, name := range lines[0] {
			if _, twice := r[name]; twice {
				name += " there"
			}
			r[name] = cells[i]
		}
		rows = append(rows, r)
	}
	return rows
}

func cellsOf(line string) []string {
	cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	return cells
}

// grams is an amount of carbon dioxide.
func grams(n Moles) float64 { return float64(n) * co2MolarMass }

// shut is beer and gas in a container that keeps its shape, by a row: carbon dioxide
// in g, and air by its partial pressure at the heat of the row.
func (r row) shut(t *testing.T, beer, room string) (Held, q.Temperature) {
	t.Helper()
	at := q.Celsius(r.number(t, "°C"))
	h := Held{Beer: q.Volume(r.number(t, beer)), Room: q.Volume(r.number(t, room)), Outside: StandardAir}
	h.CO2 = Moles(r.number(t, "CO2 in all g") / co2MolarMass)
	h.Inert = h.gasIn(r.number(t, "air bar")/atmosphereBar, at)
	return h, at
}

// standing is how it stands, against three columns of a row.
func (r row) standing(t *testing.T, h Held, at q.Temperature, gauge, dissolved string) {
	t.Helper()
	s := good[Standing](t)(h.At(at))
	near(t, r["no"]+": gauge in bar", s.Gauge.Bar(), r.number(t, gauge), asBar)
	if dissolved != "" {
		near(t, r["no"]+": dissolved", s.Dissolved, r.number(t, dissolved), asVol)
	}
}

// airBar is the partial pressure of what is not carbon dioxide above the beer.
func airBar(h Held, at q.Temperature) float64 {
	_, inert := h.partials(at)
	return inert * atmosphereBar
}

// TestPencilledOpen: beer in the open, on a mountain, and under a valve.
func TestPencilledOpen(t *testing.T) {
	for _, r := range pencilled(t, "A", 6) {
		set, outside := q.Pressure(r.number(t, "valve bar")), q.AirPressure(r.number(t, "ambient kPa"))
		got := good[q.Carbonation](t)(UnderGauge(set, q.Celsius(r.number(t, "°C")), outside))
		near(t, r["no"], got, r.number(t, "vol"), asVol)
	}
}

var sealedIn = regexp.MustCompile(`air sealed in at (\d+) °C`)

// TestPencilledShut: closed containers at rest, purged and with air sealed in at the
// heat of the row or another.
func TestPencilledShut(t *testing.T) {
	purged, withAir := 0, 0
	for _, r := range pencilled(t, "B", 8) {
		h, at := r.shut(t, "V", "H")
		r.standing(t, h, at, "gauge bar", "dissolved vol")
		filled := h
		filled.CO2, filled.Inert = 0, 0
		if found := sealedIn.FindStringSubmatch(r["what"]); found != nil {
			withAir++
			celsius := good[float64](t)(strconv.ParseFloat(found[1], 64))
			filled = good[Held](t)(Filled(filled, 0, q.Celsius(celsius), false))
		} else {
			purged++
		}
		near(t, r["no"]+": air in bar", airBar(filled, at), r.number(t, "air bar"), asBar)
	}
	if purged != 4 || withAir != 4 {
		t.Errorf("%d purged and %d with air", purged, withAir)
	}
}

// TestPencilledGauge: what a gauge says of the gas, and what that comes to where it is
// warm.
func TestPencilledGauge(t *testing.T) {
	for _, r := range pencilled(t, "C", 2) {
		h := Held{Beer: q.Volume(r.number(t, "V")), Room: q.Volume(r.number(t, "H")), Outside: StandardAir}
		if sealed := r["air sealed in at °C"]; sealed != "none" {
			h = good[Held](t)(Filled(h, 0, q.Celsius(r.number(t, "air sealed in at °C")), false))
		}
		read := q.Celsius(r.number(t, "read at °C"))
		h = good[Held](t)(h.Gauged(q.Pressure(r.number(t, "gauge bar")), read))
		near(t, r["no"]+": grams", grams(h.CO2), r.number(t, "CO2 in all g"), asGrams)
		s := good[Standing](t)(h.At(q.Celsius(r.number(t, "now at °C"))))
		near(t, r["no"]+": warm", s.Gauge.Bar(), r.number(t, "gauge bar there"), asBar)
		near(t, r["no"]+": as read", good[Standing](t)(h.At(read)).Gauge, r.number(t, "gauge bar"), 1e-9)
	}
}

// TestPencilledVented: for a moment and until quiet, at rest afterwards and warmed.
func TestPencilledVented(t *testing.T) {
	for _, r := range pencilled(t, "D", 4) {
		before, at := r.shut(t, "V", "H")
		near(t, r["no"]+": before", good[Standing](t)(before.At(at)).Gauge, r.number(t, "gauge before"), asBar)
		vent := before.VentedForAMoment
		if r["vented"] == "quiet" {
			vent = before.VentedToQuiet
		}
		after := good[Held](t)(vent(at))
		near(t, r["no"]+": grams out", grams(before.CO2-after.CO2), r.number(t, "CO2 out g"), asGrams)
		near(t, r["no"]+": air left", airBar(after, at), r.number(t, "air left bar"), asBar)
		r.standing(t, after, at, "gauge at rest after", "dissolved vol")
		warm := good[Standing](t)(after.At(q.Celsius(r.number(t, "warmed to °C"))))
		near(t, r["no"]+": warmed", warm.Gauge, r.number(t, "gauge there"), asBar)
	}
}

// TestPencilledDrawn: a half-drawn cask and keg, by what came in behind the beer.
func TestPencilledDrawn(t *testing.T) {
	in := map[string]Behind{"nothing": Nothing, "air": Air, "breather": Breather, "cylinder 0.8": Cylinder}
	for _, r := range pencilled(t, "E", 5) {
		before, at := r.shut(t, "V before", "H before")
		near(t, r["no"]+": before", good[Standing](t)(before.At(at)).Gauge, r.number(t, "gauge before"), asBar)
		behind, known := in[r["comes in"]]
		if !known {
			t.Fatalf("%s: %s comes in", r["no"], r["comes in"])
		}
		after := good[Held](t)(before.Drawn(q.Volume(r.number(t, "drawn L")), at, behind))
		near(t, r["no"]+": grams left", grams(after.CO2), r.number(t, "CO2 left g"), asGrams)
		near(t, r["no"]+": air", airBar(after, at), r.number(t, "air bar there"), asBar)
		r.standing(t, after, at, "gauge at rest", "dissolved vol")
		if after.Beer+after.Room != before.Beer+before.Room {
			t.Errorf("%s: the container is another size", r["no"])
		}
	}
}

// fed is a cylinder as a row has it, and how far the beer has gone towards it.
func (r row) fed(t *testing.T) Regulator {
	return Regulator{Set: q.Pressure(r.number(t, "setting bar")), Share: r.number(t, "share")}
}

// TestPencilledFed: what beer without room above it takes up.
func TestPencilledFed(t *testing.T) {
	for _, r := range pencilled(t, "F", 6) {
		at, beer := q.Celsius(r.number(t, "°C")), q.Volume(18)
		h := Held{Beer: beer, CO2: MolesOf(q.Carbonation(r.number(t, "c0 vol")), beer), Outside: StandardAir}
		part := 1 - math.Exp(-r.number(t, "days")/r.number(t, "τ days"))
		near(t, r["no"]+": taken up", good[Held](t)(h.Fed(r.fed(t), at, part)).InAll(), r.number(t, "c vol"), asVol)
		end := max(r.number(t, "ceq vol"), r.number(t, "c0 vol"))
		near(t, r["no"]+": in the end", good[Held](t)(h.Fed(r.fed(t), at, 1)).InAll(), end, asVol)
	}
}

// TestPencilledShutIn: the same beer with room above it, shut in with what the
// cylinder gave.
func TestPencilledShutIn(t *testing.T) {
	before := pencilled(t, "F", 6)
	for _, r := range pencilled(t, "G", 4) {
		at := q.Celsius(r.number(t, "°C"))
		h := Held{Beer: q.Volume(r.number(t, "V")), Room: q.Volume(r.number(t, "H")), Outside: StandardAir}
		h.CO2 = h.under(0.8/float64(dissolvedAt(1, at)), at)
		by, part := r.fed(t), 1.0
		switch r["what"] {
		case "after row 26":
			part = 1 - math.Exp(-before[0].number(t, "days")/before[0].number(t, "τ days"))
		case "nitrogen on 0.8 vol": // as it was filled: all of the beer's gas in the beer
			h.CO2, by.Fresh = MolesOf(0.8, h.Beer), 1
		}
		h = good[Held](t)(h.Fed(by, at, part))
		near(t, r["no"]+": grams", grams(h.CO2), r.number(t, "CO2 in all g"), asGrams)
		r.standing(t, h, at, "gauge at rest", "dissolved vol")
		warm := good[Standing](t)(h.At(q.Celsius(r.number(t, "warmed to °C"))))
		near(t, r["no"]+": warmed", warm.Gauge, r.number(t, "gauge there"), asBar)
	}
}

// TestPencilledBags: slack, tight, with air, with nothing to give off.
func TestPencilledBags(t *testing.T) {
	for _, r := range pencilled(t, "H", 5) {
		at, beer := q.Celsius(r.number(t, "°C")), q.Volume(r.number(t, "V"))
		h := Held{Beer: beer, Room: q.Volume(r.number(t, "capacity")) - beer, Soft: true, Outside: StandardAir}
		h.CO2 = Moles(r.number(t, "CO2 in all g") / co2MolarMass)
		sealed := h
		sealed.Room = q.Volume(r.number(t, "air L"))
		h.Inert = sealed.gasIn(sealed.dry(18), 18)
		r.standing(t, h, at, "gauge", "dissolved vol")
		s := good[Standing](t)(h.At(at))
		near(t, r["no"]+": free gas", s.Free, r.number(t, "gas G"), asLitre)
		near(t, r["no"]+": slack", h.Room-s.Free, r.number(t, "slack"), asLitre)
	}
}

// TestEquilibriumPressure holds pressures to the table worked with the same
// solubility, and the other routes to the unsafe side of it.
func TestEquilibriumPressure(t *testing.T) {
	const asTable = 0.006 // bar: another vapour pressure and volume of gas
	for _, r := range table(t, "13d_equilibrium_pressure.csv") {
		at, volumes := q.Celsius(r.number(t, "temperature_C")), r.number(t, "volumes_co2")
		name := r["volumes_co2"] + " vol at " + r["temperature_C"] + " °C"
		full := Held{Beer: 20, CO2: MolesOf(q.Carbonation(volumes), 20), Outside: StandardAir}
		pressure := good[Standing](t)(full.At(at)).Gauge
		near(t, name, pressure, r.number(t, "gauge_bar_water_x_0.936"), asTable)
		if float64(pressure) < r.number(t, "gauge_bar_pure_water") {
			t.Errorf("%s: below the pressure over pure water", name)
		}
		if at > 20 && float64(pressure) < r.number(t, "gauge_bar_beer_chart_regression") {
			t.Errorf("%s: below the stretched quadratic", name)
		}
		back := good[q.Carbonation](t)(UnderGauge(pressure, at, StandardAir))
		near(t, "back from the pressure of "+name, back, volumes, 1e-9)
	}
}

// TestAirInTheHeadspace: air sealed in at 20 °C and warmed to 30 adds what the
// gas law says, with what the vapour adds; and a purged headspace adds less.
func TestAirInTheHeadspace(t *testing.T) {
	flat := good[Held](t)(Filled(Held{Beer: 19, Room: 1, Outside: StandardAir}, 0, 20, false))
	near(t, "as it was closed, in bar", good[Standing](t)(flat.At(20)).Gauge, 0.0, 1e-9)
	air := (atmosphereBar - 0.02339) * (303.15/293.15 - 1)
	vapour := 0.04246 - 0.02339 // bar, steam tables
	near(t, "warmed to 30 °C", good[Standing](t)(flat.At(30)).Gauge, air+vapour, 0.0003)

	withAir := good[Held](t)(Filled(Held{Beer: 19, Room: 1, Outside: StandardAir}, 1.5, 20, false))
	purged := good[Held](t)(Filled(Held{Beer: 19, Room: 1, Outside: StandardAir}, 1.5, 20, true))
	if p, a := good[Standing](t)(purged.At(20)).Gauge, good[Standing](t)(withAir.At(20)).Gauge; !(p < a) {
		t.Errorf("purged %v bar, with air %v bar", p, a)
	}
}

// TestSwollenBag: 20 L at 1.3 vol and 20 °C holds 0.8 and lets 0.5 vol go.
func TestSwollenBag(t *testing.T) {
	bag := good[Held](t)(Filled(Held{Beer: 20, Room: 15, Soft: true, Outside: StandardAir}, 1.3, 18, false))
	held := good[q.Carbonation](t)(UnderGauge(0, 20, StandardAir))
	slack := good[Standing](t)(bag.At(20))
	litres := (1.3 - float64(held)) * 20 * 293.15 / 273.15 // of gas at 20 °C and 1 atm
	vapour := 1 / bag.dry(20)                              // which swells with it
	const realGas = 0.01                                   // a volume is real gas, the bag's is ideal
	near(t, "free gas", slack.Free, litres*vapour, realGas*litres)
	near(t, "a bag with room, in bar", slack.Gauge, 0.0, 0.0)
	bag.Room = 5
	if tight := good[Standing](t)(bag.At(20)); !(tight.Gauge > 0) {
		t.Error("a 25 L bag that needs 31 is not tight")
	}
}

// TestAirAt holds the air's pressure to the standard atmosphere's own table.
func TestAirAt(t *testing.T) {
	// ISO 2533:1975, by geopotential height (from memory).
	for metres, kPa := range map[q.Height]float64{0: 101.325, 500: 95.461, 1000: 89.876, 1500: 84.556, 3000: 70.109} {
		near(t, "the air's pressure", good[q.AirPressure](t)(AirAt(metres)), kPa, 0.002)
	}
}

// TestGasOverDissolved: row 11 of the pencil, a keg half full: 2.4 vol in all and
// 1.0669 dissolved.
func TestGasOverDissolved(t *testing.T) {
	rows := pencilled(t, "B", 8)
	at := slices.IndexFunc(rows, func(r row) bool { return r["no"] == "11" })
	over := good[q.Number](t)(GasOverDissolved(9.5, 10.45, 20))
	near(t, "all over dissolved", over, 2.4/rows[at].number(t, "dissolved vol"), asVol)
}

// TestBetween: a share of nought is the one, of 1 the other.
func TestBetween(t *testing.T) {
	one, other := Held{Beer: 1, CO2: 4, Inert: 1, Outside: StandardAir}, Held{Beer: 1, CO2: 2, Outside: StandardAir}
	for share, want := range map[float64]Moles{-1: 4, 0: 4, 0.25: 3.5, 1: 2, 2: 2} {
		if got := one.Between(other, share); got.CO2 != want {
			t.Errorf("a share of %v: %v mol, want %v", share, got.CO2, want)
		}
	}
}

// TestLeakedTo: a gauge that shows less than the account says that of each gas its part has
// gone, so that the one is not nought for there having been more of the other; one that
// shows more says nothing of a leak.
func TestLeakedTo(t *testing.T) {
	at := q.Celsius(18)
	h := good[Held](t)(Filled(Held{Beer: 5 * q.Litre, Room: q.Litre, Outside: StandardAir}, 2, q.Celsius(12), false))
	h.Inert *= 4
	full := good[Standing](t)(h.At(at)).Gauge
	co2, inert := h.partials(at)
	part := h.totalAt(full/2, at) / (co2 + inert)
	leaked := good[Held](t)(h.LeakedTo(full/2, at))
	near(t, "the gauge", good[Standing](t)(leaked.At(at)).Gauge, full/2, 1e-9)
	near(t, "carbon dioxide", float64(leaked.CO2/h.CO2), part, 1e-9)
	near(t, "air", float64(leaked.Inert/h.Inert), part, 1e-9)
	if more := good[Held](t)(h.LeakedTo(full+1, at)); more != h {
		t.Errorf("a gauge that shows more leaves %+v of %+v", more, h)
	}
}
