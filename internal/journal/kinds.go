package journal

// The words that a Choice may have, by what they say. Each of these constants is
// in the one tag of some field of its type, and each word of such a tag is one of
// them: a test holds the two to each other.

// CardKind is what a card is of.
type CardKind string

// The kinds of cards.
const (
	CardMalt       CardKind = "malt"
	CardSugar      CardKind = "sugar"
	CardHop        CardKind = "hop"
	CardYeast      CardKind = "yeast"
	CardWater      CardKind = "water"
	CardVessel     CardKind = "vessel"
	CardInstrument CardKind = "instrument"
	CardStyle      CardKind = "style"
	CardTaster     CardKind = "taster"
	CardFruit      CardKind = "fruit"
	CardSalt       CardKind = "salt"
	CardFining     CardKind = "fining"
	CardCleaner    CardKind = "cleaner"
)

// VesselKind is what kind of vessel a card describes.
type VesselKind string

// The kinds of vessels. A soft bag swells and is then rigid, a cask is racked from
// through its bung, a pressure barrel is the plastic one with a valve in its cap.
const (
	Bottle         VesselKind = "bottle"
	SoftBag        VesselKind = "soft bag"
	PressureBarrel VesselKind = "pressure barrel"
	Cask           VesselKind = "cask"
	Keg            VesselKind = "keg"
	Bucket         VesselKind = "bucket"
	OtherVessel    VesselKind = "other"
)

// Material is what a vessel is made of.
type Material string

// The materials of vessels.
const (
	GlassMade   Material = "glass"
	PlasticMade Material = "plastic"
	SteelMade   Material = "steel"
	WoodMade    Material = "wood"
)

// GlassColour is the colour of a vessel's glass: what light it lets through.
type GlassColour string

// The colours of glass.
const (
	BrownGlass GlassColour = "brown"
	GreenGlass GlassColour = "green"
	ClearGlass GlassColour = "clear"
)

// Soundness is what a look at a container showed.
type Soundness string

// What a look at a container may show.
const (
	Sound          Soundness = "sound"
	Chipped        Soundness = "chipped"
	OneTrip        Soundness = "one-trip"
	NotForPressure Soundness = "not for pressure"
)

// Place is where something that is added goes.
type Place string

// The places that something may go into.
const (
	IntoMash      Place = "mash"
	IntoSparge    Place = "sparge"
	IntoCopper    Place = "copper"
	IntoLiquor    Place = "liquor"
	IntoFermenter Place = "fermenter"
	IntoPackage   Place = "package"
)

// ChlorineRemoval is how chlorine in the liquor was dealt with.
type ChlorineRemoval string

// The ways to be rid of chlorine.
const (
	NoChlorine       ChlorineRemoval = "none" // there was none
	ChlorineSulphite ChlorineRemoval = "sulphite"
	ChlorineBoiled   ChlorineRemoval = "boiled"
	ChlorineCarbon   ChlorineRemoval = "carbon"
	ChlorineStood    ChlorineRemoval = "stood"
)

// AcidKind is which acid was added.
type AcidKind string

// The acids of brewing.
const (
	Lactic       AcidKind = "lactic"
	Phosphoric   AcidKind = "phosphoric"
	Hydrochloric AcidKind = "hydrochloric"
	Sulphuric    AcidKind = "sulphuric"
	Citric       AcidKind = "citric"
)

// WaterSource is where a water comes from.
type WaterSource string

// The sources of water.
const (
	MainsWater    WaterSource = "mains"
	WellWater     WaterSource = "well"
	RainWater     WaterSource = "rain"
	BottledWater  WaterSource = "bottled"
	FilteredWater WaterSource = "filtered"
)

// Cereal is the grain that a malt or adjunct is of.
type Cereal string

// The cereals.
const (
	Barley      Cereal = "barley"
	Wheat       Cereal = "wheat"
	Oats        Cereal = "oats"
	Rye         Cereal = "rye"
	Maize       Cereal = "maize"
	Rice        Cereal = "rice"
	OtherCereal Cereal = "other"
)

// MaltClass is what a malt does in a grist.
type MaltClass string

// The classes of malt.
const (
	BaseMalt    MaltClass = "base"
	CrystalMalt MaltClass = "crystal"
	RoastMalt   MaltClass = "roast"
	AdjunctMalt MaltClass = "adjunct"
)

// RestMeans is how a rest of the mash was reached.
type RestMeans string

// The means of reaching a rest.
const (
	Infusion   RestMeans = "infusion"
	Decoction  RestMeans = "decoction"
	DirectHeat RestMeans = "heat"
)

// Fuel is what heats the copper.
type Fuel string

