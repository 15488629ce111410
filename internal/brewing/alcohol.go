package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// AlcoholScatter is the standard deviation of Balling's method, in % vol, about
// 34 measured beers and the worts they came from (L. M. Tolman and J. G. Riley,
// A Study of American Beers and Ales, USDA Bulletin 493, 1917).
const AlcoholScatter q.Percent = 0.14

// Densities at 20 °C in kg/m³: ethanol after OIML R 22, water after Tanaka.
const (
	ethanolDensity = 789.24
	waterDensity20 = 998.2
)

const balling = "Balling's proportions"

// gravities checks an original and a later gravity. A beer may finish below
// water; a wort stronger than 1.130 was not among Balling's.
func gravities(og, fg q.Gravity) error {
	return firstOf(
		within(balling, "original gravity", og, 1.000, 1.130, ""),
		within(balling, "gravity", fg, 0.985, 1.130, ""),
	)
}

// attenuationQuotient is Balling's q = 0.22 + 0.001 P₀: how much of the apparent
// fall in extract is alcohol's lightness. With it his own 31 alcohol factors
// are reproduced to 0.0001; the fixed 0.1808 and 0.8192 often printed run high
// by 0.4 to 2.4 % of value.
func attenuationQuotient(plato float64) float64 { return 0.22 + 0.001*plato }

// AlcoholFactor is Balling's grams of alcohol from a gram of apparent
// attenuation, for a wort of so many degrees Plato. Range 0 to 30 °P.
//
// Source: C. J. N. Balling (1845 to 1865), factors compiled by F. Eckhardt.
func AlcoholFactor(plato float64) (float64, error) {
	if err := within(balling, "original extract", plato, 0, 30.5, "°P"); err != nil {
		return 0, err
	}
	return alcoholFactor(plato), nil
}

func alcoholFactor(plato float64) float64 {
	return 1 / ((2.0665 - 0.010665*plato) * (1 + attenuationQuotient(plato)))
}

// AlcoholByWeight is alcohol in % by weight by Balling. Range: original gravity
// 1.000 to 1.130, later gravity 0.985 to 1.130 and not above the original.
//
// Source: C. J. N. Balling; A. Speers, Brewing Calculations (MBAA, 2015).
func AlcoholByWeight(og, fg q.Gravity) (q.Percent, error) {
	if err := gravities(og, fg); err != nil {
		return 0, err
	}
	p0 := og.Plato()
	return q.Percent((p0 - fg.Plato()) * alcoholFactor(p0)), nil
}

// AlcoholByVolume is alcohol in % by volume at 20 °C: Balling's % by weight, the
// beer's gravity, and the density of ethanol (OIML R 22, 789.24 kg/m³). Range as
// AlcoholByWeight. A gravity above the original gives a number below nothing;
// whether that is a slip or only the doubt of two readings, the caller knows.
func AlcoholByVolume(og, fg q.Gravity) (q.Percent, error) {
	abw, err := AlcoholByWeight(og, fg)
	return abw * q.Percent(fg.SG()*waterDensity20/ethanolDensity), err
}

// RealExtract is what is still dissolved in the beer, in °P, once the lightness
// of alcohol is reckoned out: (q P₀ + P) ÷ (1 + q). Range as AlcoholByWeight.
//
// Source: Balling's proportions as in J. De Clerck, A Textbook of Brewing.
func RealExtract(og, fg q.Gravity) (float64, error) {
	if err := gravities(og, fg); err != nil {
		return 0, err
	}
	quotient := attenuationQuotient(og.Plato())
	return (quotient*og.Plato() + fg.Plato()) / (1 + quotient), nil
}

// dutyBands are the factors of HM Revenue and Customs, Excise Notice 226, para
// 30.3: % vol for a point of gravity fallen, up to and including so many points.
// Read in two public quotations that agree in every cell.
var dutyBands = [...]struct{ upTo, factor float64 }{
	{6.9, 0.125}, {10.4, 0.126}, {17.2, 0.127}, {26.1, 0.128}, {36.0, 0.129}, {46.5, 0.130},
	{57.1, 0.131}, {67.9, 0.132}, {78.8, 0.133}, {89.7, 0.134}, {100.7, 0.135},
}

// DutyStrength is alcohol in % by volume by the duty factors, not yet cut to one
// decimal. The fall is rounded to 0.1 point before a band is chosen, since the
// bands are printed so; the steps between bands are about 0.03 % vol. Range: a
// fall of 0 to 100.7 points.
//
// Source: HM Revenue and Customs, Excise Notice 226, para 30.2 and 30.3.
func DutyStrength(og, fg q.Gravity) (q.Percent, error) {
	fall := (og - fg).SG() * 1000
	if err := within("the duty table", "a fall in gravity", fall, 0, 100.75, "points"); err != nil {
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
// 4.1.
func CutDuty(p q.Percent) q.Percent { return q.Percent(math.Floor(float64(p)*10+1e-9) / 10) }

// StrengthConditioned is the alcohol in % by volume once so much carbon dioxide
// has been made in the container: each gram of CO2 comes with 46.069 ÷ 44.009 g
// of ethanol. Range: 0 to 20 % vol and 0 to 8 vol.
//
// Source: stoichiometry of fermentation, IUPAC 2021 atomic masses.
func StrengthConditioned(abv q.Percent, made q.Carbonation) (q.Percent, error) {
	err := firstOf(within("alcohol from conditioning", "alcohol", abv, -1, 20, "% vol"), within("alcohol from conditioning", "gas made", made, -1, 8, "vol"))
	if err != nil {
		return 0, err
	}
	ethanol := made.GramsPerLitre() * ethanolMolarMass / co2MolarMass // g/L
	return abv + q.Percent(ethanol/ethanolDensity*100), nil
}

// UnitsOfAlcohol is the UK units in a volume: one is 10 mL of ethanol.
//
// Source: UK Chief Medical Officers' guidelines (2016).
func UnitsOfAlcohol(abv q.Percent, v q.Volume) (q.Number, error) {
	if err := firstOf(within("units of alcohol", "alcohol", abv, -1, 100, "% vol"), none("units of alcohol", "volume", v, "L")); err != nil {
		return 0, err
	}
	return q.Number(abv.Fraction() * v.Litres() * 100), nil
}
