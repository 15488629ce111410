package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// dutyBands are the factors of HM Revenue and Customs, Excise Notice 226, para
// 30.3: % vol for a point of gravity fallen, up to and including so many points.
// Read in two public quotations that agree in every cell.
var dutyBands = [...]struct{ upTo, factor float64 }{
	{6.9, 0.125}, {10.4, 0.126}, {17.2, 0.127}, {26.1, 0.128}, {36.0, 0.129}, {46.5, 0.130},
	{57.1, 0.131}, {67.9, 0.132}, {78.8, 0.133}, {89.7, 0.134}, {100.7, 0.135},
}

// DutyStrength is alcohol in % by volume by the duty factors, not yet cut to one
// decimal. The fall is rounded to 0.1 point before a band is chosen, since the
// bands are printed so; the steps between bands are up to 0.1 % vol. Range: a
// fall of 0 to 100.7 points.
//
// Source: HM Revenue and Customs, Excise Notice 226, para 30.2 and 30.3
// (withdrawn in 2025 for the Alcoholic products technical guide, section 11).
func DutyStrength(og, fg q.Gravity) (q.Percent, error) {
	fall := (og - fg).SG() * 1000
	if err := within("the duty table", "the fall in gravity", fall, 0, 100.75, "points"); err != nil {
		return 0, err
	}
	rounded := math.Round(fall*10) / 10
	for _, band := range dutyBands {
		if rounded <= band.upTo+1e-9 {
			return q.Percent(fall * band.factor), nil
		}
	}
	return q.Percent(fall * dutyBands[len(dutyBands)-1].factor), nil
}

// CutDuty cuts a strength to one decimal, as the duty rules have it: 4.19 is
// 4.1. Range 0 to 100 % vol.
//
// Source: HM Revenue and Customs, Alcoholic products technical guide, section
// 11: 7.59 becomes 7.5.
func CutDuty(p q.Percent) (q.Percent, error) {
	if err := within("the duty strength", "the alcohol", p, 0, 100, "% vol"); err != nil {
		return 0, err
	}
	return q.Percent(math.Floor(float64(p)*10+1e-9) / 10), nil
}

// UnitsOfAlcohol is the UK units in a volume: one is 10 mL of ethanol. Range −1
// to 100 % vol.
//
// Source: UK Chief Medical Officers' guidelines (2016).
func UnitsOfAlcohol(abv q.Percent, v q.Volume) (q.Number, error) {
	const name = "units of alcohol"
	if err := firstOf(within(name, "the alcohol", abv, -1, 100, "% vol"), none(name, "the volume", v, "L")); err != nil {
		return 0, err
	}
	return q.Number(abv.Fraction() * v.Litres() * 100), nil
}
