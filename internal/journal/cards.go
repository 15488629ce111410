package journal

import q "gylebook/internal/quantity"

// Card is a page about something that gyles refer to, with the facts that are
// worked from. Which facts it may have depends on its kind: the pointer of that
// kind is set and no other.
type Card struct {
	Entry `key:",inline"`

	Kind   Choice[CardKind] `key:"card" one:"malt|sugar|hop|yeast|water|vessel|instrument|style|taster|fruit|salt|fining|cleaner" says:"what it is a card of" needed:"yes"`
	Name   Text             `key:"name" says:"its name" needed:"yes" also:"title"`
	Also   []Text           `key:"also" says:"other spellings of it"`
	Source Text             `key:"source" says:"where its facts are from"`

	// BuiltIn says that the card is from the larder that comes with gylebook,
	// and not written by the brewer.
	BuiltIn bool

	Malt       *Malt       `key:",facts"`
	Sugar      *Sugar      `key:",facts"`
	Hop        *HopCard    `key:",facts"`
	Yeast      *Yeast      `key:",facts"`
	Water      *Water      `key:",facts"`
	Vessel     *Vessel     `key:",facts"`
	Instrument *Instrument `key:",facts"`
	Style      *Style      `key:",facts"`
	Taster     *Taster     `key:",facts"`
	Fruit      *Fruit      `key:",facts"`
	Salt       *SaltCard   `key:",facts"`
	Fining     *FiningCard `key:",facts"`
	Cleaner    *Cleaner    `key:",facts"`
}

// Malt is the facts of a malt or adjunct.
type Malt struct {
	Extract Value[q.Extract]  `key:"extract" label:"extract" says:"what it can give: Ldeg/kg, or % where 100 % is pure sugar's 385"`
	Colour  Value[q.Colour]   `key:"colour" label:"colour" says:"its colour" also:"color|ebc"`
	Cereal  Choice[Cereal]    `key:"cereal" label:"cereal" one:"barley|wheat|oats|rye|maize|rice|other" says:"which grain, for the allergens"`
	Class   Choice[MaltClass] `key:"class" label:"class" one:"base|crystal|roast|adjunct" says:"what it does in a grist"`
	Gluten  Flag              `key:"gluten" label:"gluten" says:"whether it has gluten; grain has unless it says otherwise"`
	Mashed  Flag              `key:"mashed" says:"false: gives its extract without a mash"`
}

// Sugar is the facts of a sugar or syrup.
type Sugar struct {
	Extract     Value[q.Extract] `key:"extract" label:"extract" says:"what it can give: Ldeg/kg, or % where 100 % is pure sugar's 385"`
	Colour      Value[q.Colour]  `key:"colour" label:"colour" says:"its colour"`
	Fermentable Value[q.Percent] `key:"fermentable" label:"fermentable" says:"the share of its extract that yeast can use" eg:"100 %"`
	CO2         Value[q.Percent] `key:"co2" label:"carbon dioxide, by weight" says:"carbon dioxide it gives, by weight of the sugar" eg:"51.4 %"`
	Gluten      Flag             `key:"gluten" says:"whether it has gluten"`
	Vegan       Flag             `key:"vegan" says:"whether it is free of anything from animals"`
}

// HopCard is the facts of a hop.
type HopCard struct {
	Alpha Value[q.Percent] `key:"alpha" label:"alpha" says:"alpha acids" eg:"5.1 %"`
	Crop  Whole            `key:"crop" label:"crop" says:"the year it was picked" eg:"2025"`
	Keeps Value[q.Percent] `key:"keeps" label:"keeps, after six months at 20 °C" says:"the share of its alpha left after six months at 20 °C" eg:"75 %"`
}

