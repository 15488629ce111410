package assay

import (
	"fmt"
	"math"
	"slices"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// PhAtRacking is the last pH read of the beer within three days of its racking,
// or of now while it stands level and waits to be racked.
func (c *Case) PhAtRacking() (figures.Figure, bool) {
	at := c.Gyle.Racked.On
	until := c.Now
	switch {
	case c.Come(at):
		until = EndOf(at)
	case !c.Stability().AtLeast():
		return figures.Figure{}, false
	}
	var last figures.Figure
	found := false
	for _, r := range c.Gyle.Readings {
		ph, ok := figures.AsRead(r.PH)
		if !ok || !r.When.Written() || r.Package.Written() || r.When.Time.After(until) || until.Sub(r.When.Time) > 4*24*time.Hour {
			continue
		}
		last, found = ph, true
	}
	return last, found
}

// Chill is a steep fall of the beer's heat while there was still something to
// ferment.
type Chill struct {
	Says  string        // how steep, and what was left, as a sentence
	Where journal.Where // the line of the cold
	Line  journal.Where // that of the last gravity, not written for a logger's
}

// EarlyChill is the first chill that dropped the yeast too soon.
func (c *Case) EarlyChill() (Chill, bool) {
	if c.Stability().AtLeast() {
		return Chill{}, false
	}
	left, line, ok := c.leftToFall()
	if !ok || Over(left, ChilledLeft) < Probably {
		return Chill{}, false
	}
	was, is, found := steepest(c.HeatReadings())
	if !found {
		return Chill{}, false
	}
	fall, hours := was.Heat.Value-is.Heat.Value, is.When.Sub(was.When).Hours()
	says := fmt.Sprintf("It cooled by %s in %.0f hours with about %.0f points still to fall.", c.Units.Fixed(fall, "K", 0), hours, left.Value)
	return Chill{Says: says, Where: c.LastOf(is.Heat), Line: line}, true
}

// steepest is the first fall of the heat that chills yeast, from where it began.
func steepest(heats []HeatReading) (was, is HeatReading, found bool) {
	for i, is := range heats {
		for _, was := range heats[:i] {
			fall, hours := was.Heat.Value-is.Heat.Value, is.When.Sub(was.When).Hours()
			if fall >= ChilledBy.Number && hours > 0 && fall/hours >= ChilledRate.Number {
				return was, is, true
			}
		}
	}
	return was, is, false
}

// leftToFall is how many points the last gravity stands above what the yeast
// should reach, and the line it was read on.
func (c *Case) leftToFall() (figures.Figure, journal.Where, bool) {
	last, _, ok := c.LastFall()
	expected, off := c.ExpectedByYeast()
	if !ok || expected == 0 {
		return figures.Figure{}, journal.Where{}, false
	}
	return figures.Figure{Value: last.Gravity.Value.Points() - expected.Points(), PlusMinus: 1000 * off}, last.Where, true
}

// HeatReading is one reading of the beer's heat.
type HeatReading struct {
	When time.Time
	Heat figures.Figure
}

// HeatReadings are the readings of the beer's heat after pitching, the logger's every six
// hours among them, in order of time.
func (c *Case) HeatReadings() []HeatReading {
	var heats []HeatReading
	for _, r := range c.Gyle.Readings {
		heat, ok := figures.AsRead(r.Temp)
		if ok && c.Come(r.When) && !r.Package.Written() && r.When.Middle().After(c.PitchedAt()) {
			heats = append(heats, HeatReading{r.When.Middle(), heat})
		}
	}
	for _, r := range c.Logged() {
		if heat, ok := figures.AsRead(r.Temp); ok {
			heats = append(heats, HeatReading{r.When, heat})
		}
	}
	slices.SortStableFunc(heats, func(a, b HeatReading) int { return a.When.Compare(b.When) })
	return heats
}

// LastHeat is the last reading of the beer's heat after pitching.
func (c *Case) LastHeat() (figures.Figure, bool) {
	var last figures.Figure
	found := false
	for _, r := range c.HeatReadings() {
		last, found = r.Heat, true
	}
	return last, found
}

// LastFall is the last reading after pitching and how far it has fallen from the
// original gravity, in points.
func (c *Case) LastFall() (figures.GravityReading, figures.Figure, bool) {
	var last figures.GravityReading
	found := false
	for _, r := range c.Sightings() {
		if c.AfterPitching(r) {
			last, found = r, true
		}
	}
	og, ok := c.Find(figures.IDOG, "")
	if !found || !ok {
		return last, figures.Figure{}, false
	}
	// The instrument's own bias is in both and cancels: what is left is a
	// division's half either way.
	fallen := og
	fallen.Value, fallen.PlusMinus = q.Gravity(og.Value).Points()-last.Gravity.Value.Points(), FallDoubt
	if last.Logged {
		fallen.PlusMinus = last.Gravity.PlusMinus().SG() * 1000 // another instrument: nothing cancels
	}
	return last, fallen, true
}

// WorksAt is the heat a yeast is happy at, by its card; ok is false where no
// card says.
func (c *Case) WorksAt(p journal.Pitch) (low, high float64, ok bool) {
	at := c.YeastCard(p).WorksAt
	return at.Low.Celsius(), at.High.Celsius(), at.Written()
}

// Workable are the limits of heat for a yeast: its card's with so much to spare
// above, else the settings' or the trade's for ale. A yeast without a card whose name says that it
// is another, or that is no yeast at all, has none.
func (c *Case) Workable(p journal.Pitch, spare float64) (low, high float64, whose string) {
	if low, high, ok := c.WorksAt(p); ok {
		return low, high + spare, "its card says " + c.Units.Between(low, high, "°C")
	}
	if HasWord(p.Yeast.Name, notAle...) {
		return math.Inf(-1), math.Inf(1), ""
	}
	low, high, right := c.Habits.In(PitchCoolest), c.Habits.In(PitchWarmest), c.Between(PitchCoolest, PitchWarmest)
	own := c.Habits.OwnOrTrade(PitchWarmest, " by your settings", "")
	if p.Yeast.Written() && c.Card(journal.CardYeast, p.Yeast) == nil {
		return low, high, "no card knows it, and for an ale yeast " + right + " is right" + own
	}
	return low, high, right + " is right for an ale yeast" + own
}

// notAle are words in the names of what ferments at other heats than ale yeast.
var notAle = []string{
	"lager*", "pils*", "helles", "bock", "kveik*", "voss", "lacto*", "brett*", "pedio*", "saison*", "farmhouse", "sour*", "wild*",
	"weiss*", "weizen*", "hefe*", "kölsch*", "koelsch*", "kolsch*", "alt", "altbier*", "champagne", "wine", "cider", "bacteria", "culture", "lambic",
	"steam", "baltic", "turbo", "distill*", "trappist", "abbey", "belgian", "wit*",
}

// FirstPitch is the first yeast of the entry, an empty one where there is none.
func (c *Case) FirstPitch() journal.Pitch {
	if len(c.Gyle.Yeast) > 0 {
		return c.Gyle.Yeast[0]
	}
	return journal.Pitch{}
}

// HottestYoung is the highest heat read in the first days of fermentation.
func (c *Case) HottestYoung() (hottest figures.Figure, ok bool) {
	for _, r := range c.HeatReadings() {
		if r.When.Sub(c.PitchedAt()) <= YoungFor.Duration() && (!ok || r.Heat.Value > hottest.Value) {
			hottest, ok = r.Heat, true
		}
	}
	return hottest, ok
}
