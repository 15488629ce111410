package journal

import q "gylebook/internal/quantity"

// Racked is the transfer off the yeast.
type Racked struct {
	Where   `key:",where"`
	On      Moment               `key:"on" says:"when" also:"when|date"`
	Volume  Value[q.Volume]      `key:"volume" says:"how much came over" also:"amount"`
	Temp    Value[q.Temperature] `key:"temp" says:"the beer's heat" also:"at|temperature" eg:"18 C"`
	Warmest Value[q.Temperature] `key:"warmest" says:"the warmest it has been since it slowed: what decides the gas left in it" eg:"20 C"`
	Moved   Choice[Transfer]     `key:"moved" one:"open|closed" says:"through air, or closed off from it"`
	Early   Flag                 `key:"early" says:"true: racked on purpose with gravity still to fall, into something that vents"`
}

// Priming is sugar or wort for condition.
type Priming struct {
	Where   `key:",where"`
	Sugar   Name             `key:"sugar" card:"sugar" says:"which sugar" also:"with|type|name"`
	Weight  Value[q.Mass]    `key:"weight" says:"how much in all; leave it out and it is worked out" also:"amount|mass" eg:"90 g"`
	Each    Value[q.Mass]    `key:"each" says:"how much in each container" also:"per_bottle|dose" eg:"3 g"`
	Worked  Value[q.Volume]  `key:"worked_for" says:"the volume that the weight was worked out for, if another than was racked"`
	Wort    Value[q.Volume]  `key:"wort" says:"instead of sugar: how much wort" eg:"1.5 L"`
	Gravity Value[q.Gravity] `key:"gravity" says:"of that wort"`
	Working Flag             `key:"working" says:"whether that wort was fermenting"`
	On      Moment           `key:"on" says:"when" also:"when|date"`
}

// Package is one container, or several alike. What it leaves out, the gyle-wide
// key supplies.
type Package struct {
	Where     `key:",where"`
	Vessel    Name                `key:"vessel" card:"vessel" says:"a vessel card, or KIND SIZE: soft bag 10 L, bottle 500 mL, keg 19 L, pressure barrel 25 L, pin, firkin, kilderkin" also:"container"`
	Fill      Value[q.Volume]     `key:"fill" says:"beer in each; a bottle is full to its size unless it says otherwise" also:"volume|beer" eg:"500 mL"`
	Count     Whole               `key:"count" says:"how many alike, 1 unless it says otherwise" least:"1" also:"number|bottles|how_many|quantity" eg:"24"`
	On        Moment              `key:"on" says:"when it was filled" also:"when|date|filled"`
	Priming   Priming             `key:"priming" says:"its own priming, instead of the gyle's"`
	Gas       Gas                 `key:"gas" says:"gas put on it"`
	Relief    Flag                `key:"relief" says:"whether it has a relief valve that works" also:"relief_valve|safety_valve"`
	Spunding  Spunding            `key:"spunding" says:"a relief valve on it that holds a set pressure: at what setting, since when, until when" also:"spund|spunded|spunding_valve|pressure_relief|held_at"`
	Replaced  Choice[Replacement] `key:"replaced_by" one:"air|breather|cylinder|nothing" says:"what comes in as beer is drawn: air, carbon dioxide without pressure through a breather, gas at its setting, or nothing" also:"filled_by|top_gas"`
	Purged    Flag                `key:"purged" says:"whether the air was driven out before it was sealed"`
	Checked   Choice[Soundness]   `key:"checked" one:"sound|chipped|one-trip|not for pressure" says:"what a look at the container showed"`
	Condition Conditioned         `key:"conditioned" says:"where it stood to condition"`
	Cellared  Cellared            `key:"cellared" says:"where it is kept cool"`
	Broached  Moment              `key:"broached" says:"when it was opened for serving"`
	Emptied   Moment              `key:"emptied" says:"when it ran out"`
	Note      Text                `key:"note" says:"anything about it" also:"notes|comment"`
}

// Gas is gas put on a container from a cylinder.
type Gas struct {
	Where `key:",where"`
	With  Choice[GasKind]      `key:"with" one:"co2|nitrogen|mixed" says:"which gas"`
	Share Value[q.Percent]     `key:"share" says:"carbon dioxide in a mixed gas, by volume" also:"co2|mix|blend" eg:"60 %"`
	Set   Value[q.Pressure]    `key:"set" says:"the regulator's setting" also:"pressure|psi|bar" eg:"0.8 bar"`
	At    Value[q.Temperature] `key:"at" says:"the beer's heat" also:"temp|temperature" eg:"4 C"`
	From  Moment               `key:"from" says:"since when"`
	To    Moment               `key:"to" says:"until when"`
	Room  Value[q.Volume]      `key:"room" says:"the air of the room the cylinder stands in, such as 20 m3"`
	Aired Flag                 `key:"aired" says:"whether that room's air moves"`
}

// Conditioned is where the beer stood to condition.
type Conditioned struct {
	Where   `key:",where"`
	At      Value[q.Temperature] `key:"at" says:"how warm" also:"temp|temperature" eg:"18 C"`
	From    Moment               `key:"from" says:"since when"`
	To      Moment               `key:"to" says:"until when"`
	Warmest Value[q.Temperature] `key:"warmest" says:"the warmest it has been or will be there" eg:"20 C"`
}

// Cellared is where the beer is kept cool.
type Cellared struct {
	Where   `key:",where"`
	At      Value[q.Temperature] `key:"at" says:"how cool" also:"temp|temperature" eg:"12 C"`
	From    Moment               `key:"from" says:"since when"`
	Warmest Value[q.Temperature] `key:"warmest" says:"the warmest it may get there" eg:"16 C"`
}

