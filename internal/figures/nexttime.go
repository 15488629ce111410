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
func (s *Sheet) FinalGravityBy(attenuation Learned) (f Figure, ok bool) {
	return aside("SG", s.leftBy(attenuation, s.ogOrExpected()))
}

// StrengthToExpect is the alcohol, in % vol, of the gravity that the grist should
// give and an apparent attenuation (in %, with its spread), before priming. Range:
// that of Balling's method; ok is false outside it or without a grist.
//
// Source: as for the alcohol of a finished beer.
func (s *Sheet) StrengthToExpect(attenuation Learned) (f Figure, ok bool) {
	if len(s.Gyle.Grist) == 0 {
		return Figure{}, false
	}
	og := s.ogToExpect()
	abv := from2(s, brewing.AlcoholByVolume, og, s.leftBy(attenuation, og))
	return aside("% vol", scattered(s, abv, float64(brewing.AlcoholScatter), "% vol", "Balling's method", "it scatters so about 34 measured beers (USDA Bulletin 493)"))
}

func (s *Sheet) leftBy(attenuation Learned, og Estimate[q.Gravity]) Estimate[q.Gravity] {
	return from2(s, brewing.FinalGravityFromAttenuation, og, learned[q.Percent](s, attenuation, "%", "the attenuation of the next gyle"))
}
