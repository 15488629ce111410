package journal

import (
	"cmp"
	"time"

	"gylebook/internal/quantity"
)

// Settings is the journal's index.md: what holds for all of it, and the home
// page's words.
type Settings struct {
	Entry `key:",inline"`

	Title       Text                        `key:"journal" says:"the journal's title" needed:"yes" also:"title|name"`
	Keeper      Text                        `key:"keeper" says:"who keeps it, as published"`
	Address     Text                        `key:"address" says:"the public address of the site, which may have a sub-path" also:"url|base_url" eg:"https://beer.example/log/"`
	Language    Text                        `key:"language" says:"the language tag of the words, such as en-GB" also:"lang" eg:"en-GB"`
	TimeZone    Text                        `key:"time_zone" says:"where its clock stands, such as Europe/London; UTC unless it says otherwise" also:"timezone|zone" eg:"Europe/London"`
	Units       Units                       `key:"units" says:"metric, uk or us; or one for each kind of quantity"`
	Currency    Text                        `key:"currency" says:"three letters, such as GBP" eg:"GBP"`
	Instruments Instruments                 `key:"instruments" says:"the instrument used unless a reading says otherwise"`
	Ignore      []Text                      `key:"ignore" says:"files to pass over, as patterns such as drafts/*.md" eg:"drafts/*.md"`
	Keep        []Text                      `key:"keep" says:"files in the site folder that are not ours to touch, such as CNAME" eg:"CNAME"`
	Copyright   Text                        `key:"copyright" says:"what to print under every page"`
	Private     []Choice[PrivatePart]       `key:"private" one:"tasters|costs|photos|party|nothing" says:"what is never published; tasters and costs unless it says otherwise"`
	Dogs        Flag                        `key:"dogs" says:"whether a dog lives there, for the sake of spent hops"`
	Vegan       Flag                        `key:"vegan" says:"whether guests need vegan beer pointed out"`
	Altitude    Value[quantity.Height]      `key:"altitude" says:"how high above the sea the beer stands: the air weighs less there, and a gauge of a given reading holds less gas" also:"elevation|height|height_above_sea" eg:"450 m"`
	AirPressure Value[quantity.AirPressure] `key:"air_pressure" says:"the air's own pressure there, as a barometer shows it that is not corrected to sea level; goes before altitude" also:"barometer|ambient|ambient_pressure|atmospheric_pressure" eg:"95 kPa"`
	Limits      Limits                      `key:"limits" says:"your own limits, where warnings of habit and taste begin; the examples of its keys are what holds without them"`

	// Zone is the time zone that TimeZone names.
	Zone *time.Location

	// privateUnread says that some of Private could not be read.
	privateUnread bool
}

// Units is the units that pages are written in. The short form is one word for
// all of it.
type Units struct {
	Where       `key:",where"`
	All         Choice[quantity.System] `key:",short" one:"metric|uk|us"`
	Volume      Choice[quantity.System] `key:"volume" one:"metric|uk|us" says:"litres, UK gallons or US gallons"`
	Weight      Choice[quantity.System] `key:"weight" one:"metric|uk|us" says:"grams, or pounds and ounces"`
	Temperature Choice[quantity.System] `key:"temperature" one:"metric|uk|us" says:"°C or °F"`
	Pressure    Choice[quantity.System] `key:"pressure" one:"metric|uk|us" says:"bar or psi"`
	Colour      Choice[quantity.System] `key:"colour" one:"metric|uk|us" says:"EBC or SRM"`
}

// Spelling is how the units have quantities written: each kind by its own choice,
// else by the one for all, else in metric units. A choice that could not be
// read counts as not written.
func (u Units) Spelling() quantity.Spelling {
	choose := func(one Choice[quantity.System]) quantity.System {
		return cmp.Or(one.Word, u.All.Word, quantity.Metric)
	}
	return quantity.Spelling{
		Volume: choose(u.Volume), Weight: choose(u.Weight), Temperature: choose(u.Temperature),
		Pressure: choose(u.Pressure), Colour: choose(u.Colour),
	}
}

