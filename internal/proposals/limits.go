package proposals

import (
	"gylebook/internal/assay"
	"gylebook/internal/figures"
)

// The rules of thumb that changes for the next gyle are sized by, and how far a figure
// must be off before anything is changed. Where the figures themselves give the size
// (grist, hops, sugar), there is no rule of thumb.

var limits assay.Limits

// Limits are the limits of this room.
func Limits() []*assay.Limit { return limits.All() }

const (
	common = assay.CommonPractice
	// matters is the source of what a recipe is changed for, whatever the readings can
	// tell.
	matters = "the accuracy that matters to a brewer; " + common
)

// A figure this far off its aim is worth a change.
var (
	worthGravity    = limits.Add("worth-gravity", 2, "points", "gravity off its aim that is worth a change", matters)
	worthBitterness = limits.Add("worth-bitterness", 2, "IBU", "bitterness off its aim that is worth a change", matters)
	worthColour     = limits.Add("worth-colour", 2, "EBC", "colour off its aim that is worth a change", matters)
	worthCondition  = limits.Add("worth-condition", 0.1, "vol", "condition off its aim that is worth a change", matters)
	sameGravity     = limits.Add("same-gravity", 0.5, "points", "how near an expected gravity comes to its aim to need no change",
		"half a hydrometer's division")
	halfway = limits.Add("halfway", 50, "%", "share of a proposed change that counts as having made it", common)
)

// The mash and the yeast.
var (
	dryerPerDegree = limits.Add("dryer-per-degree", figures.DryerPerKelvin, "%", "how much apparent attenuation falls for a mash one degree warmer",
		"82 % at 65 °C and 70 % at 70 °C in a brewing school's laboratory series with lager malt; at 1.042 that is a point")
	// Home trials find next to nothing below 66 °C, and an older paper puts the best
	// attenuation at 62.5 °C: so anything from none of it to twice of it.
	dryerOff = limits.Add("dryer-off", figures.DryerPerKelvinOff, "%", "how far off that may be",
		"home trials; MBAA Tech. Q. 11(1) 31-34")
	mostDegrees = limits.Add("most-degrees", 2, "°C", "how far a mash is moved at once: more would be a guess beyond the series", common)
	leastDegree = limits.Add("least-degree", 0.25, "°C", "a move of the mash that is none", common)
	coolMash    = limits.Add("cool-mash", 65, "°C", "heat of the mash that explains a dry beer by itself", common)
	mashPHLow   = limits.Add("mash-ph-right-low", 5.2, "pH", "pH of a cooled sample of the mash to go for, at least", common)
	mashPHHigh  = limits.Add("mash-ph-right-high", 5.6, "pH", "pH of a cooled sample of the mash to go for, at most", common)
	mashBuffers = limits.Add("mash-buffers", 35, "mEq/kg", "acid that brings a kilogram of malt's mash down by one pH",
		"from memory; published values run from 25 to 50")
	mashBuffersOff = limits.Add("mash-buffers-off", 10, "mEq/kg", "how far malts differ in that", "from memory")
	pitchUsual     = limits.Add("pitch-usual", 0.9, "million cells per mL and °P", "the middle of the rule for ale", assay.PitchingRates)
)

// Grist, sugar and colour.
var (
	sugarShare      = limits.Add("sugar-share", 10, "%", "share of the extract from which sugar dries a beer noticeably", common)
	sugarAttenuates = limits.Add("sugar-attenuates", 122, "%", "apparent attenuation of plain sugar: all of it, and alcohol's lightness besides",
		"Balling's proportions (1 ÷ 0.8192)")
	sugarOff  = limits.Add("sugar-off", 10, "%", "u of that: what yeast growth and other sugars make of it", common)
	oneYield  = limits.Add("one-yield", 3, "%", "u of the next gyle's yield by that of a single one before it", common)
	roastFrom = limits.Add("roasts-from", 400, "EBC", "colour from which a malt is a roast", common)
	darkFrom  = limits.Add("dark-from", 50, "EBC", "colour from which a malt is there for its colour", common)
	// To leave all of it out is another recipe.
	leastLeft = limits.Add("least-left", 10, "%", "share of a hop or malt that is left of it at least", common)
)

// Volumes and venting.
var (
	longestExtra = limits.Add("longest-extra", 30, "minutes", "how much longer to boil rather than change the sparge", common)
	lossMost     = limits.Add("loss-most", 4, "L", "what no sediment holds: so much was drawn or poured off", common)
	copperOff    = limits.Add("copper-off", 10, "%", "volume in the copper off its aim that counts in bitterness", common)
	coolVent     = limits.Add("cool-vent", 12, "°C", "heat at which a container is best vented, swollen and chilled",
		"IUPAC-NIST Solubility Database 106, worked: the beer takes back what it can hold")
	warmVent = limits.Add("warm-vent", 14, "°C", "heat at which a vent loses what the beer could have held", "the same")
)

// worthChanging is how far off its aim a figure must be before a recipe is changed for
// it, in the figure's unit; nought for one that is changed for anything.
func worthChanging(id figures.ID) float64 {
	switch id {
	case "og", "fg":
		return worthGravity.Number / 1000
	case "bitterness":
		return worthBitterness.Number
	case "colour":
		return worthColour.Number
	case "condition":
		return worthCondition.Number
	case inFermenter.ID:
		return assay.ClosesWithin.Number
	}
	return 0
}