// Yeast is the facts of a yeast.
type Yeast struct {
	Attenuates      RangeOf[q.Percent]     `key:"attenuates" label:"attenuates" says:"apparent attenuation, as a range" also:"attenuation" eg:"72 to 78 %"`
	WorksAt         RangeOf[q.Temperature] `key:"works_at" label:"works at" says:"the heat it is happy at, as a range" also:"temperature" eg:"18 to 22 C"`
	Settles         Choice[Settling]       `key:"settles" label:"settles" one:"quickly|fairly|slowly" says:"how it falls"`
	Cells           Value[q.CellDensity]   `key:"cells" label:"live cells" says:"live cells in a gram or millilitre"`
	Diastatic       Flag                   `key:"diastatic" says:"whether it eats dextrins and starch, and so goes below what other yeasts leave" also:"diastaticus|sta1"`
	Superattenuates Flag                   `key:"superattenuates" says:"whether it goes on slowly for months where a beer yeast has stopped, as Brettanomyces does" also:"slow|wild|brett|goes_on|superattenuating"`
	Phenolic        Flag                   `key:"phenolic" says:"whether it gives clove or spice"`
}

// Water is the ions of a water.
type Water struct {
	Calcium     Value[q.Concentration] `key:"calcium" label:"calcium" says:"Ca"`
	Magnesium   Value[q.Concentration] `key:"magnesium" label:"magnesium" says:"Mg"`
	Sodium      Value[q.Concentration] `key:"sodium" label:"sodium" says:"Na"`
	Sulphate    Value[q.Concentration] `key:"sulphate" label:"sulphate" says:"SO4"`
	Chloride    Value[q.Concentration] `key:"chloride" label:"chloride" says:"Cl"`
	Bicarbonate Value[q.Concentration] `key:"bicarbonate" label:"bicarbonate" says:"HCO3"`
	Alkalinity  Value[q.Concentration] `key:"alkalinity" label:"alkalinity, as calcium carbonate" says:"as calcium carbonate, instead of bicarbonate"`
	PH          Value[q.Acidity]       `key:"ph" label:"pH" says:"pH"`
	From        Choice[WaterSource]    `key:"from" label:"from" one:"mains|well|rain|bottled|filtered" says:"where it comes from; mains water has chlorine"`
}

// Vessel is the facts of a container or fermenter.
type Vessel struct {
	Is       Choice[VesselKind]  `key:"kind" label:"kind" one:"bottle|soft bag|pressure barrel|cask|keg|bucket|other" says:"what kind of vessel"`
	Size     Value[q.Volume]     `key:"size" says:"what it is sold as holding, a little less than to the brim" eg:"20 L"`
	Capacity Value[q.Volume]     `key:"capacity" label:"to the brim" says:"to the brim" eg:"21 L"`
	Rated    Value[q.Pressure]   `key:"rated" label:"rated by the maker" says:"the most the maker allows, above the atmosphere" eg:"2 bar"`
	Relief   Flag                `key:"relief" label:"relief valve" says:"whether it has a relief valve"`
	Opens    Value[q.Pressure]   `key:"opens" label:"opens at" says:"where its relief valve opens" also:"relief_at|opens_at|relief_pressure" eg:"0.7 bar"`
	Material Choice[Material]    `key:"material" label:"made of" one:"glass|plastic|steel|wood" says:"what it is made of"`
	Glass    Choice[GlassColour] `key:"glass" one:"brown|green|clear" says:"the colour of the glass"`
	Takes    Value[q.Volume]     `key:"takes" says:"as a mash tun: the litres of water that would take as much heat" eg:"2.5 L"`
}

