package figures

import (
	"cmp"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindHeadspace = &Kind{
		ID: IDHeadspace, Label: "Headspace", Unit: "L", Decimals: 2,
		Says:    "The room above the beer in a container that keeps its shape.",
		Formula: "{H} = {K} − {V}",
		Symbols: []string{"H: headspace, L", "K: capacity to the brim, L", "V: beer in it, L"},
		Valid:   "fill below the brim", Source: "definition", Checked: "definition",
	}
	kindPressureWarmest = &Kind{
		ID: IDPressureWarmest, Label: "Pressure at the warmest", Unit: "bar", Decimals: 1,
		Says:    "Above the atmosphere, once conditioned, at the warmest place the container has stood or will stand: carbon dioxide shared between beer and headspace at equilibrium, and the air that was sealed in. A soft bag swells to its capacity at no pressure first, and then tightens.",
		Formula: "{p} = p(CO₂: {C} vol in {V} L of beer and {H} L of headspace at {T}) + air − 1.013",
		Symbols: []string{"p: pressure, bar gauge", "C: condition, vol", "V: beer, L", "H: headspace, L (for a bag: the room it can swell into)", "T: warmest, °C"},
		Valid:   "0 to 50 °C, 0 to 6 vol",
		Source:  kindResidual.Source,
		Checked: "a table of equilibrium pressures by three routes; of these the one that does not fall below chart or water above 20 °C",
	}
	kindPressureCellar = &Kind{
		ID: IDPressureCellar, Label: "Pressure in the cellar", Unit: "bar", Decimals: 1,
		Says:    "The same at the heat it is kept and served at.",
		Formula: kindPressureWarmest.Formula, Symbols: kindPressureWarmest.Symbols, Valid: kindPressureWarmest.Valid,
		Source: kindPressureWarmest.Source, Checked: kindPressureWarmest.Checked,
	}
	kindMargin = &Kind{
		ID: IDPressureMargin, Label: "Margin to the maker's rating", Unit: "bar", Decimals: 1,
		Says:    "How far the pressure at the warmest stays below what the maker allows. Without a maker's figure there is none.",
		Formula: "{m} = {r} − {p}",
		Symbols: []string{"m: margin, bar", "r: the maker's rating, bar gauge", "p: pressure at the warmest, bar gauge"},
		Valid:   "any container that keeps its shape", Source: "definition", Checked: "definition",
	}
	kindTakes = &Kind{
		ID: IDConditionLimit, Label: "Condition it takes", Unit: "vol", Decimals: 1,
		Says:    "The condition that would bring a container to its maker's rating at the warmest place it has stood or will stand. Without a maker's figure there is none.",
		Formula: "{C} where p({C} vol in {V} L of beer and {H} L of headspace at {T}) = {r}",
		Symbols: []string{"C: the most condition, vol", "V: beer, L", "H: headspace, L", "T: warmest, °C", "r: the maker's rating, bar gauge"},
		Valid:   kindPressureWarmest.Valid, Source: kindResidual.Source, Checked: "fed back, the pressure is the rating",
	}
	kindFreeGas = &Kind{
		ID: IDGasFree, Label: "Gas set free in the bag", Unit: "L", Decimals: 1,
		Says:    "What a soft bag's beer cannot hold at the warmest, as litres of gas at the pressure of the atmosphere: how far the bag swells.",
		Formula: "{G} = ({C} − {S}) × {V}, at {T}",
		Symbols: []string{"G: free gas, L", "C: condition, vol", "S: what the beer can hold, vol", "V: beer, L", "T: warmest, °C"},
		Valid:   "0 to 40 °C, 0 to 6 vol", Source: kindResidual.Source, Checked: "mass balance of carbon dioxide",
	}
	kindSlack = &Kind{
		ID: IDBagSlack, Label: "Slack before the bag goes tight", Unit: "L", Decimals: 1,
		Says:    "The room a soft bag still has at the warmest, beer and free gas taken off. Below nothing it goes tight.",
		Formula: "{s} = {K} − {V} − {G}",
		Symbols: []string{"s: slack, L", "K: capacity, L", "V: beer, L", "G: free gas, L"},
		Valid:   "0 to 40 °C, 0 to 6 vol", Source: kindResidual.Source, Checked: "pressure is nothing until the slack is gone, and continuous there",
	}
	packageKinds = []*Kind{kindHeadspace, kindPressureWarmest, kindPressureCellar, kindMargin, kindTakes, kindFreeGas, kindSlack}
)

