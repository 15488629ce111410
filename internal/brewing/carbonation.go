package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// Molar masses in g/mol (IUPAC 2021 abridged atomic masses).
const (
	co2MolarMass     = 44.009
	ethanolMolarMass = 46.069
)

const (
	atmosphereBar = 1.01325
	atmosphereKPa = 101.325
	gasConstant   = 0.0820573661 // L atm/(mol K), CODATA 2018
)

// beerToWater is the solubility of CO2 in beer over that in water: the mean over
// the 291 printed points of a brewers' chart (D. Miller, Brewing Techniques 2(1),
// 1994, table I), where single points give 0.920 to 0.952. With this package's
// vapour pressure and volume of gas they give 0.923 to 0.956, 0.940 on average.
// That is left as it is: 0.4 % is a tenth of what charts differ by, and the lower
// ratio errs to the higher pressure, the safe side.
//
// One ratio cannot follow the chart everywhere. At 0 °C the printed points fall
// 3 % below Henry's law from 1 to 15 psi, a third of which is carbon dioxide's
// fugacity lying below its pressure; and from 5 to 8 °C they climb by 2 %. What
// is left is 0.065 vol at worst, 0.02 as a rule.
const beerToWater = 0.936

// YeastShareFactor is the carbon dioxide that priming gives over what chemistry
// says: Balling's 0.463 g from a gram of extract against 0.489 from a gram of
// glucose, the rest going into yeast. Chemistry alone is the other published
// choice; with little growth in a container the truth lies between.
const YeastShareFactor = 0.463 / 0.489

// CO2PerPoint is the volumes of CO2 from one point of apparent gravity still to
// fall, by Balling's proportions (0.9565 g of CO2 with a gram of alcohol) for
// ordinary beer. From worts of 1.030 to 1.060 it is 0.49 to 0.52 over the whole
// fall and the last points of it, so this stands to ± 4 %. It is not the point
// that sugar raises, which gives about 0.68 vol.
const CO2PerPoint = 0.504

// solubility is CO2 in beer, mol/(L atm): Weiss's for pure water × beerToWater.
//
// Source: R. F. Weiss, Mar. Chem. 2 (1974) 203 (coefficients from memory;
// within 0.8 % of a measurement of 1935 at 25 °C). His fit is of 0 to 40 °C.
func solubility(t q.Temperature) float64 {
	h := t.Kelvin() / 100
	return beerToWater * math.Exp(-58.0931+90.5069/h+22.2940*math.Log(h))
}

// SolubilityInWater is CO2 in pure water, mol/(L atm), after Weiss. Range −2 to
// 50 °C, beyond his 40 by ten. At 25 °C it is 0.0340; T. Shedlovsky and D. A.
// MacInnes (1935) measured 0.0337, R. Sander's compilation (2023) has 0.034, and
// J. J. Carroll's equation (1991) gives 0.0346, which is why it is not taken.
//
// Source: R. F. Weiss, Mar. Chem. 2 (1974) 203 (coefficients from memory).
func SolubilityInWater(t q.Temperature) (float64, error) {
	if err := warmth(t); err != nil {
		return 0, err
	}
	return solubility(t) / beerToWater, nil
}

func warmth(t q.Temperature) error {
	return within("the solubility of carbon dioxide", "the temperature", t, -2, 50, "°C")
}

// dissolvedAt is the volumes that beer holds under a partial pressure in atm.
func dissolvedAt(partial float64, t q.Temperature) q.Carbonation {
	return q.Carbonation(solubility(t) * partial * co2MolarMass / q.GramsPerVolume)
}

// UnderGauge is what beer holds that came to rest under its own gas at a gauge
// pressure: 0 in the open, after fermentation or a venting to quiet, else that of a
// relief valve or of a cylinder. Range −2 to 50 °C, −1 to 20 bar, the air at 40 to
// 110 kPa. Published values for one temperature, in the open, differ by ± 0.1 vol; an
// open, stirred or long-standing vessel holds less. Carbon dioxide takes up 0.6 % less
// for each bar than Henry's law has it, which is left out.
//
// M. Hibbard's much copied values (1995) are pure water under 1 atm of dry gas,
// 0.08 to 0.13 vol above this; M. L. Hall's quadratic (1995) is a curve through
// the like and turns flat above 30 °C. Beer under the open air is neither. The
// quadratic that is circulated for the chart of pressures is not taken: stretched
// above 20 °C it asks for up to 1 bar less at 4 vol, the unsafe side.
//
// Source: Henry's law with Weiss's solubility × 0.936.
func UnderGauge(p q.Pressure, t q.Temperature, outside q.AirPressure) (q.Carbonation, error) {
	if err := firstOf(warmth(t), aGauge("gas under pressure", p), theAir(outside)); err != nil {
		return 0, err
	}
	return dissolvedAt(Held{Outside: outside}.totalAt(p, t), t), nil
}

