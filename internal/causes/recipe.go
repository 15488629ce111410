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
			ID: "by-recipe", Name: "the recipe itself brings it", Source: common,
			Next: "Leave it as it is, if it is meant; otherwise use less of what brings it.",
			Tests: []Test{
				{For: say("sour: fruit or juice went in; sweet: a sugar that yeast cannot use; honeyed: honey; clove or smoke: a yeast whose "+
					"card says phenolic, smoked malt, or spice; hazy: it was not boiled, or over %s is wheat; yeasty: it was not boiled; "+
					"boozy: it was aimed to be strong", wheatHazy), Weight: Measurement, Needs: "grist", look: byRecipe},
			},
		},
		{
			ID: "aim-itself", Name: "the aim is not the beer that the taster means", Source: common,
			Next: "Taste it beside the beer that is meant, and change the aim before the recipe.",
			Tests: []Test{
				{For: "three figures or more that have an aim, and each of them on it", Against: "one of them is off", Weight: Measurement,
					Needs: "aim", look: aimMet},
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
		if aim := x.Gyle.Aim.ABV; aim.Written() && float64(aim.Value) >= abvStrong.Number {
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
		if staysSweet(x.GrainCard(g)) {
			return fmt.Sprintf("the %s stays in it: yeast cannot use it", nameOfGrain(g)), g.Where
		}
	}
	return x.otherAdded("the lactose stays in it: yeast cannot use it", "lactose")
}

// otherAdded is a clause about an addition that has a word, and its line.
func (x *exam) otherAdded(says, word string) (string, journal.Where) {
	for _, a := range x.Gyle.Added {
		if assay.HasWord(a.Other.Text, word) {
			return says, a.Where
		}
	}
	return "", journal.Where{}
}

func (x *exam) honeyed() (string, journal.Where) {
	const says = "there is honey in it"
	if name, where := x.grainCalled("honey"); name != "" {
		return says, where
	}
	return x.otherAdded(says, "honey")
}

func (x *exam) spiced() (string, journal.Where) {
	for _, p := range x.Gyle.Yeast {
		if x.YeastCard(p).Phenolic.Yes() {
			return fmt.Sprintf("the card of the %s says that it gives clove or spice", p.Yeast.Name), p.Where
		}
	}
	if name, where := x.grainCalled("smoked", "smoke", "peated", "peat*"); name != "" {
		return fmt.Sprintf("there is %s in the grist", name), where
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
	if r := inGrist("wheat", wheaten)(x); r.Value > wheatHazy.Number {
		return r.says, x.LastOf(r.Figure)
	}
	return "", journal.Where{}
}

// aimMet tells whether every figure with an aim is on it.
func aimMet(x *exam) Sign {
	aim := x.Gyle.Aim
	met, off := 0, ""
	var where journal.Where
	note := func(name string, far figures.Figure, by, limit float64) {
		if met++; math.Abs(far.Value-by) >= limit-rounding && off == "" {
			off, where = name, x.LastOf(far)
		}
	}
	if r := ogOff(x); r.says != "" {
		note("original gravity", r.Figure, 0, ogUnder.Number)
	}
	if r := fgOff(x); r.says != "" {
		note("final gravity", r.Figure, 0, fgUnder.Number)
	}
	if f, ok := x.Find(figures.IDABV, ""); ok && aim.ABV.Written() {
		note("strength", f, float64(aim.ABV.Value), abvOver.Number)
	}
	if f, ok := x.Find(figures.IDBitterness, ""); ok && aim.Bitterness.Written() {
		note("bitterness", f, aim.Bitterness.Value.IBU(), ibuOff.Number)
	}
	if f, ok := x.Find(figures.IDColour, ""); ok && aim.Colour.Written() {
		note("colour", f, aim.Colour.Value.EBC(), colourOver(aim.Colour.Value.EBC()))
	}
	switch {
	case off != "":
		return tells(Against, "the "+off+" is off its aim", where)
	case float64(met) < aimsMet.Number:
		return unknown
	}
	return tells(For, fmt.Sprintf("all %d figures that have an aim came out on it", met), aim.Where)
}
