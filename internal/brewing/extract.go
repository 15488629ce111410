package brewing

import q "gylebook/internal/quantity"

// LitreDegrees is the extract in a weight of an ingredient: points of gravity in
// one litre. Range 0 to 400 Ldeg/kg.
//
// Source: definition; pure sugar's 385 Ldeg/kg from NBS Circular C440.
func LitreDegrees(m q.Mass, e q.Extract) (q.Number, error) {
	if err := firstOf(none("litre-degrees", "the weight", m, "g"),
		within("litre-degrees", "the extract", e, 0, 400, "Ldeg/kg")); err != nil {
		return 0, err
	}
	return q.Number(m.Kilograms() * float64(e)), nil
}

// GravityOf is the gravity of so many litre-degrees in a volume. Range: up to
// 1.200.
//
// Source: definition of the litre-degree.
func GravityOf(litreDegrees q.Number, v q.Volume) (q.Gravity, error) {
	if err := firstOf(none("a wort's gravity", "the extract", litreDegrees, "litre-degrees"),
		some("a wort's gravity", "the volume", v, "L")); err != nil {
		return 0, err
	}
	g := q.SG(1 + float64(litreDegrees)/v.Litres()/1000)
	return ifGood(g, within("a wort's gravity", "the gravity", g, 1, 1.200, gravitySG))
}

// Yield is the share of a potential that was got, in %. Range: any potential
// above nothing; what was got may be less than nothing where sugars are taken
// off it.
//
// Source: definition.
func Yield(got, potential q.Number) (q.Percent, error) {
	err := firstOf(some("a yield", "the potential", potential, "litre-degrees"),
		within("a yield", "what was got", got, -aTun, aTun, "litre-degrees"))
	if err != nil {
		return 0, err
	}
	return q.Percent(100 * got / potential), nil
}

// BlendedGravity is the gravity of two worts or beers mixed. Extract by weight
// is conserved, through density and Plato; adding litre-degrees instead would be
// out by 0.0002 at most below 1.080. Range 0.985 to 1.150.
//
// Source: conservation of mass.
func BlendedGravity(v1 q.Volume, g1 q.Gravity, v2 q.Volume, g2 q.Gravity) (q.Gravity, error) {
	const name = "a blend"
	err := firstOf(
		none(name, "a volume", v1, "L"), none(name, "a volume", v2, "L"), some(name, "the whole volume", v1+v2, "L"),
		within(name, "a gravity", g1, 0.985, 1.150, gravitySG), within(name, "a gravity", g2, 0.985, 1.150, gravitySG),
	)
	if err != nil {
		return 0, err
	}
	m1, m2 := v1.Litres()*g1.SG(), v2.Litres()*g2.SG()
	return q.Plato((m1*g1.Plato() + m2*g2.Plato()) / (m1 + m2)), nil
}

// GravityWithExtract is a gravity once so much sugar, of so many litre-degrees, has been
// stirred into a volume. Extract by weight is conserved: litre-degrees over a fixed
// volume would come out too high by what the sugar swells it. Range as BlendedGravity,
// and no more sugar than there is wort.
//
// Source: conservation of mass; pure sugar's 385 Ldeg/kg from NBS Circular C440.
func GravityWithExtract(v q.Volume, g q.Gravity, sugar q.Mass, litreDegrees q.Number) (q.Gravity, error) {
	const name = "wort with sugar"
	err := firstOf(some(name, "the volume", v, "L"), within(name, "the gravity", g, 0.985, 1.150, gravitySG),
		none(name, "the sugar", sugar, "g"),
		none(name, "its litre-degrees", litreDegrees, ""))
	if err != nil {
		return 0, err
	}
	wort := v.Litres() * g.SG() * waterDensity20 / 1000
	all := wort + sugar.Kilograms()
	plato := (wort*g.Plato() + 100*float64(litreDegrees)/pureSugar) / all
	if err := within(name, "the gravity it comes to", q.Plato(plato), 0.985, 1.200, gravitySG); err != nil {
		return 0, err
	}
	return q.Plato(plato), nil
}

// pureSugar is what a kilogram of sucrose gives, in litre-degrees.
const pureSugar = 385
