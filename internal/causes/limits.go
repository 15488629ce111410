package causes

// The limits that causes are tested against: where a reading speaks for a cause,
// and where against it. All are common practice, no source, unless a line says
// otherwise; what the rules test against too stands in thresholds.go.
const (
	// Points of final gravity under the aim, where it fermented further than
	// meant, and over it, where sugar was left; on the aim within a point.
	fgUnder, fgOver, fgOnAim = 2.0, 3.0, 1.0
	// Points of original gravity under the aim, litres of wort over it.
	ogUnder, ogOnAim     = 3.0, 1.5
	volumeOver, volumeOn = 1.0, 0.5
	// °C of the mash: cooler makes a dry beer, warmer a sweet one (a brewing
	// school's mash figures: 82 % apparent at 65 °C, 70 % at 70 °C).
	mashDry, mashNotDry     = 65.0, 67.0
	mashSweet, mashNotSweet = 69.0, 67.0
	// % of the grist that is sugar, and so ferments right out.
	sugarMuch = 10.0
	// % vol: over the aim, and strong by any measure.
	abvOver, abvOnAim      = 0.5, 0.2
	abvStrong, abvOrdinary = 6.0, 4.5
	// Million cells per mL and °P that are enough beyond doubt (home-brewing
	// magazines on pitching rates: 0.75 to 1.0).
	pitchEnough = 1.0
	// Volumes of gas under and over the aim, and on it.
	gasUnder, gasOver, gasOnAim = 0.2, 0.3, 0.1
	// Days open before gas fades, and °C in the glass at which it leaves.
	openFlat, openFresh = 3.0, 2.0
	glassWarm, glassFit = 14.0, 13.0
	// °C: too cool to condition, and warm enough.
	conditionCold, conditionFit = 12.0, 15.0
	// Points by which the gravity fell after the beer was closed in, and none.
	fellBy, fellNot = 2.0, 0.75
	// Hours still before the glass: hazy, and bright (a brewing-supplies house's
	// article on beer at the point of sale: 24 hours, better 36).
	stillShort, stillLong = 36.0, 72.0
	// °C in the glass where cold alone makes a haze, and where it cannot.
	coldGlass, hazeGone = 10.0, 16.0
	// Minutes of mash, and °C, that leave starch.
	mashShort, mashFull  = 45.0, 60.0
	mashCooked, mashFine = 70.0, 68.0
	// g/L of dry hops that haze, and that hardly do.
	dryHazy, dryClear = 1.0, 0.3
	// pH fallen since racking, and steady.
	phFell, phSteady = 0.2, 0.1
	// pH of beer that tastes sour, and that does not.
	phSour, phNotSour = 3.7, 3.9
	// Hours between the last fall of gravity and racking: too few, and enough.
	onYeastShort, onYeastLong = 48.0, 72.0
	// °C of the first three days, without a card: no esters to speak of.
	workedCool = 20.0
	// Days since pitching: young, and grown up.
	youngDays, grownDays = 10.0, 28.0
	// °C of a store that ages beer, and that keeps it.
	storeWarm, storeCool = 18.0, 13.0
	// % attenuation over the yeast's card that a wild yeast gives.
	wildOver = 5.0
	// Minutes of boil, and % boiled off in an hour, that leave sweetcorn (from
	// home-brewing magazines on taste faults).
	boilShort             = 60.0
	boilTimid, boilStrong = 5.0, 8.0
	// Run-off: gravity, °C and pH beyond doubt right.
	runningsRight, spargeRight, runningsPHRight = 1.008, 76.0, 5.6
	// IBU off the aim, and on it; IBU to a point that are bitter, and that are
	// not; and likewise that are not bitter.
	ibuOff, ibuOnAim         = 5.0, 2.0
	ratioBitter, ratioEven   = 0.9, 0.75
	ratioSweet, ratioEvenLow = 0.6, 0.75
	// mg/L of sulphate, and sulphate to chloride, that are harsh, and that are
	// not.
	sulphateMuch, sulphateFew      = 300.0, 150.0
	sulphateChloride, sulphateEven = 3.0, 2.0
	// g/L of late and dry hops that a nose needs, and minutes of boil that leave
	// some of it.
	aromaEnough = 1.0
	lateBoil    = 15.0
	// Days of dry hops: grassy, and not.
	dryLong, dryShort = 7.0, 4.0
	// % of the grist: roast and crystal malt, much and little; and wheat, for a
	// head and against one.
	roastMuch, roastLittle     = 3.0, 1.0
	crystalLittle, crystalFair = 5.0, 8.0
	crystalMuch                = 12.0
	wheatForHead               = 3.0
	// Days on the yeast: too many, and few.
	onYeastDays, offYeastDays = 28.0, 21.0
	// °C in the glass that are wrong, and right.
	serveTooCold, serveTooWarm    = 9.0, 15.0
	serveRightLow, serveRightHigh = 11.0, 13.0
	// Gravity of wort that scorches on a flame.
	wortThick, wortThin = 1.060, 1.045
	// Days that a line, when drawn through, is past its cleaning: see lineDays.
	lineWeek = 7.0
)
