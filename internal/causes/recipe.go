package causes

import (
	"fmt"
	"math"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// recipeCauses are no faults: the recipe brings it, or it was aimed at something
// else than the taster thinks of.
func recipeCauses() []Cause {
	return []Cause{
		{
			ID: "by-recipe", Name: "the recipe itself brings it", Source: assay.CommonPractice,
			Next: "Leave it as it is, if it is meant; otherwise use less of what brings it.",
			Tests: []Test{
				{For: "sour: fruit or juice went in; sweet: a sugar that yeast cannot use; honeyed: honey; clove or smoke: a yeast whose card says phenolic, smoked malt, or spice; hazy: it was not boiled, or over 30 % is wheat; yeasty: it was not boiled; boozy: it was aimed to be strong", Weight: Measurement, Needs: "grist", look: byRecipe},
			},
		},
		{
			ID: "aim-itself", Name: "the aim is not the beer that the taster means", Source: assay.CommonPractice,
			Next: "Taste it beside the beer that is meant, and change the aim before the recipe.",
			Tests: []Test{
				{For: "three figures or more that have an aim, and each of them on it", Against: "one of them is off", Weight: Measurement, Needs: "aim", look: aimMet},
			},
		},
	}
}

// byRecipe looks for what in the recipe tastes of the word.
func byRecipe(x *exam) Sign {
	var says string
	var where journal.Where
	switch {
	case x.says("sour"):
		says, where = x.fruited()
	case x.says("sweet"):
		says, where = x.unfermentable()
	case x.says("sherry"):
		says, where = x.honeyed()
	case x.says("clove"):
		says, where = x.spiced()
	case x.says("hazy"):
		says, where = x.hazyByNature()
	case x.says("yeasty"):
		if boiled := x.Gyle.Copper.Boiled; boiled.None {
			says, where = "it was not boiled, and raw ale tastes of its grain", boiled.Where
		}
	case x.says("boozy"):
		if aim := x.Gyle.Aim.ABV; aim.Written() && float64(aim.Value) >= abvStrong {
			says, where = fmt.Sprintf("%s %% vol was aimed at", q.Plain(float64(aim.Value))), aim.Where
		}
	}
	if says == "" {
		return silent
	}
	return tells(For, says, where)
}

func (x *exam) fruited() (string, journal.Where) {
	for _, a := range x.Gyle.Added {
		if name := a.Fruit.Name + a.Juice.Name; name != "" {
			return fmt.Sprintf("%s went in, with acid of its own", strings.TrimSpace(x.amountOf(a)+" "+name)), a.Where
		}
	}
	return "", journal.Where{}
}

func (x *exam) amountOf(a journal.Addition) string {
	switch {
	case a.Weight.Written():
		return x.Weight(a.Weight.Value.Grams()) + " of"
	case a.Volume.Written():
		return x.Exactly(a.Volume.Value.Litres(), "L") + " of"
	}
	return ""
}

func (x *exam) unfermentable() (string, journal.Where) {
	for _, g := range x.Gyle.Grist {
		card := x.GrainCard(g)
		if card != nil && card.Sugar != nil && card.Sugar.Fermentable.Written() && float64(card.Sugar.Fermentable.Value) <= 50 {
			return fmt.Sprintf("the %s stays in it: yeast cannot use it", nameOfGrain(g)), g.Where
		}
	}
	for _, a := range x.Gyle.Added {
		if assay.HasWord(a.Other.Text, "lactose") {
			return "the lactose stays in it: yeast cannot use it", a.Where
		}
	}
	return "", journal.Where{}
}

func (x *exam) honeyed() (string, journal.Where) {
	for _, g := range x.Gyle.Grist {
		if assay.HasWord(nameOfGrain(g), "honey") {
			return "there is honey in it", g.Where
		}
	}
	for _, a := range x.Gyle.Added {
		if assay.HasWord(a.Other.Text, "honey") {
			return "there is honey in it", a.Where
		}
	}
	return "", journal.Where{}
}

func (x *exam) spiced() (string, journal.Where) {
	for _, p := range x.Gyle.Yeast {
		if card := x.Card("yeast", p.Yeast); card != nil && card.Yeast != nil && card.Yeast.Phenolic.Yes() {
			return fmt.Sprintf("the card of the %s says that it gives clove or spice", p.Yeast.Name), p.Where
		}
	}
	for _, g := range x.Gyle.Grist {
		if assay.HasWord(nameOfGrain(g), "smoked", "smoke", "peated", "peat*") {
			return fmt.Sprintf("there is %s in the grist", nameOfGrain(g)), g.Where
		}
	}
	for _, a := range x.Gyle.Added {
		if a.Spice.Text != "" {
			return fmt.Sprintf("%s went in", a.Spice.Text), a.Where
		}
	}
	return "", journal.Where{}
}

func (x *exam) hazyByNature() (string, journal.Where) {
	if boiled := x.Gyle.Copper.Boiled; boiled.None {
		return "it was not boiled, and what a boil throws out stays in it", boiled.Where
	}
	if f, names, ok := x.gristShare(wheaten); ok && f.Value > wheatHazy {
		return share("wheat", f, names), x.LastOf(f)
	}
	return "", journal.Where{}
}

// wheatHazy is the share of wheat, in %, that is meant to be hazy (common
// practice, no source).
const wheatHazy = 30.0

// aimMet tells whether every figure with an aim is on it.
func aimMet(x *exam) Sign {
	met, off := 0, ""
	var where journal.Where
	note := func(name string, far figures.Figure, limit float64) {
		if met++; math.Abs(far.Value) >= limit-rounding && off == "" {
			off, where = name, x.LastOf(far)
		}
	}
	for _, g := range []struct {
		id, name string
		aim      journal.Value[q.Gravity]
		limit    float64
	}{{"og", "original gravity", x.Gyle.Aim.OG, ogUnder}, {"fg", "final gravity", x.Gyle.Aim.FG, fgUnder}} {
		if far, _, lacking := x.pointsFrom(g.id, g.name, g.aim); lacking.Voice == Silent {
			note(g.name, far, g.limit)
		}
	}
	if f, ok := x.Find("abv", ""); ok && x.Gyle.Aim.ABV.Written() {
		f.Value -= float64(x.Gyle.Aim.ABV.Value)
		note("strength", f, abvOver)
	}
	if f, ok := x.Find("bitterness", ""); ok && x.Gyle.Aim.Bitterness.Written() {
		f.Value -= x.Gyle.Aim.Bitterness.Value.IBU()
		note("bitterness", f, ibuOff)
	}
	if f, ok := x.Find("colour", ""); ok && x.Gyle.Aim.Colour.Written() {
		aim := x.Gyle.Aim.Colour.Value.EBC()
		f.Value -= aim
		note("colour", f, max(assay.ColourOffBy.Number, assay.ColourOffShare.Number/100*aim))
	}
	switch {
	case off != "":
		return tells(Against, "the "+off+" is off its aim", where)
	case met < 3:
		return unknown
	}
	return tells(For, fmt.Sprintf("all %d figures that have an aim came out on it", met), x.Gyle.Aim.Where)
}
