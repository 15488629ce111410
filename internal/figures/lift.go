package figures

import (
	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

// LiquorToLift is how much more hot liquor, in L at the heat of the infusion that
// led to a rest, would bring the mash from how warm it was read to how warm it was
// meant to be. ok is false where a reading is lacking, and where it is warm enough.
func (i *Inquiry) LiquorToLift(rest int) (f Figure, ok bool) {
	r := i.Gyle.Mash.Rests[rest]
	aimed := read(i.bench, r.Aimed, keyOf(r.Aimed.Where, "mash.rests", rest, "aimed"), asWished)
	inMash := sum(i.bench, i.mashLiquor(), i.infused(rest+1), i.tunTakes())
	more := result[q.Volume](i.evaluate(func(x *point) (float64, error) {
		v, err := brewing.InfusionVolume(q.Temperature(x[0]), q.Temperature(x[1]), q.Mass(x[2]), q.Volume(x[3]), 0, q.Temperature(x[4]))
		return float64(v), err
	}, arg(i.restAt(rest, ofMashHeat)), arg(aimed), arg(i.mashedWeight()), arg(inMash), arg(i.hotLiquor(rest))))
	if !more.known {
		return Figure{}, false
	}
	return Figure{Kind: kindInfusionLiquor, Value: more.Value.Litres(), PlusMinus: float64(more.PlusMinus())}.At(r.At.Where), true
}
