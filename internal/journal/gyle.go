package journal

import (
	"cmp"

	q "gylebook/internal/quantity"
)

// Gyle is one entry: one brewing of beer. Its struct tags, with those of the
// types below it, are the vocabulary of entries: the reader, the words command,
// the JSON Schema and the glossary are all made from them.
//
// The tags: key is the word in the entry; says is its meaning; card names the
// kind of card that a Name refers to; one lists the words that a Choice may
// have; none says what the word none means where it may stand for a quantity;
// least is the least whole number; needed marks a key that its map cannot be
// without; doubt marks a flag that counts as true where it cannot be read; private is
// the word of the settings that keeps it off the site; eg is an example, with the
// unit that a bare number there is likely to have; also lists older or looser
// spellings of the key that the reader suggests from, never accepts.
type Gyle struct {
	Entry `key:",inline"`

	Number    Whole       `key:"gyle" says:"its number, unique in the journal" least:"1" needed:"yes" also:"brew|batch|number"`
	Beer      Text        `key:"beer" says:"the beer's name" needed:"yes" also:"name|title|recipe"`
	Style     Name        `key:"style" card:"style" says:"a style card, or one of the built-in style names" also:"beer_style"`
	Brewed    Moment      `key:"brewed" says:"the day it was brewed, or is to be" also:"date|brewed_on|brew_day|brew_date|brewday" eg:"2026-03-07"`
	Follows   Whole       `key:"follows" says:"the gyle that this one revises" least:"1" also:"revises|after" eg:"11"`
	Formerly  []Whole     `key:"formerly" says:"old numbers: their addresses lead here" least:"1" eg:"13"`
	DrawnFrom []Drawn     `key:"drawn_from" says:"a split (one) or a blend (several), instead of a mash"`
	Tags      []Text      `key:"tags" says:"words to find it by"`
	Summary   Text        `key:"summary" says:"one line for lists and the feed"`
	Cover     Text        `key:"cover" private:"photos" says:"the picture for the top of the page"`
	Draft     Flag        `key:"draft" says:"true: shown while writing, never published" doubt:"yes"`
	Party     Party       `key:"party" private:"party" says:"the occasion it is brewed for"`
	Aim       Aim         `key:"aim" says:"what it should come out as" also:"target|targets|plan"`
	Liquor    Liquor      `key:"liquor" says:"the brewing water and what was done to it" also:"water"`
	Grist     []Grain     `key:"grist" says:"malts, adjuncts, sugars and extracts, in the order they are weighed" also:"malts|grain|grains|fermentables"`
	Mash      Mash        `key:"mash" says:"how it was mashed"`
	Sparge    Sparge      `key:"sparge" says:"how the goods were rinsed"`
	Copper    Copper      `key:"copper" says:"the boil, with volume and gravity on both sides of it" also:"kettle|boil"`
	Hops      []Hop       `key:"hops" says:"each addition: boiled, steeped or dry, one of them" also:"hop_schedule|hop_additions"`
	Added     []Addition  `key:"added" says:"fruit, juice, spice, wood and anything else" also:"fruit|additions|adjuncts"`
	Finings   []Fining    `key:"finings" says:"what was used to clear it"`
	Yeast     []Pitch     `key:"yeast" says:"what was pitched, when and how warm"`
	Fermenter Fermenter   `key:"fermenter" says:"what went into the fermenter, and how strong" also:"fermentor|fv"`
	Readings  []Reading   `key:"readings" says:"gravity, temperature, pH, each with its time" also:"gravities|log|fermentation_log|gravity_readings"`
	Logger    Text        `key:"readings_from" says:"a logger's CSV file beside the entry; its first row names the columns: when, and gravity, plato, brix, temp, ph or pressure, with their units if wished, as temp (F)" eg:"logger.csv"`
	NotRead   []Where     // the keys that were written and could not be read, in order
	Asides    []Text      // a note, or who did it (by), beside a part of a list that has no such key
	Log       *Log        // what readings_from names, nil until Document.ReadLogOf has read it
	Racked    Racked      `key:"racked" says:"off the yeast: when, how much, how warm" also:"transferred"`
	Priming   Priming     `key:"priming" says:"sugar or wort for condition, for the whole gyle; leave the weight out and it is worked out" also:"primed|primings|priming_sugar"`
	Packages  []Package   `key:"packages" says:"the containers it went into" also:"containers|vessels|bottled|kegged"`
	Condition Conditioned `key:"conditioned" says:"where it stood to condition"`
	Cellared  Cellared    `key:"cellared" says:"where it is kept cool"`
	Served    Served      `key:"served" says:"how it is served"`
	Poured    []Poured    `key:"poured" says:"what was drawn, and when"`
	Done      []Deed      `key:"done" says:"what was done, when: cleaned, vented, moved, roused, dumped and so on"`
	Tastings  []Tasting   `key:"tastings" says:"what tasters found" also:"tasted|verdicts"`
	Photos    []Photo     `key:"photos" private:"photos" says:"pictures, each with words for those who cannot see it"`
	Costs     []Cost      `key:"costs" private:"costs" says:"what was paid"`
	Label     Label       `key:"label" says:"what the label states"`
	Next      []Text      `key:"next" says:"what to change next time"`
	Accept    []Accepted  `key:"accept" says:"findings that the brewer has seen and lives with, each with a reason"`
}

