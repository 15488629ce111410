package figures

import (
	"fmt"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindIon = &Kind{
		ID: IDIon, Label: "In the liquor", Unit: "mg/L", Decimals: 0,
		Says:    "One ion of all the liquor together: the water's own, and what every salt and acid brings or takes, spread over all of it wherever it went in. The malt brings as much again, and boiling thickens it all; neither is reckoned.",
		Formula: "{C} = max(0, {W} + {S}), S = Σ salt × its share, less what acid takes, in {V}",
		Symbols: []string{"C: the ion, mg/L", "W: of the water's card, mg/L", "S: from salts and acids, mg/L", "V: all the liquor, L"},
		Valid:   "0 to 100 000 mg/L",
		Source:  "molar masses from IUPAC 2021 atomic masses; acids by equilibrium at the mash's pH (constants from memory)",
		Checked: "the ions of ten salts by molar mass, to 0.1 %; the balance of ions before and after each salt and acid",
	}
	kindRatio = &Kind{
		ID: IDSulphateChloride, Label: "Sulphate to chloride", Unit: "", Decimals: 1,
		Says:    "Of all the liquor, by weight: the trade takes a high ratio for a drier beer and a low one for a fuller.",
		Formula: "{r} = {SO₄} ÷ {Cl}",
		Symbols: []string{"SO₄: sulphate, mg/L", "Cl: chloride, mg/L"},
		Valid:   "chloride of 0.1 mg/L or more", Source: "common practice, no source", Checked: "a gyle worked by hand",
	}
	kindAlkalinity = &Kind{
		ID: IDResidualAlkalinity, Label: "Residual alkalinity of the mash", Unit: "mg/L as CaCO₃", Decimals: 0,
		Says:    "What alkalinity calcium and magnesium leave in the mash liquor: the lower, the lower the mash's pH. Salts and acid that went into the mash count in the strike and infusions alone, those for all the liquor in all of it, those for sparge and copper not at all. Below nothing there is more acid or calcium than alkalinity.",
		Formula: "{RA} = {A} − {Ca} ÷ 1.4015 − {Mg} ÷ 1.6999",
		Symbols: []string{"RA: residual alkalinity, mg/L as CaCO₃", "A: alkalinity of the mash liquor, mg/L as CaCO₃", "Ca: calcium in it, mg/L", "Mg: magnesium in it, mg/L"},
		Valid:   "compares liquors; it does not foretell a pH",
		Source:  "P. Kolbach, Monatsschr. Brauerei 6(5) (1953) 49 (divisors from memory, confirmed by a worked example)",
		Checked: "a published worked example in three units, and a gyle worked by hand",
	}
	waterKinds = []*Kind{kindIon, kindRatio, kindAlkalinity}
)

// ion is one of the six of a water report: where a water's and a salt's card have
// it.
type ion struct {
	name   string
	water  func(*journal.Water) journal.Value[q.Concentration]
	salt   func(*journal.SaltCard) journal.Value[q.Percent]
	acid   journal.AcidKind // the acid that brings it, "" for none
	ofAcid q.Percent        // its share of that acid
}

var (
	calcium = ion{name: "calcium",
		water: func(w *journal.Water) journal.Value[q.Concentration] { return w.Calcium },
		salt:  func(c *journal.SaltCard) journal.Value[q.Percent] { return c.Calcium }}
	magnesium = ion{name: "magnesium",
		water: func(w *journal.Water) journal.Value[q.Concentration] { return w.Magnesium },
		salt:  func(c *journal.SaltCard) journal.Value[q.Percent] { return c.Magnesium }}
	sodium = ion{name: "sodium",
		water: func(w *journal.Water) journal.Value[q.Concentration] { return w.Sodium },
		salt:  func(c *journal.SaltCard) journal.Value[q.Percent] { return c.Sodium }}
	sulphate = ion{name: "sulphate", acid: journal.Sulphuric, ofAcid: brewing.SulphuricSulphate,
		water: func(w *journal.Water) journal.Value[q.Concentration] { return w.Sulphate },
		salt:  func(c *journal.SaltCard) journal.Value[q.Percent] { return c.Sulphate }}
	chloride = ion{name: "chloride", acid: journal.Hydrochloric, ofAcid: brewing.HydrochloricChloride,
		water: func(w *journal.Water) journal.Value[q.Concentration] { return w.Chloride },
		salt:  func(c *journal.SaltCard) journal.Value[q.Percent] { return c.Chloride }}
	bicarbonate = ion{name: "bicarbonate",
		water: func(w *journal.Water) journal.Value[q.Concentration] { return w.Bicarbonate },
		salt:  func(c *journal.SaltCard) journal.Value[q.Percent] { return c.Bicarbonate }}
	ions = []ion{calcium, magnesium, sodium, sulphate, chloride, bicarbonate}
)

