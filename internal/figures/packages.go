package figures

import (
	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindHeadspace = &Kind{
		ID: "headspace", Label: "Headspace", Unit: "L", Decimals: 2,
		Says:    "The room above the beer in a container that keeps its shape.",
		Formula: "{H} = {K} − {V}",
		Symbols: []string{"H: headspace, L", "K: capacity to the brim, L", "V: beer in it, L"},
		Valid:   "fill below the brim", Source: "definition", Checked: "definition",
	}
	kindPressureWarmest = &Kind{
		ID: "pressure-warmest", Label: "Pressure at the warmest", Unit: "bar", Decimals: 1,
		Says:    "Above the atmosphere, once conditioned, at the warmest place the container has stood or will stand: carbon dioxide shared between beer and headspace at equilibrium, and the air that was sealed in. A soft bag swells to its capacity at no pressure first, and then tightens.",
		Formula: "{p} = p(CO₂: {C} vol in {V} L of beer and {H} L of headspace at {T}) + air − 1.013",
		Symbols: []string{"p: pressure, bar gauge", "C: condition, vol", "V: beer, L", "H: headspace, L (for a bag: the room it can swell into)", "T: warmest, °C"},
		Valid:   "0 to 50 °C, 0 to 6 vol",
		Source:  kindResidual.Source,
		Checked: "a table of equilibrium pressures by three routes; of these the one that does not fall below chart or water above 20 °C",
	}
	kindPressureCellar = &Kind{
		ID: "pressure-cellar", Label: "Pressure in the cellar", Unit: "bar", Decimals: 1,
		Says:    "The same at the heat it is kept and served at.",
		Formula: kindPressureWarmest.Formula, Symbols: kindPressureWarmest.Symbols, Valid: kindPressureWarmest.Valid,
		Source: kindPressureWarmest.Source, Checked: kindPressureWarmest.Checked,
	}
	kindMargin = &Kind{
		ID: "pressure-margin", Label: "Margin to the maker's rating", Unit: "bar", Decimals: 1,
		Says:    "How far the pressure at the warmest stays below what the maker allows. Without a maker's figure there is none.",
		Formula: "{m} = {r} − {p}",
		Symbols: []string{"m: margin, bar", "r: the maker's rating, bar gauge", "p: pressure at the warmest, bar gauge"},
		Valid:   "any container that keeps its shape", Source: "definition", Checked: "definition",
	}
	kindTakes = &Kind{
		ID: "condition-limit", Label: "Condition it takes", Unit: "vol", Decimals: 1,
		Says:    "The condition that would bring a container to its maker's rating at the warmest place it has stood or will stand. Without a maker's figure there is none.",
		Formula: "{C} where p({C} vol in {V} L of beer and {H} L of headspace at {T}) = {r}",
		Symbols: []string{"C: the most condition, vol", "V: beer, L", "H: headspace, L", "T: warmest, °C", "r: the maker's rating, bar gauge"},
		Valid:   kindPressureWarmest.Valid, Source: kindResidual.Source, Checked: "fed back, the pressure is the rating",
	}
	kindFreeGas = &Kind{
		ID: "gas-free", Label: "Gas set free in the bag", Unit: "L", Decimals: 1,
		Says:    "What a soft bag's beer cannot hold at the warmest, as litres of gas at the pressure of the atmosphere: how far the bag swells.",
		Formula: "{G} = ({C} − {S}) × {V}, at {T}",
		Symbols: []string{"G: free gas, L", "C: condition, vol", "S: what the beer can hold, vol", "V: beer, L", "T: warmest, °C"},
		Valid:   "0 to 40 °C, 0 to 6 vol", Source: kindResidual.Source, Checked: "mass balance of carbon dioxide",
	}
	kindSlack = &Kind{
		ID: "bag-slack", Label: "Slack before the bag goes tight", Unit: "L", Decimals: 1,
		Says:    "The room a soft bag still has at the warmest, beer and free gas taken off. Below nothing it goes tight.",
		Formula: "{s} = {K} − {V} − {G}",
		Symbols: []string{"s: slack, L", "K: capacity, L", "V: beer, L", "G: free gas, L"},
		Valid:   "0 to 40 °C, 0 to 6 vol", Source: kindResidual.Source, Checked: "pressure is nothing until the slack is gone, and continuous there",
	}
	packageKinds = []*Kind{kindHeadspace, kindPressureWarmest, kindPressureCellar, kindMargin, kindTakes, kindFreeGas, kindSlack}
)

