package assay

// What several rooms hold a figure against. A vessel's, yeast's or style's card
// outranks the ones it speaks of; then come the settings, for those that have a key of
// theirs (see Habits). Nothing that keeps people safe is among these.

// CommonPractice is the source of what brewers do and nobody has published.
const CommonPractice = "common practice, no source"

// Sources that several limits and findings have.
const (
	BarChecklist  = "a cask-quality body's ten tips and its bar checklist"
	MashArticle   = "a brewing-supplies house's article on mashing regimes"
	PitchingRates = "home-brewing magazines on pitching rates"
	SalesArticle  = "a brewing-supplies house's article on beer at the point of sale"
	PartyPages    = "party-planning pages disagree; the middle is common practice"

	hopKeeping = "a good keeper loses 15 to 30 % of its alpha in six months at 20 °C: home-brewing suppliers' pages"
	mashEnds   = MashArticle + ", with limits that are common practice"
)

var limits Limits

// The mash and the run-off.
var (
	MashLow        = limits.Add("mash-too-cool", 62, "°C", "heat under which malt makes no beer", mashEnds).MovedBy("mash_heat")
	MashHigh       = limits.Add("mash-too-hot", 70, "°C", "heat over which malt makes no beer", mashEnds).MovedBy("mash_heat")
	MashPHLow      = limits.Add("mash-ph-low", 5.1, "pH", "pH of a cooled sample of the mash under which to look", mashEnds).MovedBy("mash_ph")
	MashPHHigh     = limits.Add("mash-ph-high", 5.6, "pH", "pH of a cooled sample of the mash over which to look", mashEnds).MovedBy("mash_ph")
	MashPHHighest  = limits.Add("mash-ph-highest", 5.8, "pH", "pH of a cooled sample of the mash over which to act", mashEnds)
	SpargeHottest  = limits.Add("sparge-hottest", 78, "°C", "heat of sparge liquor that draws tannin", CommonPractice)
	RunningsLowest = limits.Add("runnings-lowest", 1.006, "SG", "gravity of run-off that draws tannin", CommonPractice)
	RunningsPH     = limits.Add("runnings-ph", 5.8, "pH", "pH of run-off that draws tannin", CommonPractice)
	YieldLow       = limits.Add("yield-low", 55, "%", "brewhouse yields under it are slips more often than not", CommonPractice).MovedBy("yield")
	YieldHigh      = limits.Add("yield-high", 90, "%", "brewhouse yields over it are slips more often than feats", CommonPractice).MovedBy("yield")
	ClosesWithin   = limits.Add("closes-within", 1, "L", "volume of a gyle that may go astray", CommonPractice)
)

// The recipe. For colour both must be passed: 4 EBC is within the doubt of a dark
// beer, and 20 % within that of a pale one.
var (
	RatioOffBy     = limits.Add("ratio-off", 0.1, "", "bitterness to gravity this far from its aim", CommonPractice)
	ColourOffBy    = limits.Add("colour-off", 4, "EBC", "colour this far from its aim", CommonPractice)
	ColourOffShare = limits.Add("colour-off-share", 20, "%", "colour this share of its aim away", CommonPractice)
)

// What was kept.
var (
	HopsOpen    = limits.Add("hops-open", 6, "months", "how long hops keep, open or warm", hopKeeping).MovedBy("opened_hops_keep")
	HopsSealed  = limits.Add("hops-sealed", 24, "months", "how long hops keep, sealed and cold", hopKeeping)
	LiquidKeeps = limits.Add("liquid-yeast-keeps", 3, "months", "how long liquid yeast keeps without a starter", CommonPractice)
	SlurryKeeps = limits.Add("slurry-keeps", 14, "days", "how long slurry keeps without a starter", CommonPractice)
)

