package journal

import (
	"fmt"

	"gylebook/internal/quantity"
)

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

// limits takes out of the settings' limits what is none.
func (r *reading) limits(l *Limits) {
	for _, of := range []*Value[quantity.Duration]{&l.LevelFor, &l.ReadingsEvery, &l.LinesCleanedEvery, &l.CleanFor, &l.SettleFor, &l.OpenedHopsKeep} {
		*of = aboveNought(r, *of)
	}
	l.PintsEach, l.ConditionWithin = aboveNought(r, l.PintsEach), aboveNought(r, l.ConditionWithin)
	l.MashHeat, l.WorksAt, l.ServeAt = twoEnds(r, l.MashHeat), twoEnds(r, l.WorksAt), twoEnds(r, l.ServeAt)
	l.MashPH, l.Yield = twoEnds(r, l.MashPH), twoEnds(r, l.Yield)
	if v := l.LevelFor; v.Written() && v.Value < LevelAtLeast {
		says := fmt.Sprintf("%s: %s hours is too short, and 48 hours stand: gravities that agree for less have not shown that a beer is done, and what is bottled unfinished bursts", v.Key, quantity.Plain(v.Value.Hours()))
		r.report(v.Place, idTooShort, v.Key, says, "Write 48 h or longer, or leave it out.")
		l.LevelFor = Value[quantity.Duration]{}
	}
}

// aboveNought is a limit, not written where it is nought or less.
func aboveNought[Q quantity.Quantity](r *reading, v Value[Q]) Value[Q] {
	if !v.Written() || v.Value > 0 {
		return v
	}
	r.report(v.Place, idNotANumber, v.Key, v.Key+": expected more than nought", "")
	return Value[Q]{}
}

// twoEnds is a range, not written where its ends are one: no reading would ever be
// right.
func twoEnds[Q quantity.Quantity](r *reading, v RangeOf[Q]) RangeOf[Q] {
	if !v.Written() || v.High > v.Low {
		return v
	}
	r.report(v.Place, idNotANumber, v.Key, v.Key+": one number: expected a range, from the lower end to the higher", "")
	return RangeOf[Q]{}
}