// theAir checks the pressure of the air outside.
func theAir(p q.AirPressure) error {
	return within("the sum of carbon dioxide", "the air's pressure", p, 40, 110, "kPa")
}

// StandardAir is the pressure of the air at sea level, 101.325 kPa (ISO 2533).
const StandardAir q.AirPressure = atmosphereKPa

// AirAt is the pressure of the air at a height above the sea, in kPa. Range −500 to
// 5000 m; weather moves it by ± 3 kPa.
//
// Source: ISO 2533:1975, the standard atmosphere.
func AirAt(height q.Height) (q.AirPressure, error) {
	if err := within("the air's pressure", "the height", height, -500, 5000, "m"); err != nil {
		return 0, err
	}
	return StandardAir * q.AirPressure(math.Pow(1-0.0065*float64(height)/288.15, 5.25588)), nil
}

// GasOverDissolved is all of a container's carbon dioxide over what of it is dissolved
// in the beer, at rest at a heat: 1 without room above it. Range −2 to 50 °C, some
// beer.
//
// Source: Henry's law with Weiss's solubility × 0.936; ideal gas in the room.
func GasOverDissolved(beer, room q.Volume, t q.Temperature) (q.Number, error) {
	const name = "the gas above the beer"
	if err := firstOf(warmth(t), some(name, "the beer", beer, "L"), none(name, "the room", room, "L")); err != nil {
		return 0, err
	}
	return q.Number(1 + room.Litres()/(gasConstant*t.Kelvin()*solubility(t)*beer.Litres())), nil
}

// CO2ToCome is what a gravity still to fall will give: nothing once it has.
// Range 0.980 to 1.150; the final gravity down to 0.950, since sugar that has fermented
// right out leaves its alcohol alone.
//
// Source: as CO2PerPoint.
func CO2ToCome(now, final q.Gravity) (q.Carbonation, error) {
	const name = "gas still to come"
	err := firstOf(within(name, "the gravity", now, 0.980, 1.150, gravitySG),
		within(name, "the final gravity", final, 0.950, 1.150, gravitySG))
	if err != nil {
		return 0, err
	}
	return q.Carbonation(max(0, (now-final).SG()*1000*CO2PerPoint)), nil
}

// PrimingCO2 is the volumes from a weight of sugar stirred into a volume of
// beer, for a sugar that gives so many grams of CO2 a gram: 0.489 for glucose,
// 0.514 for sucrose, 0.444 for dextrose monohydrate, less the yeast's share
// (YeastShareFactor). Range 0 to 0.6 g/g. The volume is that of gas at 0 °C, 1.977
// g/L; books that print 3.7 g/L of glucose for a volume mean gas near 24 °C, 9 %
// less of it.
//
// Source: stoichiometry from IUPAC 2021 atomic masses.
func PrimingCO2(sugar q.Mass, yield q.Number, v q.Volume) (q.Carbonation, error) {
	const name = "priming"
	err := firstOf(none(name, "the sugar", sugar, "g"), within(name, "the sugar's gas", yield, 0, 0.6, "g/g"),
		some(name, "the beer", v, "L"))
	if err != nil {
		return 0, err
	}
	return q.Carbonation(sugar.Grams() * float64(yield) / v.Litres() / q.GramsPerVolume), nil
}

// SugarFor is the weight of sugar that gives so many volumes: the inverse of
// PrimingCO2. Range 0 to 10 vol, 0.01 to 0.6 g/g.
func SugarFor(wanted q.Carbonation, yield q.Number, v q.Volume) (q.Mass, error) {
	const name = "priming"
	err := firstOf(within(name, "the gas wanted", wanted, 0, 10, "vol"),
		within(name, "the sugar's gas", yield, 0.01, 0.6, "g/g"), none(name, "the beer", v, "L"))
	if err != nil {
		return 0, err
	}
	return q.Mass(wanted.GramsPerLitre() * v.Litres() / float64(yield)), nil
}

// GasOfWort is the carbon dioxide that unfermented wort of a gravity gives as it
// ferments to an apparent attenuation. Range: gravity 1.000 to 1.130, attenuation 0
// to 130 %, as of plain sugar that ferments right out, taken by points, which is within
// 2 % of Plato's up to 110 %.
//
// Source: as CO2PerPoint.
func GasOfWort(wort q.Volume, g q.Gravity, apparent q.Percent) (q.Mass, error) {
	const name = "wort that ferments"
	err := firstOf(none(name, "the wort", wort, "L"), within(name, "its gravity", g, 1, 1.130, gravitySG),
		within(name, "the attenuation", apparent, 0, 130, "%"))
	if err != nil {
		return 0, err
	}
	made := q.Carbonation(g.Points() * apparent.Fraction() * CO2PerPoint)
	return q.Mass(made.GramsPerLitre() * wort.Litres()), nil
}