// Drawn is beer taken from another gyle, for a split or a blend.
type Drawn struct {
	Where  `key:",where"`
	Gyle   Whole           `key:"gyle" says:"the gyle it was taken from" least:"1" eg:"9"`
	Volume Value[q.Volume] `key:"volume" says:"how much"`
	On     Moment          `key:"on" says:"when" also:"when|date"`
}

// Party is an occasion to be ready for.
type Party struct {
	Where    `key:",where"`
	On       Moment          `key:"on" says:"the day"`
	Guests   Value[q.Number] `key:"guests" says:"how many will drink"`
	Hours    Value[q.Number] `key:"hours" says:"how long it lasts, in hours" eg:"4"`
	Occasion Text            `key:"occasion" says:"what it is"`
}

// Aim is what the beer should come out as.
type Aim struct {
	Where      `key:",where"`
	Volume     Value[q.Volume]      `key:"volume" label:"in the fermenter" says:"beer in the fermenter"`
	OG         Value[q.Gravity]     `key:"og" label:"original gravity" says:"original gravity"`
	FG         Value[q.Gravity]     `key:"fg" label:"final gravity" says:"final gravity"`
	ABV        Value[q.Percent]     `key:"abv" label:"alcohol" says:"alcohol by volume"`
	Bitterness Value[q.Bitterness]  `key:"bitterness" label:"bitterness" says:"bitterness" also:"ibu"`
	Colour     Value[q.Colour]      `key:"colour" label:"colour" says:"colour" also:"color|ebc|srm"`
	Condition  Value[q.Carbonation] `key:"condition" label:"condition" says:"carbon dioxide in the glass" also:"carbonation|co2"`
}

// Liquor is the brewing water.
type Liquor struct {
	Where    `key:",where"`
	Water    Name                    `key:"water" card:"water" says:"a water card, with its ions"`
	Volume   Value[q.Volume]         `key:"volume" says:"all the liquor used"`
	Salts    []Salt                  `key:"salts" says:"what was added to it"`
	Acids    []Acid                  `key:"acids" says:"acid added to it"`
	Chlorine Choice[ChlorineRemoval] `key:"chlorine" one:"none|sulphite|boiled|carbon|stood" says:"how chlorine was dealt with; none: there was none"`
}

// Salt is one addition to the liquor.
type Salt struct {
	Where  `key:",where"`
	Salt   Name          `key:"salt" card:"salt" says:"which salt" also:"name"`
	Weight Value[q.Mass] `key:"weight" says:"how much" also:"amount|mass" eg:"5 g"`
	Into   Choice[Place] `key:"into" one:"mash|sparge|copper|liquor" says:"where it went"`
}

