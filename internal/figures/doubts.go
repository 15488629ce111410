package figures

import (
	"math"

	"gylebook/internal/quantity"
)

// doubt is how far off a reading may be where neither the brewer nor an
// instrument's card says: the larger of a fixed half-width and a share of the
// value.
type doubt struct {
	of     string  // the kind of reading, for the list of them; "" for none of its own
	fixed  float64 // half-width in the unit
	share  float64 // half-width as a share of the value
	unit   string
	reason string
}

func (d doubt) halfWidth(value float64) float64 {
	return max(d.fixed, d.share*math.Abs(value))
}

// The stated defaults, one for each kind of reading, with the reason for each.
// All are half-widths within which a careful home brewer's reading lies. Those
// with a name are listed by Doubts.
var (
	ofHydrometer   = doubt{of: "gravity, by hydrometer", fixed: 0.0005, unit: "SG", reason: "half a division of a long hydrometer, 0.001 apart (common practice, no source)"}
	ofBias         = doubt{of: "gravity, all readings of one hydrometer together", fixed: 0.001, unit: "SG", reason: "a long hydrometer's scale may be shifted by 0.001 (common practice, no source)"}
	ofHotSample    = doubt{of: "heat of a sample", fixed: 1, unit: "°C", reason: "a kitchen thermometer in a trial jar (common practice, no source)"}
	ofBrix         = doubt{of: "refractometer reading", fixed: 0.2, unit: "°Bx", reason: "a hand refractometer, 0.2 °Bx apart (common practice, no source)"}
	ofHeat         = doubt{of: "heat of beer, grist or place", fixed: 0.5, unit: "°C", reason: "a kitchen thermometer, ± 0.5 °C (common practice, no source)"}
	ofMashHeat     = doubt{of: "heat of a mash, a steep or hot liquor", fixed: 1, unit: "°C", reason: "a mash is not equally warm throughout (common practice, no source)"}
	ofTun          = doubt{of: "heat that a mash tun takes, on its card", share: 0.2, unit: "L", reason: "found by one mash, or from its weight, ± 20 % (common practice, no source)"}
	ofVolume       = doubt{of: "volume of liquor, wort or beer", fixed: 0.25, share: 0.01, unit: "L", reason: "a dip stick or sight tube, ± 0.25 L or 1 % (common practice, no source)"}
	ofFill         = doubt{of: "volume in a container or a glass", fixed: 0.005, share: 0.02, unit: "L", reason: "filled by eye to a mark, ± 2 % (common practice, no source)"}
	ofMeasure      = doubt{of: "volume of acid", fixed: 0.0002, share: 0.02, unit: "L", reason: "a small syringe or measuring glass, ± 0.2 mL or 2 % (common practice, no source)"}
	ofWeight       = doubt{of: "weight of malt or sugar", fixed: 1, share: 0.01, unit: "g", reason: "a kitchen scale, ± 1 g or 1 % (common practice, no source)"}
	ofSmall        = doubt{of: "weight of hops, salts, yeast or priming", fixed: 0.1, share: 0.01, unit: "g", reason: "a small scale, ± 0.1 g or 1 % (common practice, no source)"}
	ofAlpha        = doubt{of: "alpha acids on a packet", fixed: 0.2, share: 0.1, unit: "%", reason: "a packet's alpha is of the lot and falls with age, ± 10 % (common practice, no source)"}
	ofVariety      = doubt{of: "alpha acids on a hop's card", share: 0.25, unit: "%", reason: "a variety's usual alpha; a crop's may be a quarter off (common practice, no source)"}
	ofExtract      = doubt{of: "extract of a malt or sugar", share: 0.02, unit: "Ldeg/kg", reason: "malts of one kind differ by a few litre-degrees (common practice, no source)"}
	ofColour       = doubt{of: "colour of a malt or sugar", share: 0.1, unit: "EBC", reason: "a maker states a range about ± 10 % wide (common practice, no source)"}
	ofTin          = doubt{of: "bitterness of a hopped syrup", share: 0.1, unit: "IBU", reason: "as the tin states, ± 10 % (common practice, no source)"}
	ofBoilTime     = doubt{of: "time of a boil or a steep", fixed: 1, unit: "min", reason: "a minute by the kitchen clock (common practice, no source)"}
	ofPressure     = doubt{of: "pressure", fixed: 0.05, unit: "bar", reason: "a small dial, 0.1 bar apart (common practice, no source)"}
	ofGauge        = doubt{of: "gauge on a container", fixed: 0.1, unit: "bar", reason: "a small dial on a container, ± 0.1 bar (common practice, no source)"}
	ofValve        = doubt{of: "setting of a relief valve", fixed: 0.1, unit: "bar", reason: "a relief valve opens within 0.1 bar of its setting (common practice, no source)"}
	ofGasShare     = doubt{of: "share of carbon dioxide in a mixed gas", fixed: 1, unit: "%", reason: "as its supplier states, ± 1 % (common practice, no source)"}
	ofPH           = doubt{of: "pH", fixed: 0.1, reason: "a pocket meter calibrated that day, cooled sample (common practice, no source)"}
	ofIon          = doubt{of: "ion in a water report", fixed: 1, share: 0.1, unit: "mg/L", reason: "a report is of another day, or the mean of several, ± 10 % (common practice, no source)"}
	ofAcidStrength = doubt{of: "strength of an acid", share: 0.02, unit: "%", reason: "as its bottle states, ± 2 % of it (common practice, no source)"}
	ofCells        = doubt{of: "count of yeast cells", share: 0.25, unit: "cells", reason: "a count under the microscope, or what a maker states, ± 25 % (common practice, no source)"}
	ofCellDensity  = doubt{of: "cells in a gram or millilitre, on a yeast's card", share: 0.3, unit: "cells/g", reason: "packets of one yeast differ by a third or so (common practice, no source)"}
	ofWortFactor   = doubt{of: "wort factor on a refractometer's card", fixed: 0.005, reason: "as the instrument's card has it (common practice, no source)"}
	ofFruitSugar   = doubt{of: "sugar in a fruit or juice", share: 0.2, unit: "%", reason: "a fruit's sugar goes with the year and the tree, ± 20 % (common practice, no source)"}
	asWished       = doubt{reason: "an aim is exact"}
)