// packaged is what each container holds and takes.
func packaged(b *bench) {
	for _, c := range b.Containers() {
		if c.Is(journal.Bucket) {
			continue // open or airlocked: it cannot hold pressure
		}
		if c.Rigid() {
			b.rigid(c)
		} else {
			b.bag(c)
		}
	}
}

func (b *bench) rigid(c Container) {
	headspace := from2(b, brewing.Headspace, b.capacity(c), b.fill(c))
	add(b, kindHeadspace, c.Key, headspace, sym("H", headspace, "L"), sym("K", b.capacity(c), "L"), sym("V", b.fill(c), "L"))
	room := first(headspace, b.usualHeadspace(c))
	b.rigidPressure(kindPressureCellar, c, room, b.cellarHeat(c))
	warmest := b.rigidPressure(kindPressureWarmest, c, room, b.warmest(c))
	if c.Vessel != nil && c.Vessel.Rated.Written() {
		rated := exactly(c.Vessel.Rated.Value)
		margin := from2(b, func(r, p q.Pressure) (q.Pressure, error) { return r - p, nil }, rated, warmest)
		add(b, kindMargin, c.Key, margin, sym("m", margin, "bar"), sym("r", rated, "bar"), sym("p", warmest, "bar"))
		b.takes(c, room, rated)
	}
}

