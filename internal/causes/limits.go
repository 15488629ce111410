package causes

import "gylebook/internal/assay"

// What speaks for a cause, and what against it, beside what the rules hold against too
// (package assay has that). A pair is read as "at this or beyond" and "at that or short
// of it"; between the two a reading says nothing.

var limits assay.Limits

// Limits are the limits of this room.
func Limits() []*assay.Limit { return limits.All() }

const (
	common     = assay.CommonPractice
	mashSchool = "a brewing school's mash figures: 82 % apparent at 65 °C, 70 % at 70 °C"
	tasteFault = "home-brewing magazines' pages on taste faults"
	stillFor   = assay.SalesArticle + ": 24 hours, better 36"
)

// Off the aim, and on it.
var (
	fgUnder    = limits.Add("fg-under", 2, "points", "final gravity under its aim: it fermented further than was meant", common)
	fgOver     = limits.Add("fg-over", 3, "points", "final gravity over its aim: sugar was left", common)
	fgOnAim    = limits.Add("fg-on-aim", 1, "points", "final gravity that is on its aim", common)
	ogUnder    = limits.Add("og-under", 3, "points", "original gravity under its aim", common)
	ogOnAim    = limits.Add("og-on-aim", 1.5, "points", "original gravity that is on its aim", common)
	wortOver   = limits.Add("wort-over", 1, "L", "wort over its aim", common)
	wortOnAim  = limits.Add("wort-on-aim", 0.5, "L", "wort that is on its aim", common)
	abvOver    = limits.Add("abv-over", 0.5, "% vol", "alcohol over its aim", common)
	abvOnAim   = limits.Add("abv-on-aim", 0.2, "% vol", "alcohol that is on its aim", common)
	gasUnder   = limits.Add("gas-under", 0.2, "vol", "condition under its aim", common)
	gasOver    = limits.Add("gas-over", 0.3, "vol", "condition over its aim", common)
	gasOnAim   = limits.Add("gas-on-aim", 0.1, "vol", "condition that is on its aim", common)
	ibuOff     = limits.Add("ibu-off", 5, "IBU", "bitterness off its aim", common)
	ibuOnAim   = limits.Add("ibu-on-aim", 2, "IBU", "bitterness that is on its aim", common)
	ratioOnAim = limits.Add("ratio-on-aim", 0.1/3, "", "bitterness to gravity that is on its aim", common)
	colourOn   = limits.Add("colour-on-aim", 2, "EBC", "colour that is on its aim", common)
	aimsMet    = limits.Add("aims-met", 3, "whole figures", "figures on their aims that say that the aim is not what is meant", common)
)

// Grist, mash and run-off.
var (
	abvStrong     = limits.Add("abv-strong", 6, "% vol", "alcohol of a beer that is strong by any measure", common)
	abvOrdinary   = limits.Add("abv-ordinary", 4.5, "% vol", "alcohol of a beer that is not strong", common)
	roastMuch     = limits.Add("roast-much", 3, "%", "share of the grist that is much roast malt", common)
	roastLittle   = limits.Add("roast-little", 1, "%", "share of the grist that is little roast malt", common)
	crystalLittle = limits.Add("crystal-little", 5, "%", "share of the grist that is little crystal malt", common)
	crystalFair   = limits.Add("crystal-fair", 8, "%", "share of the grist that is neither little nor much crystal malt", common)
	crystalMuch   = limits.Add("crystal-much", 12, "%", "share of the grist that is much crystal malt", common)
	wheatForHead  = limits.Add("wheat-for-head", 3, "%", "share of wheat in the grist that holds a head", common)
	wheatHazy     = limits.Add("wheat-hazy", 30, "%", "share of wheat in the grist that is meant to be hazy", common)
	sugarMuch     = limits.Add("sugar-much", 10, "%", "share of the grist that is much sugar, which ferments right out", common)
	mashDry       = limits.Add("mash-dry", 65, "°C", "heat of the mash that makes a dry beer", mashSchool)
	mashNotDry    = limits.Add("mash-not-dry", 67, "°C", "heat of the mash that makes no dry beer", mashSchool)
	mashSweet     = limits.Add("mash-sweet", 69, "°C", "heat of the mash that makes a sweet beer", mashSchool)
	mashNotSweet  = limits.Add("mash-not-sweet", 67, "°C", "heat of the mash that makes no sweet beer", mashSchool)
	mashShort     = limits.Add("mash-short", 45, "minutes", "mash that leaves starch", common)
	mashFull      = limits.Add("mash-full", 60, "minutes", "mash that leaves none", common)
	mashCooked    = limits.Add("mash-cooked", 70, "°C", "heat of the mash that leaves starch", common)
	mashFine      = limits.Add("mash-fine", 68, "°C", "heat of the mash that leaves none", common)
	convertsFrom  = limits.Add("converts-from", 60, "°C", "heat from which starch turns to sugar", assay.MashArticle)
	convertsTo    = limits.Add("converts-to", 75, "°C", "heat up to which starch turns to sugar", assay.MashArticle)
	runningsRight = limits.Add("runnings-right", 1.008, "SG", "gravity of run-off that draws no tannin", common)
	spargeRight   = limits.Add("sparge-right", 76, "°C", "heat of sparge liquor that draws no tannin", common)
	runOffPHRight = limits.Add("runnings-ph-right", 5.6, "pH", "pH of run-off that draws no tannin", common)
	sulphateMuch  = limits.Add("sulphate-much", 300, "mg/L", "sulphate that is harsh", common)
	sulphateFew   = limits.Add("sulphate-few", 150, "mg/L", "sulphate that is not", common)
	sulphateTimes = limits.Add("sulphate-times", 3, "times", "sulphate to chloride that is harsh", common)
	sulphateEven  = limits.Add("sulphate-even", 2, "times", "sulphate to chloride that is not", common)
)

