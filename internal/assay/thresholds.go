package assay

import (
	"time"
)

const (
	// LossLow and LossHigh are the litres that usually stay in a fermenter when the
	// beer is racked (common practice, no source).
	LossLow, LossHigh = 1.0, 2.0
)

const (
	// sparseAfter is how long a fermentation may go unread after its second day
	// (common practice, no source).
	sparseAfter = 72 * time.Hour
	// Yields outside these, in %, are slips more often than feats, and so are
	// those this far from this brewer's own median (common practice, no source).
	yieldLow, yieldHigh = 55.0, 90.0
	// ClosesWithin is how many litres of a gyle may go astray, and the share of
	// the copper that boils off in an hour lies between these, in % (common
	// practice, no source).
	ClosesWithin = 1.0
	// mashLow and mashHigh are the heats, in °C, between which malt makes beer;
	// MashPHLow to MashPHHighest the pH of a cooled sample, first where to look,
	// then where to act (a brewing-supplies house's article on mashing regimes,
	// with limits that are common practice).
	mashLow, mashHigh     = 62.0, 70.0
	MashPHLow, MashPHHigh = 5.1, 5.6
	MashPHHighest         = 5.8
	// Where the run-off draws tannin: liquor over so many °C, gravity, pH (common
	// practice, no source).
	SpargeHottest  = 78.0
	RunningsLowest = 1.006
	RunningsPH     = 5.8
	// How far a beer may be from its aim in IBU, in IBU a point, and in colour in
	// EBC and as a share; for colour both must be passed, since 4 EBC is within
	// the doubt of a dark beer and 20 % within that of a pale one (common
	// practice, no source).
	RatioOffBy                  = 0.1
	ColourOffBy, ColourOffShare = 4.0, 0.20
	// hopsOpen and hopsSealed are how many months hops keep, open or warm, and
	// sealed and cold (a good keeper loses 15 to 30 % of its alpha in six months
	// at 20 °C: home-brewing suppliers' pages).
	hopsOpen, hopsSealed = 6.0, 24.0
	// How long yeast keeps without a starter (common practice, no source).
	liquidKeeps = 92 * 24 * time.Hour
	slurryKeeps = 14 * 24 * time.Hour
	// Pitching, in °C, where no card says, and how far above its card a yeast may
	// go in, or work while young (common practice, no source).
	coldestPitch, warmestPitch = 14.0, 24.0
	PitchedOverCard            = 3.0
	HotOverCard                = 2.0
	// FirstDay is how long a pitch can still be helped, YoungFor how long heat
	// does most harm (common practice, no source).
	FirstDay = 24 * time.Hour
	YoungFor = 72 * time.Hour
	// The ale rule is 0.75 to 1.0 million cells per mL and °P (home-brewing
	// magazines on pitching rates); half a million is common practice.
	PitchLow = 0.75
	// BegunBy is how many points show that fermentation has begun, SlowLook and
	// slowMend by when it should have (common practice, no source).
	BegunBy  = 3.0
	SlowLook = 36 * time.Hour
	// FallDoubt is U of the difference of two readings of one hydrometer, in
	// points: half a division each, rectangular.
	FallDoubt = 0.8
	// ChilledBy °C at chilledRate °C an hour, 3 °C in 12 hours, with chilledLeft
	// points left, drops the yeast too soon (common practice, no source).
	ChilledBy   = 3.0
	chilledRate = 0.25
	chilledLeft = 3.0
	// lastPoints is when air begins to harm: the last so many points (common
	// practice, no source).
	lastPoints = 10.0
	// cleanBefore is how long a vessel stays clean, LineDays a line in use (a
	// cask-quality body: 7 days; guidance in the United States: 14), and
	// freshlyFilled how long after filling a missing cleaning is still asked for
	// (common practice, no source).
	cleanBefore = 24 * time.Hour
	LineDays    = 7 * 24 * time.Hour
	// SettleFor is how long a container stands still before it is broached (a
	// brewing-supplies house's article on beer at the point of sale).
	SettleFor = 24 * time.Hour
	// Heat in the glass, °C: where it could be better, and where it is wrong (a
	// cask-quality body's ten tips, widened by common practice).
	ServeCold, ServeWarm = 10.0, 14.0
	// A party: pints in the first hour, in each later one, the most anybody is
	// reckoned for, and its hours where none are given (party-planning pages
	// disagree; the middle is common practice). pourable is the share of what is
	// racked that reaches a glass, pintsOff how well that is known.
	FirstHour          = 1.0
	MostPints          = 4.0
	UsualParty         = 3.0
	pourable, pintsOff = 0.87, 2.0
	// notFinished: see figures.Stability. Expected FG is near when the gravity is
	// within this many points of it.
	NearExpected = 2.0
	// FallsBy is how much gas still to come is worth a word, in vol: half a point.
	FallsBy = 0.25
	// WrongVolumeLook and wrongVolumeMend are how far, as shares, the volume
	// really primed may lie from the one the sugar was worked for.
	WrongVolumeLook = 0.05
	// overAim is how many volumes above the aim a beer fobs (common practice, no
	// source).
	overAim = 0.3
	// headspaceLow and HeadspaceHigh are shares of the capacity (common
	// practice, no source).
	HeadspaceHigh = 0.08
)
