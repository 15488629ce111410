package figures

import "slices"

// dateUnit marks a figure whose value is a date.
const dateUnit = "date"

// families are the functions that work the figures out, in the order in which
// pages show them. What a family shares with another it asks of the sheet.
var families = []func(*bench){
	watered,
	mashing,
	gravities,
	logging,
	forecasting,
	alcohol,
	energies,
	boiling,
	pitching,
	conditioning,
	packaged,
	volumesOf,
	keeping,
}

// Family is figures that stand under one heading.
type Family struct {
	Heading string
	Kinds   []*Kind
}

// Families lists every figure as declared, in the order of pages.
func Families() []Family {
	return []Family{
		{"Liquor", waterKinds},
		{"Mash", mashKinds},
		{"Gravity", slices.Concat(gravityKinds, loggerKinds, forecastKinds)},
		{"Alcohol", alcoholKinds},
		{"Label", energyKinds},
		{"Copper", copperKinds},
		{"Yeast", yeastKinds},
		{"Condition", conditionKinds},
		{"Containers", packageKinds},
		{"Volume", volumeKinds},
		{"Dates", keepingKinds},
	}
}

// Kinds is the same without the headings.
func Kinds() []*Kind {
	var all []*Kind
	for _, f := range Families() {
		all = append(all, f.Kinds...)
	}
	return all
}
