package proposals

import (
	"gylebook/internal/assay"
)

const (
	// dryerPerDegree is by how many % apparent attenuation falls for a mash one
	// degree warmer: 82 % at 65 °C and 70 % at 70 °C in a brewing school's
	// laboratory series with lager malt; at 1.042 that is a point. dryerOff is how
	// far off that may be: home trials find next to nothing below 66 °C, and an
	// older paper puts the best attenuation at 62.5 °C (MBAA Tech. Q. 11(1) 31-34),
	// so anything from none of it to twice of it.
	dryerPerDegree, dryerOff = 2.4, 2.4
	// mostDegrees is how far a mash is moved at once: more would be a guess beyond
	// the series (common practice, no source).
	mostDegrees = 2.0
	// coolMash and warmMash are heats that explain a dry or a sweet beer by
	// themselves, °C (common practice, no source).
	coolMash, warmMash = 65.0, 69.0
	// sugarShare is the share of the extract, in %, from which sugar dries a beer
	// noticeably (common practice, no source). sugarAttenuates is what plain sugar
	// ferments to by apparent gravity, in %: all of it, and alcohol's lightness
	// besides, by Balling's proportions (1 ÷ 0.8192).
	// sugarOff is the u of that in %: what yeast growth and other sugars make of it.
	sugarShare, sugarAttenuates, sugarOff = 10.0, 122.0, 10.0
	// oneGyleYield is how far, as u in %, the next gyle's yield may lie from that of
	// a single one before it, beyond the readings' doubt (common practice, no
	// source).
	oneGyleYield = 3.0
	// sameGravity is how near an expected gravity comes to an aim to need no change,
	// in points: half a hydrometer's division.
	sameGravity = 0.5
	// longestExtra is how many minutes a boil is lengthened by rather than changing
	// the sparge (common practice, no source).
	longestExtra = 30.0
	// pitchUsual is the middle of the ale rule of 0.75 to 1.0 million cells per mL
	// and °P (home-brewing magazines on pitching rates).
	pitchUsual = 0.9
	// coolVent is the heat, °C, at which a container is best vented: swollen and
	// chilled, the beer takes back what it can hold (IUPAC-NIST Solubility Database
	// 106, worked).
	coolVent, warmVent = 12.0, 14.0
	// lossMost is what no sediment holds, in litres: so much was drawn or poured off
	// (common practice, no source).
	lossMost = 4.0
	// mashBuffers is how many mEq of acid bring a kilogram of malt's mash down by one
	// pH, and mashBuffersOff how far malts differ (from memory; published values run
	// from 25 to 50).
	mashBuffers, mashBuffersOff = 35.0, 10.0
	// mashPHAim is the pH of a cooled sample to go for: the middle of 5.2 to 5.6
	// (common practice, no source).
	mashPHAim = 5.4
)

// worthChanging is how far off its aim a figure must be before a recipe is changed
// for it, whatever the readings can tell: the accuracy that matters to a brewer
// (common practice, no source). Gravities are in SG.
func worthChanging(id string) float64 {
	switch id {
	case "og", "fg":
		return 0.002
	case "abv":
		return 0.2
	case "bitterness":
		return 2
	case "colour":
		return 2
	case "condition":
		return 0.1
	case volumeRead:
		return assay.ClosesWithin.Number
	}
	return 0
}
