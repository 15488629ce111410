package figures

import (
	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// brought is what the salts and acids that went somewhere bring of an ion, in so
// much liquor; of bicarbonate, below nothing where acid takes more than there is.
func (b *bench) brought(i ion, v Estimate[q.Volume], into func(journal.Place) bool) Estimate[q.Concentration] {
	total := exactly(q.Concentration(0))
	for n := range b.Gyle.Liquor.Salts {
		salt := &b.Gyle.Liquor.Salts[n]
		if into(salt.Into.Word) {
			total = sum(b, total, b.fromSalt(i, n, salt, v))
		}
	}
	for n := range b.Gyle.Liquor.Acids {
		acid := &b.Gyle.Liquor.Acids[n]
		if into(acid.Into.Word) {
			total = sum(b, total, b.fromAcid(i, n, acid, v))
		}
	}
	return total
}

func (b *bench) fromSalt(i ion, n int, salt *journal.Salt, v Estimate[q.Volume]) Estimate[q.Concentration] {
	card := b.card(journal.CardSalt, salt.Salt)
	if card == nil || card.Salt == nil {
		return withheld[q.Concentration]("no card says what " + salt.Salt.Name + " is made of")
	}
	share := i.salt(card.Salt)
	if !share.Written() || share.Value == 0 {
		return exactly(q.Concentration(0))
	}
	weight := read(b, salt.Weight, keyOf(salt.Weight.Where, "liquor.salts", n, "weight"), ofSmall)
	ofIt := exactly(share.Value)
	if share.Typed {
		ofIt = read(b, share, share.Key, doubt{})
	}
	c := from3(b, brewing.IonFromSalt, weight, ofIt, v)
	if card.Name.Text != "chalk" {
		return c
	}
	dissolved := customary(b, q.Number(0.5), 0.5, "", "how much of the chalk dissolves", "none to all of it, by how much carbon dioxide is there (common practice, no source)")
	return from2(b, func(c q.Concentration, part q.Number) (q.Concentration, error) { return c * q.Concentration(part), nil }, c, dissolved)
}

// acidNames are the words of an entry, by acid.
var acidNames = map[journal.AcidKind]brewing.Acid{
	journal.Lactic: brewing.LacticAcid, journal.Phosphoric: brewing.PhosphoricAcid, journal.Hydrochloric: brewing.HydrochloricAcid,
	journal.Sulphuric: brewing.SulphuricAcid, journal.Citric: brewing.CitricAcid,
}

// fromAcid is what an acid brings of an ion: two of them leave chloride or
// sulphate behind, and all take up bicarbonate.
func (b *bench) fromAcid(i ion, n int, acid *journal.Acid, v Estimate[q.Volume]) Estimate[q.Concentration] {
	if i.name != bicarbonate.name && i.acid != acid.Acid.Word || i.acid == "" && i.name != bicarbonate.name {
		return exactly(q.Concentration(0))
	}
	a, known := acidNames[acid.Acid.Word]
	if !known {
		return missing[q.Concentration](key("liquor.acids", n, "acid"))
	}
	bottle := read(b, acid.Volume, keyOf(acid.Volume.Where, "liquor.acids", n, "volume"), ofMeasure)
	strength := read(b, acid.Strength, keyOf(acid.Strength.Where, "liquor.acids", n, "strength"), ofAcidStrength)
	off := customary(b, q.Gravity(0), 0.01, "SG", "the density of "+acid.Acid.String()+" acid", "handbook values, from memory")
	density := from2(b, func(p q.Percent, off q.Gravity) (q.Gravity, error) {
		g, err := brewing.AcidDensity(a, p)
		return g + off, err
	}, strength, off)
	if i.name != bicarbonate.name {
		return from3(b, brewing.IonFromSalt, from3(b, brewing.PureAcid, bottle, strength, density), exactly(i.ofAcid), v)
	}
	perMillilitre := from3(b, func(p q.Percent, g q.Gravity, at q.Acidity) (q.Number, error) {
		return brewing.AcidStrength(a, p, g, at)
	}, strength, density, b.mashPH())
	taken := from3(b, brewing.AlkalinityNeutralised, bottle, perMillilitre, v)
	return from1(b, func(c q.Concentration) (q.Concentration, error) {
		b, err := brewing.BicarbonateOf(c)
		return -b, err
	}, taken)
}

// mashPH is where an acid stops giving: the mash's pH as read, else the usual one.
func (b *bench) mashPH() Estimate[q.Acidity] {
	if b.Gyle.Mash.PH.Written() {
		return read(b, b.Gyle.Mash.PH, "mash.ph", ofPH)
	}
	return customary(b, q.Acidity(5.4), 0.2, "", "the mash's pH", "not read: taken as 5.4 ± 0.2")
}
