package rules

import (
	"time"

	"gylebook/internal/assay"
)

const (
	// risesBy is how many points a gravity may rise by reading error alone
	// (common practice, no source).
	risesBy = 2.0
	// uncorrectedAway is how far from its calibration, in °C, a sample may be
	// before the correction matters; a hydrometer is not to be trusted at all
	// above uncorrectedHot (water density, Tanaka et al. 2001: 3 °C is half a
	// point, 40 °C six points).
	uncorrectedAway = 3.0
	uncorrectedHot  = 40.0
	// Yields outside these, in %, are slips more often than feats, and so are
	// those this far from this brewer's own median (common practice, no source).
	yieldOff = 10.0
	// closesWithin is how many litres of a gyle may go astray, and the share of
	// the copper that boils off in an hour lies between these, in % (common
	// practice, no source).
	boilOffLow, boilOffHigh = 5.0, 20.0
	// mashLow and mashHigh are the heats, in °C, between which malt makes beer;
	// mashPHLow to mashPHHighest the pH of a cooled sample, first where to look,
	// then where to act (a brewing-supplies house's article on mashing regimes,
	// with limits that are common practice).
	mashOffAimBy = 1.5
	mashPHLowest = 5.0
	// A pH this far outside the settings' own range is where to act, as far as the
	// trade's limits lie apart.
	mashPHUnder, mashPHOver = assay.MashPHLow - mashPHLowest, assay.MashPHHighest - assay.MashPHHigh
	// ogOffBy is how many points an original gravity may miss its aim by
	// (common practice, no source).
	ogOffBy = 3.0
	// How far a beer may be from its aim in IBU, in IBU a point, and in colour in
	// EBC and as a share; for colour both must be passed, since 4 EBC is within
	// the doubt of a dark beer and 20 % within that of a pale one (common
	// practice, no source).
	bitternessOffBy = 5.0
	// How long wort may stand without yeast: where to look (common practice, no
	// source), and where wort that is closed in and over the pH that botulism
	// needs is a danger (a home-brewing magazine on botulism in wort).
	wortLook   = 24 * time.Hour
	wortDanger = 72 * time.Hour
	wortSafePH = 4.6
	// The ale rule is 0.75 to 1.0 million cells per mL and °P (home-brewing
	// magazines on pitching rates); half a million is common practice.
	pitchLowest = 0.5
	// begunBy is how many points show that fermentation has begun, slowLook and
	// slowMend by when it should have (common practice, no source).
	slowMend = 60 * time.Hour
	// Apparent attenuations, in %, that are slips more often than yeasts (common
	// practice, no source).
	attenuationLow, attenuationHigh = 55.0, 90.0
	// pH at racking, and where much can grow (a brewing-supplies house's article
	// on the pH of beer; the last is common practice).
	beerPHLow, beerPHHigh = 3.7, 4.1
	beerPHSpoils          = 4.5
	// hopsLevel is how long the gravity must stand level after dry hops (a
	// home-brewing magazine on hop creep). proofAfter is when a glass out of the
	// container shows whether it did, within proofWithin points (common practice,
	// no source).
	hopsLevel   = 72 * time.Hour
	proofAfter  = 7 * 24 * time.Hour
	proofWithin = 1.25
	// cleanBefore is how long a vessel stays clean, lineDays a line in use (a
	// cask-quality body: 7 days; guidance in the United States: 14), and
	// freshlyFilled how long after filling a missing cleaning is still asked for
	// (common practice, no source).
	freshlyFilled = 3 * 24 * time.Hour
	// mixDanger is how long gas from mixed cleaners may hang about (common
	// practice, no source).
	mixDanger = 12 * time.Hour
	// Isinglass: the heat of the beer it stands, of the store, and how long it
	// keeps over that (a brewing-supplies house's article on isinglass).
	finingsHottest = 22.0
	finingsKeptAt  = 13.0
	finingsKeep    = 122 * 24 * time.Hour
	// breatherDays is what a cask breather adds (an encyclopaedia of beer: one or
	// two days).
	breatherDays = 2.0
	// Heat in the glass, °C: where it could be better, and where it is wrong (a
	// cask-quality body's ten tips, widened by common practice).
	serveColdest, serveHottest = 8.0, 16.0
	serveUnder, serveOver      = assay.ServeCold - serveColdest, serveHottest - assay.ServeWarm
	// A party: pints in the first hour, in each later one, the most anybody is
	// reckoned for, and its hours where none are given (party-planning pages
	// disagree; the middle is common practice). pourable is the share of what is
	// racked that reaches a glass, pintsOff how well that is known.
	laterHours = 0.625
	// unitsEach is units a guest at which a host should think (UK Chief Medical
	// Officers: 14 a week).
	unitsEach = 6.0
	// adultAge is when the law in the United Kingdom lets one buy a drink.
	adultAge = 18
	// caffeineMost is mg/L of caffeine (Regulation (EU) 1169/2011 Annex III).
	caffeineMost = 150.0
	// The tolerances of a label's alcohol, % vol (Regulation (EU) 1169/2011 Annex
	// XII).
	labelWithin, labelWithinStrong, strongAbove = 0.5, 1.0, 5.5
	// Gas in a room: grams, cubic metres, and the weight of a litre of carbon
	// dioxide at 20 °C (HSE, EH40, for the limits of air; the sizes are common
	// practice).
	gasGrams         = 500.0
	roomCubicMetres  = 20.0
	gasGramsPerLitre = 1.84
	// compostFresh is how long spent hops still tempt a dog (common practice, no
	// source).
	compostFresh = 30 * 24 * time.Hour
	// sealedWithin is how near a planned racking is when the gravity still to
	// fall becomes a matter of today (common practice, no source).
	sealedWithin = 24 * time.Hour
	// stuckAbove is how many points above the expected final gravity a level
	// gravity is stuck (common practice, no source).
	stuckAbove = 4.0
	// overCard is how many % above its card a yeast may attenuate, and dryGravity
	// a gravity that only sugar or a wild yeast reaches (common practice, no
	// source).
	overCard   = 5.0
	dryGravity = 1.004
	// wrongVolumeLook and wrongVolumeMend are how far, as shares, the volume
	// really primed may lie from the one the sugar was worked for.
	wrongVolumeMend = 0.10
	// shareOfRating is where a pressure comes near a maker's rating.
	shareOfRating = 0.8
	// bagVolumes is what a soft bag may be conditioned to (breweries' guides to
	// bags: vent daily above it).
	bagVolumes = 1.5
	// mostReckoned is how many volumes a pressure can be worked out for: see
	// brewing.Filled.
	mostReckoned = 10.0
	// barrelBar is where a pressure barrel's valve opens, 10 psi (a forum guide
	// to pressure barrels; its stamp outranks it).
	barrelBar = 0.7
	// caskWarm is where a sealed cask is too warm, °C, and caskDays how long it
	// may stand sealed unvented (a brewing-supplies house on storage; one
	// keystone blew at 17 °C and about 1.7 vol).
	caskWarm = 19.0
	caskDays = 7 * 24 * time.Hour
	// bottleMend and bottleDanger are the ceilings, in volumes, for a bottle
	// without a maker's figure (glassmakers rate new beer bottles near 4 vol;
	// returned ones are not new).
	bottleMend, bottleDanger = 2.5, 3.0
	// smallVessel is how many litres anything may hold that is held to the
	// ceilings for bottles: the largest bottles that beer is put into.
	smallVessel = 2.5
	// unratedBar is the pressure above which nothing without a maker's figure is
	// shown safe: the 0.5 bar above which UK pressure rules apply (SI 2000/128,
	// from memory), except bottles, which have bottleMend.
	unratedBar = 0.5
	// headspaceLow and headspaceHigh are shares of the capacity (common
	// practice, no source).
	headspaceLow = 0.03
	// brimful is less room than liquid beer needs to warm up.
	swellLook = 0.5
)