// Acid is one addition of acid to the liquor.
type Acid struct {
	Where    `key:",where"`
	Acid     Choice[AcidKind] `key:"acid" one:"lactic|phosphoric|hydrochloric|sulphuric|citric" says:"which acid"`
	Strength Value[q.Percent] `key:"strength" says:"by weight, as on the bottle" eg:"80 %"`
	Volume   Value[q.Volume]  `key:"volume" says:"how much" eg:"8 mL"`
	Into     Choice[Place]    `key:"into" one:"mash|sparge|copper|liquor" says:"where it went"`
}

// Grain is one line of the grist. Exactly one of its first five keys names it.
type Grain struct {
	Where      `key:",where"`
	Malt       Name                `key:"malt" card:"malt" says:"a malt"`
	Adjunct    Name                `key:"adjunct" card:"malt" says:"flakes, torrified or raw grain, oat husks"`
	Sugar      Name                `key:"sugar" card:"sugar" says:"a sugar"`
	Syrup      Name                `key:"syrup" card:"sugar" says:"malt extract or another syrup"`
	Weight     Value[q.Mass]       `key:"weight" says:"how much" also:"amount|mass"`
	Colour     Value[q.Colour]     `key:"colour" says:"its colour, from the maker" also:"color"`
	Extract    Value[q.Extract]    `key:"extract" says:"what it can give: Ldeg/kg, or % where 100 % is pure sugar's 385"`
	Bitterness Value[q.Bitterness] `key:"bitterness" says:"for a hopped syrup: what it brings to the whole gyle"`
	Into       Choice[Place]       `key:"into" one:"mash|copper|fermenter|package" says:"where it went; malt and adjuncts are mashed unless it says otherwise, sugars and syrups go into the copper"`
	Package    Whole               `key:"package" says:"into which of the packages, counted from 0" eg:"0"`
	When       Moment              `key:"when" says:"when it went in, if later than brew day"`
}

// Mash is how the grist was mashed.
type Mash struct {
	Where   `key:",where"`
	Started Moment               `key:"started" says:"when it was mashed in" also:"when|on"`
	Liquor  Value[q.Volume]      `key:"liquor" says:"strike liquor" also:"water|volume|strike_water" eg:"12 L"`
	Strike  Value[q.Temperature] `key:"strike" says:"the liquor's heat before the grist went in" also:"strike_temp" eg:"73 C"`
	GrainAt Value[q.Temperature] `key:"grain_at" says:"the grist's heat before it went in" also:"grain_temp" eg:"16 C"`
	Rests   []Rest               `key:"rests" says:"each rest: how warm, how long" also:"steps"`
	PH      Value[q.Acidity]     `key:"ph" says:"of a cooled sample"`

	Vessel   Name                 `key:"vessel" card:"vessel" says:"the mash tun; where its card says what heat it takes, the strike reckons with it" also:"tun|in" eg:"mash tun"`
	VesselAt Value[q.Temperature] `key:"vessel_at" says:"how warm the tun was before the liquor went in; as cold as the grist unless it says otherwise" also:"tun_at|tun_temp" eg:"40 C"`
}

// Rest is one temperature of the mash.
type Rest struct {
	Where    `key:",where"`
	At       Value[q.Temperature] `key:"at" says:"how warm" also:"temp|temperature"`
	Aimed    Value[q.Temperature] `key:"aimed" says:"how warm it was meant to be, where it came out otherwise"`
	For      Value[q.Duration]    `key:"for" says:"how long" also:"time|duration|minutes"`
	By       Choice[RestMeans]    `key:"by" one:"infusion|decoction|heat" says:"how it was reached, after the first"`
	Liquor   Value[q.Volume]      `key:"liquor" says:"for an infusion: how much" eg:"5 L"`
	LiquorAt Value[q.Temperature] `key:"liquor_at" says:"for an infusion: how hot" also:"at_temp|infusion_at" eg:"95 C"`
}