// watered is what is in the liquor. An entry that names no water and nothing to
// put into it is not asked.
func watered(b *bench) {
	l := &b.Gyle.Liquor
	if l.Water.Name == "" && len(l.Salts) == 0 && len(l.Acids) == 0 || b.begunAsBeer() {
		return
	}
	into := sym("V", b.allLiquor(), "L")
	if !b.allLiquor().known {
		into = inWords("V", "all the liquor") // which need not be known where nothing was put into it
	}
	all := map[string]Estimate[q.Concentration]{}
	for _, i := range ions {
		own, brought := b.ofWater(i), b.brought(i, b.allLiquor(), func(journal.Place) bool { return true })
		c := from2(b, func(own, brought q.Concentration) (q.Concentration, error) { return max(0, own+brought), nil }, own, brought)
		all[i.name] = c
		add(b, kindIon, i.name, c, sym("C", c, "mg/L"), sym("W", own, ""), sym("S", brought, ""), into)
	}
	ratio := from2(b, brewing.SulphateToChloride, all["sulphate"], all["chloride"])
	add(b, kindRatio, "", ratio, sym("r", ratio, ""), sym("SO₄", all["sulphate"], ""), sym("Cl", all["chloride"], ""))
	b.inMash()
}

// inMash is the residual alkalinity of the mash liquor.
func (b *bench) inMash() {
	if b.mashedWeight().known && b.mashedWeight().Value == 0 {
		return // an extract beer has no mash
	}
	inGoods := sum(b, b.mashLiquor(), b.infused(len(b.Gyle.Mash.Rests)))
	inMash := func(i ion) Estimate[q.Concentration] {
		return sum(b, b.ofWater(i), b.brought(i, b.allLiquor(), intoAll), b.brought(i, inGoods, intoMash))
	}
	asChalk := from1(b, func(c q.Concentration) (q.Concentration, error) {
		a, err := brewing.AlkalinityOf(max(c, -c))
		if c < 0 {
			a = -a // more acid than there was bicarbonate
		}
		return a, err
	}, inMash(bicarbonate))
	ca, mg := inMash(calcium), inMash(magnesium)
	left := from3(b, brewing.ResidualAlkalinity, asChalk, ca, mg)
	add(b, kindAlkalinity, "", left, sym("RA", left, "mg/L"), sym("A", asChalk, ""), sym("Ca", ca, ""), sym("Mg", mg, ""))
}

// intoAll and intoMash tell where a salt or acid went: liquor unless it says
// otherwise.
func intoAll(into journal.Place) bool  { return into == journal.IntoLiquor || into == "" }
func intoMash(into journal.Place) bool { return into == journal.IntoMash }

// mashLiquor is the strike liquor.
func (b *bench) mashLiquor() Estimate[q.Volume] {
	return read(b, b.Gyle.Mash.Liquor, "mash.liquor", ofVolume)
}

// allLiquor is all the liquor: as written, else strike, infusions and sparge
// together.
func (b *bench) allLiquor() Estimate[q.Volume] {
	return b.memoAllLiquor.once(func() Estimate[q.Volume] {
		sparge := read(b, b.Gyle.Sparge.Liquor, "sparge.liquor", ofVolume)
		return first(read(b, b.Gyle.Liquor.Volume, "liquor.volume", ofVolume), sum(b, b.mashLiquor(), b.infused(len(b.Gyle.Mash.Rests)), sparge))
	})
}

// ofWater is an ion of the water's card.
func (b *bench) ofWater(i ion) Estimate[q.Concentration] {
	name := b.Gyle.Liquor.Water
	if name.Name == "" {
		return missing[q.Concentration]("liquor.water")
	}
	card := b.card(journal.CardWater, name)
	if card == nil || card.Water == nil {
		return withheld[q.Concentration]("no card says what is in " + name.Name)
	}
	return b.onCard(card, i)
}

// onCard is an ion as a water's card has it; alkalinity stands for bicarbonate.
func (b *bench) onCard(card *journal.Card, i ion) Estimate[q.Concentration] {
	v := i.water(card.Water)
	switch {
	case v.Written():
		return read(b, v, v.Key, ofIon)
	case i.name == bicarbonate.name && card.Water.Alkalinity.Written():
		return from1(b, brewing.BicarbonateOf, read(b, card.Water.Alkalinity, card.Water.Alkalinity.Key, ofIon))
	}
	return withheld[q.Concentration](fmt.Sprintf("the card of %s does not say its %s", card.Name.Text, i.name))
}

// WaterBalance is by how many mEq/L the metals on the water's card exceed its
// other ions, and the line of the card; ok is false where the card lacks one.
func (i *Inquiry) WaterBalance() (f Figure, where journal.Where, ok bool) {
	card := i.card(journal.CardWater, i.Gyle.Liquor.Water)
	if card == nil || card.Water == nil {
		return f, where, false
	}
	var x [6]argument
	for n, ion := range ions {
		x[n] = arg(i.onCard(card, ion))
	}
	balance := i.evaluate(func(x *point) (float64, error) {
		b, err := brewing.IonBalance(brewing.Ions{
			Calcium: q.Concentration(x[0]), Magnesium: q.Concentration(x[1]), Sodium: q.Concentration(x[2]),
			Sulphate: q.Concentration(x[3]), Chloride: q.Concentration(x[4]), Bicarbonate: q.Concentration(x[5]),
		})
		return float64(b), err
	}, x[:]...)
	f, ok = aside("mEq/L", result[q.Number](balance))
	return f, card.Kind.Where, ok
}