// Served is how the beer is served.
type Served struct {
	Where      `key:",where"`
	Broached   Moment               `key:"broached" says:"when it was opened"`
	Through    Choice[Dispense]     `key:"through" one:"hand pump|tap|gravity|picnic tap|poured" says:"how it comes out" also:"by|from|with"`
	Sparkler   Flag                 `key:"sparkler" says:"whether a sparkler is on"`
	At         Value[q.Temperature] `key:"at" says:"in the glass" also:"temp|temperature" eg:"12 C"`
	Breather   Flag                 `key:"breather" says:"whether a cask breather lets in CO2 instead of air"`
	Replaced   Choice[Replacement]  `key:"replaced_by" one:"air|breather|cylinder|nothing" says:"what comes in as beer is drawn: air, carbon dioxide without pressure through a breather, gas at its setting, or nothing" also:"filled_by|top_gas"`
	AbovePump  Flag                 `key:"above_pump" says:"whether the container stands above the pump"`
	CheckValve Flag                 `key:"check_valve" says:"whether a check valve is fitted"`
	Line       Value[q.Volume]      `key:"line" says:"what the line holds" eg:"300 mL"`
	Emptied    Moment               `key:"emptied" says:"when it ran out"`
}

// Poured is beer drawn off.
type Poured struct {
	Where   `key:",where"`
	When    Moment          `key:"when" says:"when" also:"on|date|time"`
	Volume  Value[q.Volume] `key:"volume" says:"how much" also:"amount|pints|drawn" eg:"2 L"`
	Package Whole           `key:"package" says:"from which of the packages, counted from 0; without it, the one that stood open, if only one did" eg:"0"`
}

// Deed is something done that no other key records.
type Deed struct {
	Where   `key:",where"`
	When    Moment               `key:"when" says:"when" also:"on|date|time"`
	Did     Choice[Act]          `key:"did" one:"cleaned|rinsed|tested|vented|moved|roused|topped up|chilled|warmed|dumped|skimmed|fined|stirred|tied in|squeezed|opened|burped|composted|binned" says:"what was done"`
	What    Text                 `key:"what" says:"to what"`
	With    Name                 `key:"with" card:"cleaner" says:"with what" also:"using"`
	Package Whole                `key:"package" says:"to which of the packages, counted from 0" eg:"0"`
	At      Value[q.Temperature] `key:"at" says:"how warm, there or then" also:"temp|temperature" eg:"14 C"`
	Until   Choice[VentLength]   `key:"until" one:"quiet|moment" says:"how long it was vented: until no more came out, or opened and shut at once" also:"vented_until|how_long|for"`
	Volume  Value[q.Volume]      `key:"volume" says:"how much" eg:"2 L"`
	Note    Text                 `key:"note" says:"anything about it" also:"notes|comment"`
}

// Tasting is what one taster said, once.
type Tasting struct {
	Where    `key:",where"`
	When     Moment               `key:"when" says:"when" also:"on|date|time"`
	By       Name                 `key:"by" card:"taster" private:"tasters" says:"who" also:"taster|who|name"`
	Package  Whole                `key:"package" says:"from which of the packages, counted from 0" eg:"0"`
	Through  Choice[Dispense]     `key:"through" one:"hand pump|tap|gravity|picnic tap|poured" says:"how this glass was drawn, where not as served.through has it"`
	Sparkler Flag                 `key:"sparkler" says:"whether a sparkler was on"`
	At       Value[q.Temperature] `key:"at" says:"in the glass" also:"temp|temperature" eg:"12 C"`
	Score    Value[q.Number]      `key:"score" says:"how good" also:"rating|mark" eg:"38"`
	OutOf    Value[q.Number]      `key:"out_of" says:"of how many; 50 unless it says otherwise" eg:"50"`
	Found    []Text               `key:"found" says:"what was tasted, seen or smelt, a word each" also:"flavours|flavors|faults|aroma|taste"`
	Text     Text                 `key:"text" says:"in the taster's words" also:"note|notes|comment|comments|said"`
}

// Photo is a picture.
type Photo struct {
	Where   `key:",where"`
	File    Text   `key:"file" says:"the picture, from the journal's folder" also:"picture|image|path|photo|src" eg:"photos/mash.jpg"`
	Alt     Text   `key:"alt" says:"what it shows, for those who cannot see it"`
	Caption Text   `key:"caption" says:"what to print under it" also:"title"`
	When    Moment `key:"when" says:"when it was taken"`
}

// Cost is money spent.
type Cost struct {
	Where `key:",where"`
	What  Text  `key:"what" says:"on what" also:"item|for"`
	Paid  Money `key:"paid" says:"how much, as 3.80 GBP" also:"cost|price|amount"`
}

// Label is what the label states.
type Label struct {
	Where      `key:",where"`
	ABV        Value[q.Percent] `key:"abv" says:"alcohol by volume"`
	Allergens  []Text           `key:"allergens" says:"barley, wheat, oats, milk, sulphites and so on"`
	Vegan      Flag             `key:"vegan" says:"whether it is free of anything from animals"`
	Vegetarian Flag             `key:"vegetarian" says:"whether it is free of meat and fish"`
	Sulphites  Flag             `key:"sulphites" says:"whether it has more than 10 mg/L of sulphur dioxide"`
	Text       Text             `key:"text" says:"anything else on it"`
}

// Accepted is a finding that the brewer has seen and lives with. A danger
// cannot be silenced by it, only answered.
type Accepted struct {
	Where   `key:",where"`
	Finding Text `key:"finding" says:"the finding's id, as in square brackets" eg:"readings-sparse"`
	Because Text `key:"because" says:"why it is right here"`
}