// Sparge is how the goods were rinsed.
type Sparge struct {
	Where        `key:",where"`
	Liquor       Value[q.Volume]      `key:"liquor" says:"how much" also:"water|volume" eg:"15 L"`
	At           Value[q.Temperature] `key:"at" says:"how hot" also:"temp|temperature" eg:"76 C"`
	LastRunnings Value[q.Gravity]     `key:"last_runnings" says:"the gravity of the last run-off"`
	PH           Value[q.Acidity]     `key:"ph" says:"of the last run-off, cooled"`
}

// Copper is the boil. Boiled is a time, or the word none for raw ale.
type Copper struct {
	Where   `key:",where"`
	Before  Measured          `key:"before" says:"wort before the boil" also:"pre_boil"`
	Boiled  Value[q.Duration] `key:"boiled" none:"raw ale, not boiled" says:"how long" also:"boil|time|boil_time|length"`
	Started Moment            `key:"started" says:"when it came to the boil"`
	After   Measured          `key:"after" says:"wort after the boil" also:"post_boil"`
	Fuel    Choice[Fuel]      `key:"fuel" one:"electric|induction|mains gas|bottled gas|charcoal|wood" says:"what heats it"`
	Indoors Flag              `key:"indoors" says:"whether it stands in a room"`
}

// Measured is a volume with its gravity.
type Measured struct {
	Where    `key:",where"`
	Volume   Value[q.Volume]      `key:"volume" says:"how much, as at 20 °C unless temp says how hot it was read"`
	Gravity  Value[q.Gravity]     `key:"gravity" says:"how strong" also:"og|sg|plato"`
	Temp     Value[q.Temperature] `key:"temp" says:"the wort's heat when the volume was read"`
	SampleAt Value[q.Temperature] `key:"sample_at" says:"the sample's heat when the gravity was read" eg:"20 C"`
	With     Name                 `key:"with" card:"instrument" says:"the instrument, if not the usual one"`
}

// Hop is one addition of hops.
type Hop struct {
	Where   `key:",where"`
	Hop     Name                 `key:"hop" card:"hop" says:"the variety" also:"name|variety"`
	Weight  Value[q.Mass]        `key:"weight" says:"how much" also:"amount|mass" eg:"25 g"`
	Alpha   Value[q.Percent]     `key:"alpha" says:"alpha acids, as on the packet" also:"aa|alpha_acid|alpha_acids" eg:"5.1 %"`
	Boiled  Value[q.Duration]    `key:"boiled" says:"time in the boil"`
	Steeped Value[q.Duration]    `key:"steeped" says:"time in hot wort after the boil" eg:"20 min"`
	Dry     Value[q.Duration]    `key:"dry" says:"time in the beer" also:"dry_hop|dry_hopped" eg:"4 days"`
	At      Value[q.Temperature] `key:"at" says:"how hot it was steeped, or how warm it stood dry" also:"temp|temperature" eg:"80 C"`
	Form    Choice[HopForm]      `key:"form" one:"leaf|pellet|oil" says:"leaf unless it says otherwise" also:"type"`
	Into    Choice[Place]        `key:"into" one:"mash|copper|fermenter|package" says:"where it went"`
	Package Whole                `key:"package" says:"into which of the packages, counted from 0" eg:"0"`
	When    Moment               `key:"when" says:"when it went in, if later than brew day" also:"on|date"`
	Crop    Whole                `key:"crop" says:"the year it was picked" eg:"2025"`
	Opened  Moment               `key:"opened" says:"when the packet was opened"`
	Kept    Choice[Storage]      `key:"kept" one:"frozen|cold|cool|warm" says:"how it was kept"`
}

