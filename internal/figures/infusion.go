package figures

import (
	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

const infusionBalance = "heat balance, as in J. Palmer, How to Brew, ch. 16; 0.41 of water's heat for malt: Pauls & Whites Brewing Room Book 1984/85, as reproduced"

var (
	kindInfusionLiquor = &Kind{
		ID: IDInfusionLiquor, Label: "Liquor for the rest", Unit: "L", Decimals: 1,
		Says:    "The hot liquor that lifts the mash from the rest before to this one. A mash that cooled while it stood needs more.",
		Formula: "{L} = (0.41 × {m} + {W}) × ({T} − {T₀}) ÷ ({H} − {T})",
		Symbols: []string{"L: hot liquor, L", "m: what is mashed, kg", "W: liquor already in the mash, L, and what the tun takes, as litres of it", "T: this rest, °C", "T₀: the rest before, °C", "H: the hot liquor's heat, °C"},
		Valid:   "a rest above the one before and half a degree at least below the liquor", Source: infusionBalance,
		Checked: "a handbook's equation for a second liquor, and two worked examples of a brewing room book",
	}
	kindInfusionHeat = &Kind{
		ID: IDInfusionHeat, Label: "Heat that the infusion reaches", Unit: "°C", Decimals: 1,
		Says:    "Where the mash settles with the liquor that the entry lets in.",
		Formula: "{T} = ((0.41 × {m} + {W}) × {T₀} + {L} × {H}) ÷ (0.41 × {m} + {W} + {L}), less what is lost",
		Symbols: []string{"T: reached, °C", "m: what is mashed, kg", "W: liquor already in the mash, L, and what the tun takes, as litres of it", "T₀: the rest before, °C", "L: hot liquor, L", "H: its heat, °C"},
		Valid:   "any mash and liquor of 0 to 100 °C", Source: infusionBalance, Checked: kindInfusionLiquor.Checked,
	}
)

// heatLost is the half-width, in °C, within which a mash settles about a sum
// that leaves out tun and air.
const heatLost = 1.0

// infusions are the rests that hot liquor lifts the mash to.
func (b *bench) infusions() {
	for i := range b.Gyle.Mash.Rests {
		rest := &b.Gyle.Mash.Rests[i]
		if i == 0 || !rest.By.Is(journal.Infusion) {
			continue
		}
		of := key("mash.rests", i, "")
		of = of[:len(of)-1]
		before := b.restAt(i-1, ofMashHeat)
		inMash := sum(b, b.mashLiquor(), b.infused(i), b.tunTakes())
		lost := customary(b, q.Temperature(0), heatLost, "°C", "heat that tun and air take", "a mash settles within 1 °C of the sum (common practice, no source)")
		weight := kilograms(b, b.mashedWeight())

		hot := b.hotLiquor(i)
		wanted := b.restAt(i, asWished)
		needed := result[q.Volume](b.evaluate(func(x *point) (float64, error) {
			v, err := brewing.InfusionVolume(q.Temperature(x[0]), q.Temperature(x[1]+x[5]), q.Mass(x[2]), q.Volume(x[3]), 0, q.Temperature(x[4]))
			return float64(v), err
		}, arg(before), arg(wanted), arg(b.mashedWeight()), arg(inMash), arg(hot), arg(lost)))
		add(b, kindInfusionLiquor, of, needed, sym("L", needed, "L"), sym("m", weight, ""), sym("W", inMash, ""), sym("T", wanted, ""), sym("T₀", before, ""), sym("H", hot, ""))

		liquor := read(b, rest.Liquor, of+".liquor", ofVolume)
		reached := result[q.Temperature](b.evaluate(func(x *point) (float64, error) {
			t, err := brewing.InfusionTemperature(q.Temperature(x[0]), q.Mass(x[1]), q.Volume(x[2]), 0, q.Volume(x[3]), q.Temperature(x[4]))
			return float64(t) - x[5], err
		}, arg(before), arg(b.mashedWeight()), arg(inMash), arg(liquor), arg(hot), arg(lost)))
		add(b, kindInfusionHeat, of, reached, sym("T", reached, "°C"), sym("m", weight, ""), sym("W", inMash, ""), sym("T₀", before, ""), sym("L", liquor, ""), sym("H", hot, ""))
	}
}

// restAt is the heat of a rest.
func (b *bench) restAt(i int, d doubt) Estimate[q.Temperature] {
	return read(b, b.Gyle.Mash.Rests[i].At, keyOf(b.Gyle.Mash.Rests[i].At.Where, "mash.rests", i, "at"), d)
}

// hotLiquor is the heat of an infusion's liquor; boiling where that is not
// written, and a little cooler by the time it is in.
func (b *bench) hotLiquor(i int) Estimate[q.Temperature] {
	if at := b.Gyle.Mash.Rests[i].LiquorAt; at.Written() {
		return read(b, at, keyOf(at.Where, "mash.rests", i, "liquor_at"), ofMashHeat)
	}
	return customary(b, q.Celsius(97), 3, "°C", "the infusion's heat", "not written: taken as boiling, 97 ± 3 °C once it is in")
}

// infused is the hot liquor let in before a rest.
func (b *bench) infused(before int) Estimate[q.Volume] {
	total := exactly(q.Volume(0))
	for i, rest := range b.Gyle.Mash.Rests[:before] {
		if i > 0 && rest.By.Is(journal.Infusion) {
			total = sum(b, total, read(b, rest.Liquor, keyOf(rest.Liquor.Where, "mash.rests", i, "liquor"), ofVolume))
		}
	}
	return total
}