// Doubt is the default for one kind of reading: how far off it may be where
// neither the brewer nor an instrument's card says.
type Doubt struct {
	Reading string // gravity, by hydrometer
	// HalfWidth is in words, within which the reading surely lies: ± 0.25 L, or
	// 1 % where that is more.
	HalfWidth string
	Reason    string
}

// Doubts lists the default doubt of every kind of reading.
func Doubts() []Doubt {
	var list []Doubt
	for _, d := range []doubt{
		ofHydrometer, ofBias, ofLogger, ofLoggerTrend, ofHotSample, ofBrix, ofWortFactor, ofHeat, ofMashHeat, ofTun, ofVolume, ofFill, ofMeasure, ofWeight, ofSmall,
		ofExtract, ofColour, ofAlpha, ofVariety, ofTin, ofBoilTime, ofPressure, ofGauge, ofValve, ofGasShare, ofPH, ofIon, ofAcidStrength, ofCells, ofCellDensity, ofFruitSugar,
	} {
		list = append(list, Doubt{Reading: d.of, HalfWidth: d.words(), Reason: d.reason})
	}
	return list
}

// words are the half-width as a reader has it.
func (d doubt) words() string {
	fixed := quantity.Plain(d.fixed)
	if d.unit == "L" && d.fixed < 0.05 {
		fixed = quantity.Plain(d.fixed*1000) + " mL"
	} else if d.unit != "" {
		fixed += " " + d.unit
	}
	share := quantity.Plain(100*d.share) + " % of it"
	switch {
	case d.share == 0:
		return "± " + fixed
	case d.fixed == 0:
		return "± " + share
	}
	return "± " + fixed + ", or " + share + " where that is more"
}