// Addition is anything else that went in.
type Addition struct {
	Where    `key:",where"`
	Fruit    Name                   `key:"fruit" card:"fruit" says:"a fruit"`
	Juice    Name                   `key:"juice" card:"fruit" says:"a juice"`
	Spice    Text                   `key:"spice" says:"a spice or herb"`
	Wood     Text                   `key:"wood" says:"chips, staves or a barrel"`
	Other    Text                   `key:"other" says:"anything else: coffee, cocoa, yeast food; lactose is a sugar, and a line of the grist"`
	Liquor   Text                   `key:"liquor" says:"water put into beer, and what was done to it" also:"water|topped_up" eg:"boiled water"`
	Wort     Text                   `key:"wort" says:"wort put into beer, and which: speise, first runnings, krausen" also:"speise|krausen|kraeusen" eg:"speise"`
	Weight   Value[q.Mass]          `key:"weight" says:"how much" also:"amount|mass" eg:"250 g"`
	Volume   Value[q.Volume]        `key:"volume" says:"how much, for a liquid" eg:"500 mL"`
	Gravity  Value[q.Gravity]       `key:"gravity" says:"of that wort" also:"og|sg"`
	Working  Flag                   `key:"working" says:"whether that wort was fermenting"`
	Sugar    Value[q.Percent]       `key:"sugar" says:"sugar in it, by weight" eg:"8 %"`
	Caffeine Value[q.Concentration] `key:"caffeine" says:"caffeine it brings, in the finished beer" eg:"60 mg/L"`
	Into     Choice[Place]          `key:"into" one:"mash|copper|fermenter|package" says:"where it went"`
	Package  Whole                  `key:"package" says:"into which of the packages, counted from 0" eg:"0"`
	When     Moment                 `key:"when" says:"when" also:"on|date|time"`
}

// NamesNothing tells whether nobody can say what went in.
func (a *Addition) NamesNothing() bool {
	return a.Called() == "" && !a.Gravity.Written() && !a.Sugar.Written()
}

// Called is what went in, as the entry names it; "" where it does not.
func (a *Addition) Called() string {
	return cmp.Or(a.Fruit.Name, a.Juice.Name, a.Spice.Text, a.Wood.Text, a.Other.Text, a.Liquor.Text, a.Wort.Text)
}

// Fining is what was used to clear the beer.
type Fining struct {
	Where   `key:",where"`
	With    Name                 `key:"with" card:"fining" says:"which" also:"fining|name"`
	Weight  Value[q.Mass]        `key:"weight" says:"how much, if dry" also:"amount" eg:"5 g"`
	Volume  Value[q.Volume]      `key:"volume" says:"how much, if liquid" eg:"180 mL"`
	Into    Choice[Place]        `key:"into" one:"copper|fermenter|package" says:"where it went"`
	Package Whole                `key:"package" says:"into which of the packages, counted from 0" eg:"0"`
	When    Moment               `key:"when" says:"when" also:"on|date|time"`
	At      Value[q.Temperature] `key:"at" says:"the beer's heat" eg:"13 C"`
	Made    Moment               `key:"made" says:"when the finings were made or opened"`
	KeptAt  Value[q.Temperature] `key:"kept_at" says:"how warm they were kept" eg:"5 C"`
}

// Pitch is yeast added.
type Pitch struct {
	Where    `key:",where"`
	Yeast    Name                 `key:"yeast" card:"yeast" says:"which yeast" also:"name|strain"`
	Sold     Choice[YeastForm]    `key:"sold" one:"dried|liquid|slurry" says:"how it came" also:"type|form"`
	Weight   Value[q.Mass]        `key:"weight" says:"how much, if dried" also:"amount|mass" eg:"11 g"`
	Volume   Value[q.Volume]      `key:"volume" says:"how much, if liquid or slurry" eg:"300 mL"`
	Cells    Value[q.Cells]       `key:"cells" says:"live cells, if counted or stated" also:"count"`
	Packed   Moment               `key:"packed" says:"when it was packed or harvested" also:"made|produced|manufactured|harvested"`
	BestBy   Moment               `key:"best_by" says:"the date on the packet" also:"expires|expiry|use_by"`
	FromGyle Whole                `key:"from_gyle" says:"the gyle it was harvested from" least:"1" eg:"11"`
	Into     Choice[Place]        `key:"into" one:"fermenter|package" says:"where it went; into the fermenter unless it says otherwise"`
	Package  Whole                `key:"package" says:"into which of the packages, counted from 0" eg:"0"`
	Pitched  Moment               `key:"pitched" says:"when" also:"when|on|date"`
	At       Value[q.Temperature] `key:"at" says:"the wort's heat" also:"temp|temperature|pitch_temp" eg:"18 C"`
	Starter  Starter              `key:"starter" says:"the starter it was grown in, if one was"`
}

