package rules

import (
	"gylebook/internal/assay"
	"gylebook/internal/figures"
)

// What rules hold a figure against beside what they share with other rooms (package
// assay has those). A vessel's, yeast's or style's card outranks the ones it speaks of.

var limits assay.Limits

// Limits are the limits of this room.
func Limits() []*assay.Limit { return limits.All() }

// Sources that several limits have.
const (
	common       = assay.CommonPractice
	waterDensity = "water density: Tanaka et al., Metrologia 38 (2001) 301"
	botulism     = "a home-brewing magazine on botulism in stored wort"
	hopCreeping  = "a home-brewing magazine on hop creep"
	labelLaw     = "Regulation (EU) 1169/2011 Annex XII"
	isinglass    = "a brewing-supplies house's article on isinglass"
	beerPHs      = "a brewing-supplies house's article on the pH of beer"
	caskStorage  = "a brewing-supplies house on storage; one keystone blew at 17 °C and about 1.7 vol"
	glassmakers  = "glassmakers rate new beer bottles near 4 vol; returned ones are not new"
)

// What was written, and cannot be so.
var (
	risesBy       = limits.Add("gravity-rises", 2, "points", "rise of a gravity that reading error makes", common)
	readTooHot    = limits.Add("hydrometer-hot", 40, "°C", "heat of a sample over which no hydrometer is to be trusted", waterDensity)
	yieldOff      = limits.Add("yield-off", 10, "%", "how far a yield may lie from this brewer's own median", common)
	trubAllowance = limits.Add("trub-allowance", 2, "L", "what trub, hops and hoses keep between copper and fermenter", common)
	boilOffLow    = limits.Add("boil-off-low", 5, "%", "share of the copper that at least boils off in an hour", common)
	boilOffHigh   = limits.Add("boil-off-high", 20, "%", "share of the copper that at most boils off in an hour", common)
	youngest      = limits.Add("tasting-youngest", 2, "days", "age under which nobody scores a beer", common)
	alphaHigh     = limits.Add("alpha-high", 25, "%", "alpha acids over what any hop is sold with", "growers' sheets: about 2 to 20 %")
	alphaLow      = limits.Add("alpha-low", 1, "%", "alpha acids under what any hop is sold with", "growers' sheets: about 2 to 20 %")
	leastPitch    = limits.Add("pitch-tiny", 0.05, "g/L", "dried yeast under which a weight is a slip: a tenth of what a packet gives", common)
	loggerOffBy   = limits.Add("logger-off", 3, "points", "how far a logger that was set right may be off a reading by hand", common)
	loggerJumps   = limits.Add("logger-jumps", 4, "points", "change of a logger's gravity within an hour: no beer falls so fast", common)
	loggerStray   = limits.Add("logger-stray", 5, "%", "share of a logger's rows that may be impossible, since a float writes in the air too", common)
)

// Recipe, stores and brew day.
var (
	bitternessOffBy = limits.Add("bitterness-off", 5, "IBU", "bitterness this far from its aim", common)
	wortLook        = limits.Add("wort-look", 24, "hours", "how long wort may stand without yeast", common)
	wortDanger      = limits.Add("wort-danger", 72, "hours", "how long wort that is closed in may stand without yeast", botulism)
	wortSafePH      = limits.Add("wort-safe-ph", 4.6, "pH", "pH that botulism needs", botulism)
	unbalancedBy    = limits.Add("water-unbalanced", 0.5, "mEq/L", "how far apart the charges of a water report may be: 10 mg/L of calcium, or 30 of bicarbonate", common)
	mashOffAimBy    = limits.Add("mash-off-aim", 1.5, "°C", "how far a mash may be from its aim", common)
	mashPHLowest    = limits.Add("mash-ph-lowest", 5, "pH", "pH of a cooled sample of the mash under which to act", common)
	ogOffBy         = limits.Add("og-off", 3, "points", "how far an original gravity may miss its aim", common)
	gasGrams        = limits.Add("gas-grams", 500, "g", "carbon dioxide that fills a small room", common)
	roomSize        = limits.Add("room-size", 20, "m³", "air of a room that is small for gas", common)
	compostFresh    = limits.Add("compost-fresh", 30, "days", "how long spent hops still tempt a dog", common)
)