// packaged is what each container holds and takes.
func packaged(b *bench) {
	for _, c := range b.containers {
		if c.Is(journal.Bucket) {
			continue // open or airlocked: it cannot hold pressure
		}
		r := b.reckon(c)
		if c.Rigid() {
			b.rigid(c, r)
		} else {
			b.bag(c, r)
		}
	}
}

func (b *bench) rigid(c Container, r *reckoned) {
	room := value[q.Volume](r, roomNow)
	beer := value[q.Volume](r, beerNow)
	if headspace := from2(b, brewing.Headspace, b.capacity(c), b.fill(c)); headspace.known && room.known {
		add(b, kindHeadspace, c.Key, room, sym("H", room, "L"), sym("K", b.capacity(c), "L"), sym("V", beer, "L"))
	} else {
		b.lacks(kindHeadspace, c.Key, cmp.Or(headspace.lack, room.lack))
	}
	b.pressure(kindPressureCellar, c, r, gaugeCellar, b.cellarHeat(c))
	warmest := b.pressure(kindPressureWarmest, c, r, gaugeWarmest, b.warmest(c).likely)
	if c.Vessel != nil && c.Vessel.Rated.Written() {
		rated := exactly(c.Vessel.Rated.Value)
		margin := from2(b, func(r, p q.Pressure) (q.Pressure, error) { return r - p, nil }, rated, warmest)
		f := add(b, kindMargin, c.Key, margin, sym("m", margin, "bar"), sym("r", rated, "bar"), sym("p", warmest, "bar"))
		f.lowerBounded(rated.Value.Bar() - r.upper(gaugeWarmest))
		b.takes(c, r, rated)
	}
}

// OverBrim is how far a fill by eye may be noted above the brim, as a share (common
// practice, no source). Beyond it nobody knows how much room there is, and its pressure
// is reckoned as where its capacity is not known.
const OverBrim = 0.03

func (b *bench) overfull(c Container) bool {
	fill, holds := b.fill(c), b.capacity(c)
	return fill.known && holds.known && float64(fill.Value) > (1+OverBrim)*float64(holds.Value)
}

// pressure adds the pressure at one heat.
func (b *bench) pressure(k *Kind, c Container, r *reckoned, o outcome, heat Estimate[q.Temperature]) Estimate[q.Pressure] {
	p, all := value[q.Pressure](r, o), value[q.Carbonation](r, inAll)
	f := add(b, k, c.Key, p, sym("p", p, "bar"), sym("C", all, ""), sym("V", value[q.Volume](r, beerNow), ""), sym("H", value[q.Volume](r, roomNow), ""), sym("T", heat, "°C"))
	f.bounded(r.upper(o))
	if f != nil && o == gaugeWarmest && !b.PlaceNamed(c) {
		f.Note = "taken as 25 °C: nothing says where it stands; conditioned.warmest or cellared.warmest would"
	}
	extrapolated(f, beyondHenry(all, heat, 50))
	return p
}

// takes adds the condition that a container's rating allows.
func (b *bench) takes(c Container, r *reckoned, rated Estimate[q.Pressure]) {
	warmest := b.warmest(c).likely
	most := Estimate[q.Carbonation]{lack: r.lack}
	if r.lack == nil {
		many, lack := b.evaluateMany(func(x, y []float64) error {
			gas, err := r.likely.taken(x[1:], q.Pressure(x[0]))
			y[0] = float64(gas)
			return err
		}, append([]argument{arg(rated)}, r.numbers...), 1)
		most = Estimate[q.Carbonation]{lack: lack}
		if lack == nil {
			most = result[q.Carbonation](many[0])
		}
	}
	add(b, kindTakes, c.Key, most, sym("C", most, "vol"), sym("V", value[q.Volume](r, beerNow), ""), sym("H", value[q.Volume](r, roomNow), ""), sym("T", warmest, "°C"), sym("r", rated, "bar"))
}