// Starter is a yeast starter.
type Starter struct {
	Where   `key:",where"`
	Volume  Value[q.Volume]  `key:"volume" says:"how much" also:"size" eg:"1.5 L"`
	Gravity Value[q.Gravity] `key:"gravity" says:"how strong" also:"og|sg"`
	Hours   Value[q.Number]  `key:"hours" says:"how long it grew" eg:"24"`
	Stirred Flag             `key:"stirred" says:"whether it was stirred" also:"stir_plate"`
}

// Fermenter is what went into the fermenter.
type Fermenter struct {
	Where     `key:",where"`
	Vessel    Name                 `key:"vessel" card:"vessel" says:"which vessel" also:"name|in"`
	Volume    Value[q.Volume]      `key:"volume" says:"wort in it" also:"size"`
	Gravity   Value[q.Gravity]     `key:"gravity" says:"how strong, before the yeast" also:"og|sg"`
	Temp      Value[q.Temperature] `key:"temp" says:"the wort's heat" also:"temperature" eg:"18 C"`
	SampleAt  Value[q.Temperature] `key:"sample_at" says:"the sample's heat when the gravity was read" eg:"20 C"`
	With      Name                 `key:"with" card:"instrument" says:"the instrument, if not the usual one"`
	Topped    Value[q.Volume]      `key:"topped_up" says:"liquor added after the boil" also:"topup|liquored_back" eg:"4 L"`
	Airlocked Flag                 `key:"airlocked" says:"whether the lid is tight"`
	Spunding  Spunding             `key:"spunding" says:"a relief valve on it that holds pressure: at what setting, since when, until when" also:"spund|spunded|spunding_valve|relief|relief_valve|pressure_relief|held_at"`
	Room      Value[q.Volume]      `key:"room" says:"the air of the room it works in, such as 20 m3" eg:"20 m3"`
	Aired     Flag                 `key:"aired" says:"whether the room's air moves"`
}

// Spunding is a relief valve that holds pressure in a closed vessel while beer
// works in it, and lets out what is more.
type Spunding struct {
	Where `key:",where"`
	Set   Value[q.Pressure] `key:"set" says:"the pressure that it holds, above the air's" also:"pressure|at|bar|psi" eg:"0.8 bar"`
	From  Moment            `key:"from" says:"since when; since the vessel was filled unless it says otherwise" also:"on|when"`
	To    Moment            `key:"to" says:"until when; as long as the beer is in it unless it says otherwise" also:"until"`
}

// Reading is a timed reading of the beer.
type Reading struct {
	Where    `key:",where"`
	When     Moment               `key:"when" says:"when" also:"on|date|time"`
	Gravity  Value[q.Gravity]     `key:"gravity" says:"a hydrometer's reading" also:"sg|fg"`
	Brix     Value[q.Brix]        `key:"brix" says:"a refractometer's reading" also:"bx"`
	Temp     Value[q.Temperature] `key:"temp" says:"the beer's heat" also:"temperature|at" eg:"19 C"`
	SampleAt Value[q.Temperature] `key:"sample_at" says:"the sample's heat, where it was measured at another" eg:"20 C"`
	PH       Value[q.Acidity]     `key:"ph" says:"of a cooled sample, its gas shaken out" also:"pH"`
	Pressure Value[q.Pressure]    `key:"pressure" says:"a gauge on the container"`
	Package  Whole                `key:"package" says:"which of the packages it is of, counted from 0" eg:"0"`
	With     Name                 `key:"with" card:"instrument" says:"the instrument, if not the usual one"`
	Note     Text                 `key:"note" says:"what was seen, smelt or done" also:"notes|comment|comments|text"`
}