// Instruments names the usual instrument for each kind of reading.
type Instruments struct {
	Where       `key:",where"`
	Gravity     Name `key:"gravity" card:"instrument" says:"for gravity"`
	Brix        Name `key:"brix" card:"instrument" says:"for Brix"`
	Temperature Name `key:"temperature" card:"instrument" says:"for heat"`
	Volume      Name `key:"volume" card:"instrument" says:"for volumes"`
	Weight      Name `key:"weight" card:"instrument" says:"for weights"`
	PH          Name `key:"ph" card:"instrument" says:"for pH"`
	Pressure    Name `key:"pressure" card:"instrument" says:"for pressure"`
}

// Note is an ordinary article.
type Note struct {
	Entry `key:",inline"`

	Title   Text   `key:"title" says:"its title"`
	On      Moment `key:"on" says:"when it was written"`
	Tags    []Text `key:"tags" says:"words to find it by"`
	Summary Text   `key:"summary" says:"one line for lists and the feed"`
	Draft   Flag   `key:"draft" says:"true: shown while writing, never published" doubt:"yes"`
}

// Entry is what every file of the journal has.
type Entry struct {
	File string // slash path relative to the journal
	Body string // the Markdown after the front matter
	// BodyLine is the line of the file that the body starts on.
	BodyLine int
	// Unread says that the front matter could not be read at all: the entry has
	// a page with the error and the story, but no figures.
	Unread bool
	// Hash tells two versions of the file apart.
	Hash [32]byte
	// Front tells two versions of what stands before the body apart: a change of
	// the story alone leaves it as it was.
	Front [32]byte
}

// Limits are a brewer's own limits: where a warning about habit or taste begins.
// What is not written is as the trade has it. What keeps people safe (pressure,
// glass, gas in a room, wort shut in without yeast, alcohol) is not among them: of a
// vessel only its own card can say what it bears.
type Limits struct {
	Where             `key:",where"`
	LevelFor          Value[quantity.Duration]      `key:"level_for" says:"how long gravities must agree before a beer is finished; 48 hours or longer" eg:"48 h"`
	ReadingsEvery     Value[quantity.Duration]      `key:"readings_every" says:"how long a fermentation may go without a gravity" eg:"72 h"`
	LinesCleanedEvery Value[quantity.Duration]      `key:"lines_cleaned_every" says:"how long a line may be in use between cleanings" eg:"7 days"`
	CleanFor          Value[quantity.Duration]      `key:"clean_for" says:"how long what was cleaned stays clean until it is filled" eg:"24 h"`
	SettleFor         Value[quantity.Duration]      `key:"settle_for" says:"how long a container stands still before it is broached" eg:"24 h"`
	MashHeat          RangeOf[quantity.Temperature] `key:"mash_heat" says:"the heats to mash at" eg:"62 to 70 C"`
	MashPH            RangeOf[quantity.Acidity]     `key:"mash_ph" says:"the pH of a mash, in a cooled sample" eg:"5.1 to 5.6"`
	Yield             RangeOf[quantity.Percent]     `key:"yield" says:"brewhouse yields that are no slip" eg:"55 to 90 %"`
	WorksAt           RangeOf[quantity.Temperature] `key:"works_at" says:"the heat that ale yeast is happy at, where its card does not say" eg:"14 to 24 C"`
	OpenedHopsKeep    Value[quantity.Duration]      `key:"opened_hops_keep" says:"how long hops keep, open or warm; twice as long cold" eg:"6 months"`
	ServeAt           RangeOf[quantity.Temperature] `key:"serve_at" says:"the heat of the beer as it is served" eg:"10 to 14 C"`
	PintsEach         Value[quantity.Volume]        `key:"pints_each" says:"the most that a party's guest is reckoned to drink" eg:"4 pt-uk"`
	ConditionWithin   Value[quantity.Carbonation]   `key:"condition_within" says:"how far the condition may go over its aim" eg:"0.3 vol"`
}

// LevelAtLeast is how long gravities must agree whatever the settings say: two
// readings 48 hours apart are what keeps glass whole (home-brewing magazines' and
// suppliers' advice on finishing).
const LevelAtLeast = 48 * quantity.Hour