// Yeast, fermentation and the beer that comes of it.
var (
	pitchLowest     = limits.Add("pitch-lowest", 0.5, "million cells per mL and °P", "pitch under which to act", common)
	slowMend        = limits.Add("slow-mend", 60, "hours", "time after pitching by which it must have begun", common)
	attenuationLow  = limits.Add("attenuation-low", 55, "%", "apparent attenuations under it are slips more often than yeasts", common)
	attenuationHigh = limits.Add("attenuation-high", 90, "%", "apparent attenuations over it are slips more often than yeasts", common)
	beerPHLow       = limits.Add("beer-ph-low", 3.7, "pH", "pH at racking under which to look", beerPHs)
	beerPHHigh      = limits.Add("beer-ph-high", 4.1, "pH", "pH at racking over which to look", beerPHs)
	beerPHSpoils    = limits.Add("beer-ph-spoils", 4.5, "pH", "pH over which much can grow", common)
	hopsLevel       = limits.Add("hops-level", 72, "hours", "how long the gravity must stand level after dry hops", hopCreeping)
	proofAfter      = limits.Add("hops-proof-after", 7, "days", "when a glass out of the container shows whether it did", common)
	proofWithin     = limits.Add("hops-proof-within", 1.25, "points", "how near that glass must be", common)
	sealedWithin    = limits.Add("sealed-within", 24, "hours", "how near a planned racking makes the gravity still to fall a matter of today", common)
	stuckAbove      = limits.Add("stuck-above", 4, "points", "how far above the final gravity to expect a level gravity is stuck", common)
	overCardBy      = limits.Add("over-card", 1.5, "points", "how far below its yeast's least a gravity may stand by readings alone", common)
	dryGravity      = limits.Add("dry-gravity", 1.004, "SG", "gravity under which only sugar or a wild yeast goes", common)
)

// Gas, pressure and sealing. No setting moves any of them.
var (
	wrongVolumeMend = limits.Add("wrong-volume-mend", 10, "%", "how far the volume primed may lie from the one the sugar was worked for before it must be mended", common)
	shareOfRating   = limits.Add("share-of-rating", 80, "%", "where a pressure comes near a maker's rating", common)
	hottestPlace    = limits.Add("hottest-place", 44, "°C", "heat of a place over which no pressure is told: solubility is known to 50, and a summer's day is 6 more", solubility)
	bottleBar       = limits.Add("bottle-bar", 4.7, "bar", "pressure at the worst over which a bottle without a maker's figure is a danger: that of 3.5 vol at 25 °C", "worked; "+glassmakers)
	barrelBar       = limits.Add("barrel-bar", 0.7, "bar", "pressure at which the valve of a pressure barrel opens, 10 psi", "a forum guide to pressure barrels; its stamp outranks it")
	kegCeiling      = limits.Add("keg-ceiling", 2, "bar", "pressure above which a keg without a maker's figure is no longer merely not shown safe", common)
	caskCeiling     = limits.Add("cask-ceiling", 1.6, "bar", "pressure above which a cask without a maker's figure is no longer merely not shown safe", common)
	overCeiling     = limits.Add("over-ceiling", 150, "%", "of its ceiling, what a keg or cask without a maker's figure may come to at the worst", common)
	unratedBar      = limits.Add("unrated-bar", 0.5, "bar", "pressure above which nothing else without a maker's figure is shown safe", "the 0.5 bar above which UK pressure rules apply (SI 2000/128, from memory)")
	bagVolumes      = limits.Add("bag-volumes", 1.5, "vol", "what a soft bag may be conditioned to", "breweries' guides to bags: vent daily above it")
	bagBursts       = limits.Add("bag-bursts", 0.5, "bar", "pressure that a bag may not come to; makers of bag and tap fitments name none", "the 0.5 bar above which UK pressure rules apply (SI 2000/128, from memory)")
	bagWorst        = limits.Add("bag-worst", 1, "bar", "pressure that a bag may not come to at the worst", common)
	swellLook       = limits.Add("bag-room", 0.5, "L", "room in a soft bag that is little for a warm day", common)
	caskWarm        = limits.Add("cask-warm", 19, "°C", "heat over which a sealed cask is too warm", caskStorage)
	caskDays        = limits.Add("cask-days", 7, "days", "how long a cask may stand sealed and unvented", caskStorage)
	bottleMend      = limits.Add("bottle-mend", 2.5, "vol", "gas over which to act on a bottle without a maker's figure", glassmakers)
	bottleDanger    = limits.Add("bottle-danger", 3, "vol", "gas over which a bottle without a maker's figure is a danger", glassmakers)
	bottleWorst     = limits.Add("bottle-worst", 3.5, "vol", "gas at the worst over which a bottle without a maker's figure is a danger: half-way to what makers speak of", common)
	mostHandled     = limits.Add("handled-most", 4, "vol", "gas over which a warm bottle is not carried anywhere", glassmakers)
	smallVessel     = limits.Add("small-vessel", 2.5, "L", "what anything may hold that is held to the limits of bottles: the largest that beer is put into", common)
	overfilledBy    = limits.Add("overfilled-by", 100*figures.OverBrim, "%", "how far a fill by eye and a brim may be apart", common)
	rightAllTheSame = limits.Add("aim-met", 0.1, "vol", "how near its aim a condition counts as met: what published values of residual gas differ by", common)
	headspaceLow    = limits.Add("headspace-low", 3, "%", "room above the beer under which it has none to warm up", common)
	longFilled      = limits.Add("long-filled", 366, "days", "how long after it was filled a container has shown what it does, where its beer was tasted since it came to rest", common)
	cameToRest      = limits.Add("came-to-rest", 60, "days", "how long after it was filled a container's beer is at rest", common)
	gasComes        = limits.Add("gas-comes", 7, "days", "how long the gas of priming takes to come: three quarters in the first week at 18 °C", common)
)