// Boil and hops.
var (
	boilShort   = limits.Add("boil-short", 60, "minutes", "boil under which it leaves sweetcorn", tasteFault)
	boilTimid   = limits.Add("boil-timid", 5, "%", "share boiled off in an hour that leaves sweetcorn", tasteFault)
	boilStrong  = limits.Add("boil-strong", 8, "%", "share boiled off in an hour that leaves none", tasteFault)
	wortThick   = limits.Add("wort-thick", 1.060, "SG", "gravity of wort that scorches on a flame", common)
	wortThin    = limits.Add("wort-thin", 1.045, "SG", "gravity of wort that does not", common)
	ratioBitter = limits.Add("ratio-bitter", 0.9, "", "bitterness to gravity that is bitter", common)
	ratioEven   = limits.Add("ratio-even", 0.75, "", "bitterness to gravity that is neither bitter nor sweet", common)
	ratioSweet  = limits.Add("ratio-sweet", 0.6, "", "bitterness to gravity that is not bitter", common)
	aromaEnough = limits.Add("aroma-enough", 1, "g/L", "late and dry hops that a nose needs", common)
	aromaLittle = limits.Add("aroma-little", 0.2, "g/L", "late and dry hops that are hardly any", common)
	lateBoil    = limits.Add("late-boil", 15, "minutes", "boil that leaves some aroma", common)
	dryLong     = limits.Add("dry-long", 7, "days", "dry hops that taste of grass", common)
	dryShort    = limits.Add("dry-short", 4, "days", "dry hops that do not", common)
	dryHazy     = limits.Add("dry-hazy", 1, "g/L", "dry hops that haze", common)
	dryClear    = limits.Add("dry-clear", 0.3, "g/L", "dry hops that hardly do", common)
)

// Yeast and fermentation.
var (
	pitchedUnder = limits.Add("pitched-under", 1, "°C", "how far under its card a yeast goes in cool", common)
	workedCool   = limits.Add("worked-cool", 20, "°C", "heat of the first days that makes no esters to speak of, where no card says", common)
	wildOver     = limits.Add("wild-over", 5, "%", "attenuation over the yeast's card that a wild yeast gives", common)
	fellBy       = limits.Add("fell-by", 2, "points", "fall of the gravity after the beer was closed in", common)
	fellNot      = limits.Add("fell-not", 0.75, "points", "fall of the gravity that is none", common)
	soonOffYeast = limits.Add("off-yeast-soon", 48, "hours", "too little time between the last fall and racking", tasteFault)
	lateOffYeast = limits.Add("off-yeast-late", 72, "hours", "time enough between the last fall and racking", tasteFault)
	longOnYeast  = limits.Add("on-yeast-long", 28, "days", "too long on the yeast", common)
	shortOnYeast = limits.Add("on-yeast-short", 21, "days", "not too long on the yeast", common)
	youngDays    = limits.Add("young-days", 10, "days", "age of a beer that is young", common)
	grownDays    = limits.Add("grown-days", 28, "days", "age of a beer that is grown up", common)
	phFell       = limits.Add("ph-fell", 0.2, "", "fall of the pH since racking", common)
	phSteady     = limits.Add("ph-steady", 0.1, "", "fall of the pH that is none", common)
	phSour       = limits.Add("ph-sour", 3.7, "pH", "pH of beer that tastes sour", common)
	phNotSour    = limits.Add("ph-not-sour", 3.9, "pH", "pH of beer that does not", common)
)

// Cellar and glass.
var (
	fallsNot      = limits.Add("falls-not", 0.1, "vol", "gas still to come that is worth no word", common)
	openFlat      = limits.Add("open-flat", 3, "days", "time open in which gas fades", common)
	openFresh     = limits.Add("open-fresh", 2, "days", "time open in which it does not", common)
	conditionCold = limits.Add("condition-cold", 12, "°C", "heat too cool to condition at", common)
	conditionFit  = limits.Add("condition-fit", 15, "°C", "heat warm enough to condition at", common)
	stillShort    = limits.Add("still-short", 36, "hours", "time still before the glass, and hazy", stillFor)
	stillLong     = limits.Add("still-long", 3, "days", "time still before the glass, and bright", stillFor)
	storeWarm     = limits.Add("store-warm", 18, "°C", "heat of a store that ages beer", common)
	storeCool     = limits.Add("store-cool", 13, "°C", "heat of a store that keeps it", common)
	coldGlass     = limits.Add("cold-glass", 10, "°C", "heat in the glass where cold alone makes a haze", common)
	hazeGone      = limits.Add("haze-gone", 16, "°C", "heat in the glass where it cannot", common)
	glassWarm     = limits.Add("glass-warm", 14, "°C", "heat in the glass at which gas leaves", common)
	glassFit      = limits.Add("glass-fit", 13, "°C", "heat in the glass at which it stays", common)
	serveTooCold  = limits.Add("serve-too-cold", 9, "°C", "heat in the glass that is wrong", common)
	serveTooWarm  = limits.Add("serve-too-warm", 15, "°C", "heat in the glass that is wrong", common)
	serveFrom     = limits.Add("serve-from", 11, "°C", "heat in the glass that is right", common)
	serveTo       = limits.Add("serve-to", 13, "°C", "heat in the glass that is right", common)
)