// taken is the gas, as volumes of the beer, with which a container comes to a gauge
// pressure at the warmest, the air above it being as it is.
func (w *walk) taken(x []float64, gauge q.Pressure) (q.Carbonation, error) {
	state, err := w.through(x)
	if err != nil {
		return 0, err
	}
	full, err := state.Gauged(gauge, q.Temperature(x[warmestSlot]))
	return full.InAll(), err
}

// usualHeadspace stands in for a container whose capacity nobody knows, so that
// its pressure is reckoned all the same.
func (b *bench) usualHeadspace(c Container) Estimate[q.Volume] {
	fill := b.fillToReckon(c)
	if !fill.known {
		return fill
	}
	share := float64(fill.Value)
	return customary(b, q.Volume(0.05*share), 0.03*share, "L", "the headspace of "+c.Called(), "capacity not known: taken as 2 to 8 % of the beer in it (common practice, no source)")
}

// beyondHenry tells whether beer is colder, warmer or gassier than the sums of
// pressure are good for.
func beyondHenry(condition Estimate[q.Carbonation], heat Estimate[q.Temperature], warmest q.Temperature) bool {
	return heat.Value < 0 || heat.Value > warmest || condition.Value > mostPressed
}

// mostPressed is the condition up to which pressures were compared.
const mostPressed = q.Carbonation(6)

func (b *bench) bag(c Container, r *reckoned) {
	all, warmest := value[q.Carbonation](r, inAll), b.warmest(c).likely
	fill, capacity := value[q.Volume](r, beerNow), b.capacity(c)
	free, slack := value[q.Volume](r, freeGas), value[q.Volume](r, slackWarmest)
	if !capacity.known {
		slack = Estimate[q.Volume]{lack: capacity.lack}
	}
	tooWarm := beyondHenry(all, warmest, 40)
	held := b.heldUnder(0, warmest)
	f := add(b, kindFreeGas, c.Key, free, sym("G", free, "L"), sym("C", all, "vol"), sym("S", held, "vol"), sym("V", fill, "L"), sym("T", warmest, "°C"))
	f.bounded(r.upper(freeGas))
	extrapolated(f, tooWarm)
	f = add(b, kindSlack, c.Key, slack, sym("s", slack, "L"), sym("K", capacity, "L"), sym("V", fill, "L"), sym("G", free, "L"))
	f.lowerBounded(r.lower(slackWarmest))
	extrapolated(f, tooWarm)
	room := value[q.Volume](r, roomNow)
	for _, at := range []struct {
		kind         *Kind
		heat         Estimate[q.Temperature]
		gauge, slack outcome
	}{{kindPressureCellar, b.cellarHeat(c), gaugeCellar, slackCellar}, {kindPressureWarmest, warmest, gaugeWarmest, slackWarmest}} {
		pressure, upper := b.bagPressure(r, at.gauge, at.slack)
		f := add(b, at.kind, c.Key, pressure, sym("p", pressure, "bar"), sym("C", all, ""), sym("V", fill, ""), sym("H", room, ""), sym("T", at.heat, "°C"))
		f.bounded(upper)
		extrapolated(f, beyondHenry(all, at.heat, 50))
	}
}

// bagPressure is the pressure in a bag, and its upper bound. A slack bag's pressure is
// nothing however one reading is moved, but several together may take up the slack:
// then its ± is the pressure at the low end of the slack's, owed to each reading as
// the slack's doubt is.
func (b *bench) bagPressure(r *reckoned, gauge, slack outcome) (Estimate[q.Pressure], float64) {
	pressure := value[q.Pressure](r, gauge)
	if !pressure.known {
		return pressure, 0
	}
	likely := way{walk: r.likely, numbers: r.numbers, comesTo: r.values}
	if owed := likely.farthest(gauge, +1) / 2; owed > pressure.u && pressure.Value == 0 && r.values[slack].u > 0 {
		pressure.shares, pressure.u = b.scaled(r.values[slack].shares, owed/r.values[slack].u), owed
	}
	return pressure, r.upper(gauge)
}
