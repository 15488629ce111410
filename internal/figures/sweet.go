package figures

import (
	"strings"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// sweetened is fruit, juice or anything else with sugar in it.
func (b *bench) sweetened(i int, a *journal.Addition) addition {
	out := b.placed(a, addition{what: first3(a.Fruit.Name, a.Juice.Name, first3(a.Other.Text, a.Spice.Text, "what was added")), sugar: true})
	share := b.sweetness(i, a)
	weight := b.juiceIn(i, a, out, share)
	out.weight = weight
	sugar := from2(b, func(m q.Mass, s q.Percent) (q.Mass, error) { return m * q.Mass(s.Fraction()), nil }, weight, share)
	out.gas = func() Estimate[q.Mass] {
		return b.gasOfSugar(sugar, b.card(journal.CardSugar, journal.Name{Name: "glucose"}), "fruit sugar")
	}
	out.liquid = from2(b, func(m q.Mass, s q.Percent) (q.Volume, error) {
		return q.Volume(m.Grams() * litresPerGram(s)), nil
	}, weight, share)
	out.raises = times[q.Number](b, sugar, sucroseExtract/1000.0)
	return out
}

// litresPerGram is the volume of a gram of sugar and water.
func litresPerGram(sugar q.Percent) float64 {
	return 0.001*(1-sugar.Fraction()) + sugarsOwnVolume*sugar.Fraction()
}

func first3(names ...string) string {
	for _, n := range names {
		if n != "" {
			return n
		}
	}
	return ""
}

// sweet tells whether anything else that was added is sugar by its name: honey, syrup.
func sweet(a *journal.Addition) bool {
	words := strings.ToLower(a.Other.Text + " " + a.Spice.Text)
	return containsAny(words, "sugar", "sucrose", "dextrose", "glucose", "honey", "syrup", "treacle", "molasses", "cordial", "candi", "jam") &&
		!containsAny(words, "milk sugar", "lactose")
}

// The sugar in what nobody says it of, in % by weight (common practice, no source).
const (
	usualFruitSugar = 11.0 // 5 to 17
	usualHoneySugar = 84.0 // 68 to 100
)

// sweetness is the sugar in fruit or juice: as written, else by its card, else what
// fruit has, or honey, syrup and sugar.
func (b *bench) sweetness(i int, a *journal.Addition) Estimate[q.Percent] {
	if sugar := b.fruitSugar(a); sugar.Written() {
		return read(b, sugar, keyOf(sugar.Where, "added", i, "sugar"), ofFruitSugar)
	}
	if sweet(a) {
		return customary(b, q.Percent(usualHoneySugar), 16, "%", "the sugar in "+a.Other.Text, "not written: honey, syrup and sugar have 68 to 100 % (common practice, no source)")
	}
	return customary(b, q.Percent(usualFruitSugar), 6, "%", "the sugar in "+first3(a.Fruit.Name, a.Juice.Name, "what was added"),
		"not written: fruits and juices have 5 to 17 % (common practice, no source)")
}

// juiceIn is the weight that an addition's sugar is a share of: of fruit, the juice that
// comes out of it.
func (b *bench) juiceIn(i int, a *journal.Addition, out addition, share Estimate[q.Percent]) Estimate[q.Mass] {
	if a.Volume.Written() {
		liquid := b.volumeOr(read(b, a.Volume, keyOf(a.Volume.Where, "added", i, "volume"), ofFill), out)
		return from2(b, func(v q.Volume, s q.Percent) (q.Mass, error) {
			return q.Mass(v.Litres() / litresPerGram(s)), nil
		}, liquid, share)
	}
	usual := usualFruit
	if a.Fruit.Name == "" && a.Juice.Name == "" {
		usual = usualSugar
	}
	weight := b.weightOr(read(b, a.Weight, keyOf(a.Weight.Where, "added", i, "weight"), ofWeight), out, usual)
	if a.Fruit.Name == "" {
		return weight
	}
	pressed := customary(b, q.Number(0.85), 0.1, "", "how much of the fruit turns to juice",
		"the rest is skin, stone and pulp (common practice, no source)")
	return from2(b, func(m q.Mass, part q.Number) (q.Mass, error) { return m * q.Mass(part), nil }, weight, pressed)
}
