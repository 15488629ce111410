package figures

import (
	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

// What proposals for the next gyle ask of a sheet: the figures that an
// attenuation other than this gyle's would lead to.

// FinalGravityBy is the final gravity, in SG, that an apparent attenuation (in %,
// with its spread) leaves of the original gravity, or of the one to expect. Range:
// attenuations of 0 to 110 %; ok is false outside it or without an original
// gravity.
//
// Source: definition of apparent attenuation (ASBC Beer-6).
func (i *Inquiry) FinalGravityBy(attenuation Learned) (f Figure, ok bool) {
	return aside("SG", i.leftBy(attenuation, i.ogOrExpected()))
}

// StrengthToExpect is the alcohol, in % vol, of the gravity that the grist should
// give and an apparent attenuation (in %, with its spread), before priming. Range:
// that of Balling's method; ok is false outside it or without a grist.
//
// Source: as for the alcohol of a finished beer.
func (i *Inquiry) StrengthToExpect(attenuation Learned) (f Figure, ok bool) {
	if len(i.Gyle.Grist) == 0 {
		return Figure{}, false
	}
	og := i.ogToExpect()
	abv := from2(i.bench, brewing.AlcoholByVolume, og, i.leftBy(attenuation, og))
	return aside("% vol", scattered(i.bench, abv, float64(brewing.AlcoholScatter), "% vol", "Balling's method", "it is off so about 34 measured beers (USDA Bulletin 493)"))
}

func (b *bench) leftBy(attenuation Learned, og Estimate[q.Gravity]) Estimate[q.Gravity] {
	return from2(b, brewing.FinalGravityFromAttenuation, og, learned[q.Percent](b, attenuation, "%", "the attenuation of the next gyle"))
}