// takes adds the condition that a container's rating allows.
func (b *bench) takes(c Container, room Estimate[q.Volume], rated Estimate[q.Pressure]) {
	warmest := b.warmest(c)
	most := result[q.Carbonation](b.evaluate(func(x *point) (float64, error) {
		sealed := brewing.Sealed{Beer: q.Volume(x[0]), Headspace: q.Volume(x[1]), SealedAt: q.Temperature(x[2]), Purged: c.Package.Purged.Yes() || c.forced()}
		gas, err := takenUp(sealed, q.Pressure(x[4]), q.Temperature(x[3]))
		return float64(max(gas, 0)), err
	}, arg(b.fill(c)), arg(room), arg(b.sealedHeat()), arg(warmest), arg(rated)))
	add(b, kindTakes, c.Key, most, sym("C", most, "vol"), sym("V", b.fill(c), ""), sym("H", room, ""), sym("T", warmest, "°C"), sym("r", rated, "bar"))
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

// rigidPressure is the pressure at one heat. A keg on gas is held to its
// regulator, and warms up sealed with what it took up there.
func (b *bench) rigidPressure(k *Kind, c Container, headspace Estimate[q.Volume], heat Estimate[q.Temperature]) Estimate[q.Pressure] {
	condition := b.conditionOf(c)
	pressure := b.sealedPressure(c, condition, headspace, heat)
	if c.forced() {
		pressure = b.pressureAfterGas(c, headspace, heat)
	}
	f := add(b, k, c.Key, pressure, sym("p", pressure, "bar"), sym("C", condition, ""), sym("V", b.fillToReckon(c), ""), sym("H", headspace, ""), sym("T", heat, "°C"))
	extrapolated(f, beyondHenry(condition, heat, 50))
	return pressure
}

// beyondHenry tells whether beer is colder, warmer or gassier than the sums of
// pressure are good for.
func beyondHenry(condition Estimate[q.Carbonation], heat Estimate[q.Temperature], warmest q.Temperature) bool {
	return heat.Value < 0 || heat.Value > warmest || condition.Value > mostPressed
}

// mostPressed is the condition up to which pressures were compared.
const mostPressed = q.Carbonation(6)

func (b *bench) sealedPressure(c Container, condition Estimate[q.Carbonation], headspace Estimate[q.Volume], heat Estimate[q.Temperature]) Estimate[q.Pressure] {
	return result[q.Pressure](b.evaluate(func(x *point) (float64, error) {
		p, err := brewing.RigidPressure(brewing.Sealed{
			CO2: q.Carbonation(x[0]), Beer: q.Volume(x[1]), Headspace: q.Volume(x[2]),
			SealedAt: q.Temperature(x[3]), Purged: c.Package.Purged.Yes(),
		}, q.Temperature(x[4]))
		return float64(p), err
	}, arg(condition), arg(b.fillToReckon(c)), arg(headspace), arg(b.sealedHeat()), arg(heat)))
}

// pressureAfterGas is the pressure in a keg that its regulator has brought to
// equilibrium and that was then shut off and brought to another heat.
func (b *bench) pressureAfterGas(c Container, headspace Estimate[q.Volume], heat Estimate[q.Temperature]) Estimate[q.Pressure] {
	set := read(b, c.Package.Gas.Set, keyUnder(c.Package.Gas.Set.Where, c.Key, "gas.set"), ofPressure)
	return result[q.Pressure](b.evaluate(func(x *point) (float64, error) {
		keg := brewing.Sealed{Beer: q.Volume(x[0]), Headspace: q.Volume(x[1]), SealedAt: q.Temperature(x[3]), Purged: true}
		gas, err := takenUp(keg, q.Pressure(x[2]), q.Temperature(x[3]))
		if err != nil {
			return 0, err
		}
		keg.CO2 = gas
		p, err := brewing.RigidPressure(keg, q.Temperature(x[4]))
		return float64(p), err
	}, arg(b.fillToReckon(c)), arg(headspace), arg(set), arg(b.gasHeat(c)), arg(heat)))
}

// takenUp is the gas, as volumes of the beer, with which a keg reaches a
// pressure at a heat: what the beer dissolves, and what the headspace holds
// beyond the atmosphere it was closed with. Pressure rises with it in a straight
// line, which two points give.
func takenUp(keg brewing.Sealed, set q.Pressure, at q.Temperature) (q.Carbonation, error) {
	keg.CO2 = 0
	flat, err := brewing.RigidPressure(keg, at)
	if err != nil {
		return 0, err
	}
	keg.CO2 = 1
	gassy, err := brewing.RigidPressure(keg, at)
	return q.Carbonation((set - flat) / (gassy - flat)), err
}

func (b *bench) bag(c Container) {
	condition, fill, capacity, warmest := b.conditionOf(c), b.fill(c), b.capacity(c), b.warmest(c)
	free := from3(b, brewing.BagFreeGas, condition, fill, warmest)
	tooWarm := beyondHenry(condition, warmest, 40)
	held := from1(b, brewing.ResidualCO2, warmest)
	f := add(b, kindFreeGas, c.Key, free, sym("G", free, "L"), sym("C", condition, "vol"), sym("S", held, "vol"), sym("V", fill, "L"), sym("T", warmest, "°C"))
	extrapolated(f, tooWarm)
	slack := b.slack(capacity, fill, free)
	extrapolated(add(b, kindSlack, c.Key, slack, sym("s", slack, "L"), sym("K", capacity, "L"), sym("V", fill, "L"), sym("G", free, "L")), tooWarm)
	room := from2(b, brewing.Headspace, capacity, fill)
	cellar := b.cellarHeat(c)
	slackInCellar := b.slack(capacity, fill, from3(b, brewing.BagFreeGas, condition, fill, cellar))
	for _, at := range []struct {
		kind        *Kind
		heat        Estimate[q.Temperature]
		slackAtHeat Estimate[q.Volume]
	}{{kindPressureCellar, cellar, slackInCellar}, {kindPressureWarmest, warmest, slack}} {
		pressure := b.bagPressure(at.slackAtHeat, condition, fill, capacity, at.heat)
		f := add(b, at.kind, c.Key, pressure, sym("p", pressure, "bar"), sym("C", condition, ""), sym("V", fill, ""), sym("H", room, ""), sym("T", at.heat, "°C"))
		extrapolated(f, beyondHenry(condition, at.heat, 50))
	}
}

func (b *bench) slack(capacity, fill, free Estimate[q.Volume]) Estimate[q.Volume] {
	return from3(b, func(k, v, g q.Volume) (q.Volume, error) { return k - v - g, nil }, capacity, fill, free)
}

// bagPressure is the pressure in a bag at a heat where it has so much slack. A
// slack bag's pressure is nothing however one reading is moved, but several
// together may take up the slack: then its ± is the pressure at the low end of
// the slack's, owed to each reading as the slack's doubt is.
func (b *bench) bagPressure(slack Estimate[q.Volume], condition Estimate[q.Carbonation], fill, capacity Estimate[q.Volume], heat Estimate[q.Temperature]) Estimate[q.Pressure] {
	pressure := from4(b, brewing.BagPressure, condition, fill, capacity, heat)
	u := slack.Uncertainty()
	if !pressure.known || !slack.known || slack.Value <= 0 || float64(slack.Value) >= 2*u {
		return pressure
	}
	away := -2 / u
	low, err := brewing.BagPressure(
		q.Carbonation(arg(condition).along(slack.shares, away)), q.Volume(arg(fill).along(slack.shares, away)),
		q.Volume(arg(capacity).along(slack.shares, away)), q.Temperature(arg(heat).along(slack.shares, away)))
	if owed := float64(low) / 2; err == nil && owed > pressure.Uncertainty() {
		pressure.shares, pressure.u = b.scaled(slack.shares, owed/u), owed
	}
	return pressure
}