// Yeast and fermentation.
var (
	PitchCoolest    = limits.Add("pitch-coolest", 14, "°C", "heat under which ale yeast starts slowly, where no card says", CommonPractice).MovedBy("works_at")
	PitchWarmest    = limits.Add("pitch-warmest", 24, "°C", "heat over which ale yeast makes solvent, where no card says", CommonPractice).MovedBy("works_at")
	PitchedOverCard = limits.Add("pitched-over-card", 3, "°C", "how far above its card a yeast may go in", CommonPractice)
	HotOverCard     = limits.Add("hot-over-card", 2, "°C", "how far above its card a yeast may work while young", CommonPractice)
	FirstDay        = limits.Add("first-day", 24, "hours", "how long after pitching a pitch can still be helped", CommonPractice)
	YoungFor        = limits.Add("young-for", 72, "hours", "how long after pitching heat does most harm", CommonPractice)
	PitchLow        = limits.Add("pitch-low", 0.75, "million cells per mL and °P", "the least that the rule for ale asks for", PitchingRates)
	PitchEnough     = limits.Add("pitch-enough", 1, "million cells per mL and °P", "the most that the rule for ale asks for, enough beyond doubt", PitchingRates)
	BegunBy         = limits.Add("begun-by", 3, "points", "fall that shows that fermentation has begun", CommonPractice)
	SlowLook        = limits.Add("slow-look", 36, "hours", "time after pitching by which it should have begun", CommonPractice)
	ChilledBy       = limits.Add("chilled-by", 3, "°C", "fall of the heat that sends yeast to sleep", CommonPractice)
	ChilledRate     = limits.Add("chilled-rate", 0.25, "°C/h", "how fast that fall must be to drop the yeast too soon", CommonPractice)
	ChilledLeft     = limits.Add("chilled-left", 3, "points", "still to fall when a chill drops the yeast too soon", CommonPractice)
	LastPoints      = limits.Add("last-points", 10, "points", "the last of the fall, in which air begins to harm", CommonPractice)
	NearExpected    = limits.Add("near-expected", 2, "points", "how near to the final gravity to expect a gravity counts as at it", CommonPractice)
)

// FallDoubt is U of the difference of two readings of one hydrometer, in points: half
// a division each, rectangular.
const FallDoubt = 0.8

// The cellar.
var (
	ReadingsEvery   = limits.Add("readings-every", 72, "hours", "how long a fermentation may go unread after its second day", CommonPractice).MovedBy("readings_every")
	CleanFor        = limits.Add("clean-for", 24, "hours", "how long a vessel stays clean", CommonPractice).MovedBy("clean_for")
	LinesEvery      = limits.Add("line-days", 7, "days", "how long a line may be in use after it was cleaned", BarChecklist+"; guidance in the United States: 14").MovedBy("lines_cleaned_every")
	SettleFor       = limits.Add("settle-for", 24, "hours", "how long a container stands still before it is broached", SalesArticle).MovedBy("settle_for")
	ServeCold       = limits.Add("serve-cold", 10, "°C", "heat in the glass under which it could be better", BarChecklist+", widened by common practice").MovedBy("serve_at")
	ServeWarm       = limits.Add("serve-warm", 14, "°C", "heat in the glass over which it could be better", BarChecklist+", widened by common practice").MovedBy("serve_at")
	FallsBy         = limits.Add("falls-by", 0.25, "vol", "gas still to come that is worth a word: half a point", CommonPractice)
	WrongVolumeLook = limits.Add("wrong-volume-look", 5, "%", "how far the volume primed may lie from the one the sugar was worked for", CommonPractice)
	OverAim         = limits.Add("over-aim", 0.3, "vol", "gas above the aim at which beer fobs", CommonPractice).MovedBy("condition_within")
	HeadspaceHigh   = limits.Add("headspace-high", 8, "%", "room above the beer that leaves air in it", CommonPractice)
)

// The party, and what there is to pour for it.
var (
	FirstHour  = limits.Add("party-first-hour", 1, "UK pints", "what a guest drinks in the first hour", PartyPages)
	UsualParty = limits.Add("party-hours", 3, "hours", "length of a party that says nothing of it", PartyPages)
	MostPints  = limits.Add("party-most", 4, "UK pints", "the most that a guest is reckoned for", PartyPages).MovedBy("pints_each")
	LossLow    = limits.Add("loss-low", 1, "L", "the least that usually stays in a fermenter when the beer is racked", CommonPractice)
	LossHigh   = limits.Add("loss-high", 2, "L", "the most that usually stays in a fermenter when the beer is racked", CommonPractice)
	pourable   = limits.Add("pourable", 87, "%", "share of what is racked that reaches a glass", CommonPractice)
)

// UsualLoss is the middle of what stays in a fermenter, in litres.
func UsualLoss() float64 { return (LossLow.Number + LossHigh.Number) / 2 }

// pintsOff is how well the pints to pour are known, as a ±.
const pintsOff = 2.0
