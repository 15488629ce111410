package findings

import "time"

// The limits that rules test against, in one place, each with its source. A
// vessel's, yeast's or style's card outranks the ones it speaks of.
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
	// sparseAfter is how long a fermentation may go unread after its second day
	// (common practice, no source).
	sparseAfter = 72 * time.Hour
	// Yields outside these, in %, are slips more often than feats, and so are
	// those this far from this brewer's own median (common practice, no source).
	yieldLow, yieldHigh, yieldOff = 55.0, 90.0, 10.0
	// closesWithin is how many litres of a gyle may go astray, and the share of
	// the copper that boils off in an hour lies between these, in % (common
	// practice, no source).
	closesWithin            = 1.0
	boilOffLow, boilOffHigh = 5.0, 20.0
	// Mash: 62 to 70 °C makes beer; pH of a cooled sample (a brewing-supplies
	// house's article on mashing regimes).

	// notFinished: see figures.Stability. Expected FG is near when the gravity is
	// within this many points of it.
	nearExpected = 2.0
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
	wrongVolumeLook, wrongVolumeMend = 0.05, 0.10
	// overAim is how many volumes above the aim a beer fobs (common practice, no
	// source).
	overAim = 0.3
	// shareOfRating is where a pressure comes near a maker's rating.
	shareOfRating = 0.8
	// bagVolumes is what a soft bag may be conditioned to (breweries' guides to
	// bags: vent daily above it).
	bagVolumes = 1.5
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
	// unratedBar is the pressure above which nothing without a maker's figure is
	// shown safe: the 0.5 bar above which UK pressure rules apply (SI 2000/128,
	// from memory), except bottles, which have bottleMend.
	unratedBar = 0.5
	// headspaceLow and headspaceHigh are shares of the capacity (common
	// practice, no source).
	headspaceLow, headspaceHigh = 0.03, 0.08
	// brimful is less room than liquid beer needs to warm up.
	swellLook = 0.5
)
