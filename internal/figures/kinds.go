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

// Kinds lists every figure as declared, in the order of pages.
func Kinds() []*Kind {
	return slices.Concat(waterKinds, mashKinds, gravityKinds, loggerKinds, forecastKinds, alcoholKinds, energyKinds, copperKinds, yeastKinds, conditionKinds, packageKinds, volumeKinds, keepingKinds)
}