// The fuels.
const (
	Electric   Fuel = "electric"
	Induction  Fuel = "induction"
	MainsGas   Fuel = "mains gas"
	BottledGas Fuel = "bottled gas"
	Charcoal   Fuel = "charcoal"
	WoodFire   Fuel = "wood"
)

// HopForm is how hops come.
type HopForm string

// The forms of hops.
const (
	LeafHops   HopForm = "leaf"
	PelletHops HopForm = "pellet"
	HopOil     HopForm = "oil"
)

// Storage is how hops were kept.
type Storage string

// The ways to keep hops.
const (
	KeptFrozen Storage = "frozen"
	KeptCold   Storage = "cold"
	KeptCool   Storage = "cool"
	KeptWarm   Storage = "warm"
)

// YeastForm is how yeast comes.
type YeastForm string

// The forms of yeast.
const (
	DriedYeast  YeastForm = "dried"
	LiquidYeast YeastForm = "liquid"
	YeastSlurry YeastForm = "slurry"
)

// Settling is how a yeast falls.
type Settling string

// The ways in which yeast settles.
const (
	SettlesQuickly Settling = "quickly"
	SettlesFairly  Settling = "fairly"
	SettlesSlowly  Settling = "slowly"
)

// Transfer is whether beer was moved through air.
type Transfer string

// The ways to move beer.
const (
	MovedOpen   Transfer = "open"
	MovedClosed Transfer = "closed"
)

// GasKind is which gas a cylinder holds.
type GasKind string

// The gases. A mixed gas is of carbon dioxide and nitrogen.
const (
	CarbonDioxide GasKind = "co2"
	Nitrogen      GasKind = "nitrogen"
	MixedGas      GasKind = "mixed"
)

// Replacement is what comes into a container as beer is drawn.
type Replacement string

// What may take the place of beer: air, carbon dioxide at the air's own pressure,
// gas at the cylinder's setting, or nothing, which leaves what is there to expand.
const (
	ReplacedByAir      Replacement = "air"
	ReplacedByBreather Replacement = "breather"
	ReplacedByCylinder Replacement = "cylinder"
	ReplacedByNothing  Replacement = "nothing"
)

// Dispense is how beer comes out.
type Dispense string

// The ways of dispense. Poured is straight from a bottle.
const (
	HandPump     Dispense = "hand pump"
	Tap          Dispense = "tap"
	Gravity      Dispense = "gravity"
	PicnicTap    Dispense = "picnic tap"
	PouredByHand Dispense = "poured"
)

// Act is what a Deed did.
type Act string

// The deeds that no other key records.
const (
	Cleaned   Act = "cleaned"
	Rinsed    Act = "rinsed"
	Tested    Act = "tested"
	Vented    Act = "vented"
	Moved     Act = "moved"
	Roused    Act = "roused"
	ToppedUp  Act = "topped up"
	Chilled   Act = "chilled"
	Warmed    Act = "warmed"
	Dumped    Act = "dumped"
	Skimmed   Act = "skimmed"
	Fined     Act = "fined"
	Stirred   Act = "stirred"
	TiedIn    Act = "tied in"
	Squeezed  Act = "squeezed"
	Opened    Act = "opened"
	Burped    Act = "burped"
	Composted Act = "composted"
	Binned    Act = "binned"
)

// VentLength is how long a container was vented.
type VentLength string

// The lengths of a venting: until no more gas came, or opened and shut at once.
const (
	UntilQuiet VentLength = "quiet"
	ForAMoment VentLength = "moment"
)

// CleanerKind is what a cleaner is.
type CleanerKind string

// The kinds of cleaners.
const (
	Caustic      CleanerKind = "caustic"
	AcidCleaner  CleanerKind = "acid"
	Hypochlorite CleanerKind = "hypochlorite"
	Percarbonate CleanerKind = "percarbonate"
	Iodophor     CleanerKind = "iodophor"
	Detergent    CleanerKind = "detergent"
	OtherCleaner CleanerKind = "other"
)

// Measurand is what an instrument reads.
type Measurand string

// What instruments read.
const (
	OfGravity     Measurand = "gravity"
	OfBrix        Measurand = "brix"
	OfTemperature Measurand = "temperature"
	OfVolume      Measurand = "volume"
	OfWeight      Measurand = "weight"
	OfPH          Measurand = "ph"
	OfPressure    Measurand = "pressure"
)

// PrivatePart is something that a journal may keep off its site.
type PrivatePart string

// What may be kept off the site.
const (
	PrivateTasters PrivatePart = "tasters"
	PrivateCosts   PrivatePart = "costs"
	PrivatePhotos  PrivatePart = "photos"
	PrivateParty   PrivatePart = "party"
	PrivateNothing PrivatePart = "nothing"
)
