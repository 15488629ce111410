package figures

import "math"

// doubt is how far off a reading may be where neither the brewer nor an
// instrument's card says: the larger of a fixed half-width and a share of the
// value.
type doubt struct {
	fixed  float64 // half-width in the canonical unit
	share  float64 // half-width as a share of the value
	reason string
}

func (d doubt) halfWidth(value float64) float64 {
	return max(d.fixed, d.share*math.Abs(value))
}

// The stated defaults, one for each kind of reading, with the reason for each.
// All are half-widths within which a careful home brewer's reading lies.
var (
	ofHydrometer = doubt{fixed: 0.0005, reason: "half a division of a long hydrometer, 0.001 apart (common practice, no source)"}
	ofHotSample  = doubt{fixed: 1, reason: "a kitchen thermometer in a trial jar (common practice, no source)"}
	ofBrix       = doubt{fixed: 0.2, reason: "a hand refractometer, 0.2 °Bx apart (common practice, no source)"}
	ofHeat       = doubt{fixed: 0.5, reason: "a kitchen thermometer, ± 0.5 °C (common practice, no source)"}
	ofMashHeat   = doubt{fixed: 1, reason: "a mash is not equally warm throughout (common practice, no source)"}
	ofVolume     = doubt{fixed: 0.25, share: 0.01, reason: "a dip stick or sight tube, ± 0.25 L or 1 % (common practice, no source)"}
	ofFill       = doubt{fixed: 0.005, share: 0.02, reason: "filled by eye to a mark, ± 2 % (common practice, no source)"}
	ofWeight     = doubt{fixed: 1, share: 0.01, reason: "a kitchen scale, ± 1 g or 1 % (common practice, no source)"}
	ofSmall      = doubt{fixed: 0.1, share: 0.01, reason: "a small scale, ± 0.1 g or 1 % (common practice, no source)"}
	ofAlpha      = doubt{fixed: 0.2, share: 0.1, reason: "a packet's alpha is of the lot and falls with age, ± 10 % (common practice, no source)"}
	ofExtract    = doubt{share: 0.02, reason: "malts of one kind differ by a few litre-degrees (common practice, no source)"}
	ofColour     = doubt{share: 0.1, reason: "a maker states a range about ± 10 % wide (common practice, no source)"}
	ofBoilTime   = doubt{fixed: 1, reason: "a minute by the kitchen clock (common practice, no source)"}
	ofPressure   = doubt{fixed: 0.05, reason: "a small dial, 0.1 bar apart (common practice, no source)"}
	ofPH         = doubt{fixed: 0.1, reason: "a pocket meter calibrated that day, cooled sample (common practice, no source)"}
	asWished     = doubt{reason: "an aim is exact"}
)

// hydrometerBias is how far a long hydrometer's whole scale may be shifted. It
// is shared by all of its readings.
const hydrometerBias = 0.001