// Instrument is the facts of an instrument.
type Instrument struct {
	Measures     Choice[Measurand]    `key:"measures" label:"measures" one:"gravity|brix|temperature|volume|weight|ph|pressure" says:"what it reads"`
	Resolution   Text                 `key:"resolution" label:"smallest step" says:"its smallest step, in its own unit, as 0.001 or 0.1 C" eg:"0.001"`
	Within       Text                 `key:"within" label:"within" says:"how far off it may be, in its own unit, as 0.001 or 0.5 C" eg:"0.001"`
	Bias         Text                 `key:"bias" label:"reads too high by" says:"how much too high it reads, in its own unit, as 0.002" eg:"0.002"`
	CalibratedAt Value[q.Temperature] `key:"calibrated_at" label:"marked for" says:"the heat it is marked for" eg:"20 C"`
	WortFactor   Value[q.Number]      `key:"wort_factor" says:"for a refractometer: its reading of wort, over the true extract" eg:"1.04"`
	Range        RangeOf[q.Gravity]   `key:"range" says:"the gravities it can show" eg:"0.990 to 1.060"`
}

// Style is what is customary, as ranges.
type Style struct {
	OG         RangeOf[q.Gravity]     `key:"og" label:"original gravity" says:"original gravity" eg:"1.030 to 1.039"`
	FG         RangeOf[q.Gravity]     `key:"fg" label:"final gravity" says:"final gravity" eg:"1.007 to 1.011"`
	ABV        RangeOf[q.Percent]     `key:"abv" label:"alcohol" says:"alcohol by volume" eg:"3.2 to 3.8 %"`
	Bitterness RangeOf[q.Bitterness]  `key:"bitterness" label:"bitterness" says:"bitterness" eg:"25 to 35 IBU"`
	Colour     RangeOf[q.Colour]      `key:"colour" label:"colour" says:"colour" eg:"16 to 28 EBC"`
	Condition  RangeOf[q.Carbonation] `key:"condition" label:"condition" says:"carbon dioxide in the glass" eg:"1.1 to 1.5 vol"`
}

// Taster is somebody who tastes.
type Taster struct {
	ShownAs   Text   `key:"shown_as" says:"the name to publish, if another"`
	Adult     Flag   `key:"adult" says:"whether of age to drink"`
	Age       Whole  `key:"age" says:"in years" eg:"44"`
	Allergies []Text `key:"allergies" says:"what must not be in the glass"`
}

// Fruit is the facts of a fruit or juice.
type Fruit struct {
	Sugar Value[q.Percent] `key:"sugar" label:"sugar" says:"sugar in it, by weight" eg:"8 %"`
}

// SaltCard is the facts of a salt for the liquor: milligrams of each ion from
// a gram.
type SaltCard struct {
	Formula     Text             `key:"formula" label:"formula" says:"its chemical formula"`
	Calcium     Value[q.Percent] `key:"calcium" label:"calcium" says:"Ca by weight"`
	Magnesium   Value[q.Percent] `key:"magnesium" label:"magnesium" says:"Mg by weight"`
	Sodium      Value[q.Percent] `key:"sodium" label:"sodium" says:"Na by weight"`
	Sulphate    Value[q.Percent] `key:"sulphate" label:"sulphate" says:"SO4 by weight"`
	Chloride    Value[q.Percent] `key:"chloride" label:"chloride" says:"Cl by weight"`
	Bicarbonate Value[q.Percent] `key:"bicarbonate" label:"bicarbonate" says:"HCO3 by weight, or what it neutralises as such"`
}

// FiningCard is the facts of a fining.
type FiningCard struct {
	Vegan      Flag              `key:"vegan" label:"vegan" says:"whether it is free of anything from animals"`
	Vegetarian Flag              `key:"vegetarian" label:"vegetarian" says:"whether it is free of meat and fish"`
	Allergen   Text              `key:"allergen" label:"allergen" says:"what must be told of it"`
	Keeps      Value[q.Duration] `key:"keeps" label:"keeps" says:"how long, kept cool" eg:"8 weeks"`
}

// Cleaner is the facts of a cleaner.
type Cleaner struct {
	Is    Choice[CleanerKind] `key:"kind" label:"kind" one:"caustic|acid|hypochlorite|percarbonate|iodophor|detergent|other" says:"what it is"`
	Rinse Flag                `key:"rinse" label:"must be rinsed" says:"whether it must be rinsed off"`
}
