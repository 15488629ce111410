package view

// BrewClock is brew day by the clock, for a gyle's page and its copper card. It
// is whole without a script; with one the reader sees how long there is still.
type BrewClock struct {
	// Length is the minutes of the boil where it is not written when that began,
	// so that the reader may say it has; "" where it is, or there is no boil.
	Length string
	Due    []Due // in the order of the day
}

// Due is one thing to do.
type Due struct {
	At      string // RFC 3339 in UTC; "" where the hour is not known
	Time    string // the same by the journal's clock: 11:20
	Minutes string // before the end of the boil, a plain number; "" for what does not go by it
	When    string // in words: 60 min before the end
	What    string
	Amount  string
}