// Cleaning, cellar and service.
var (
	freshlyFilled  = limits.Add("freshly-filled", 3, "days", "how long after filling a missing cleaning is still asked for", common)
	mixDanger      = limits.Add("mix-danger", 12, "hours", "how long gas from mixed cleaners may hang about", common)
	mixedWithin    = limits.Add("mixed-within", 24, "hours", "how near in time two cleaners meet", common)
	finingsHottest = limits.Add("finings-hottest", 22, "°C", "heat of the beer that isinglass stands", isinglass)
	finingsKeptAt  = limits.Add("finings-kept-at", 13, "°C", "heat of the store that isinglass keeps in", isinglass)
	finingsKeep    = limits.Add("finings-keep", 4, "months", "how long isinglass keeps over that", isinglass)
	breatherDays   = limits.Add("breather-days", 2, "days", "what a cask breather adds", "an encyclopaedia of beer: one or two days")
	serveColdest   = limits.Add("serve-coldest", 8, "°C", "heat in the glass under which it is wrong", assay.BarChecklist+", widened by common practice")
	serveHottest   = limits.Add("serve-hottest", 16, "°C", "heat in the glass over which it is wrong", assay.BarChecklist+", widened by common practice")
)

// Party, label and people.
var (
	laterHours        = limits.Add("party-later-hours", 0.625, "UK pints", "what a guest drinks in each later hour", "party-planning pages disagree; the middle is common practice")
	hurryWorthAWord   = limits.Add("party-hurry", 2, "whole days", "what a plan may lack before anybody is told", common)
	lateWorthAWord    = limits.Add("party-late", 0.5, "days", "by how much beer may come after its party before anybody is told", common)
	unitsEach         = limits.Add("units-each", 6, "units", "units a guest at which a host should think", "UK Chief Medical Officers: 14 a week")
	adultAge          = limits.Add("adult-age", 18, "years", "age at which the law lets one buy a drink", "the law in the United Kingdom")
	caffeineMost      = limits.Add("caffeine-most", 150, "mg/L", "caffeine that a label must warn of", "Regulation (EU) 1169/2011 Annex III")
	labelWithin       = limits.Add("label-within", 0.5, "% vol", "how far a label's alcohol may be off", labelLaw)
	labelWithinStrong = limits.Add("label-within-strong", 1, "% vol", "how far the label's alcohol of a strong beer may be off", labelLaw)
	strongAbove       = limits.Add("strong-above", 5.5, "% vol", "alcohol above which a label counts a beer as strong", labelLaw)
)
