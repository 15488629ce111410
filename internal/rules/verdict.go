package rules

import (
	"fmt"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Answer is one of the three answers to whether a beer is finished.
type Answer int

// CannotTell: the readings do not show it either way. NotFinished: sugar is
// left that the yeast should use. Finished: the gravity stands still where it
// should, and not because of the cold.
const (
	CannotTell Answer = iota
	NotFinished
	Finished
)

// String is the answer in words.
func (a Answer) String() string {
	switch a {
	case Finished:
		return "finished"
	case NotFinished:
		return "not finished"
	}
	return "cannot tell"
}

// Verdict is the answer to "finished, or only quiet?" with its evidence.
type Verdict struct {
	Answer   Answer
	Says     string     // the answer in a sentence, with its figures
	Evidence []Evidence // what speaks for it and against it, by time
	Do       string     // what to do now
	// Again is when to read next, the zero time where no reading is asked for.
	Again time.Time
}

// Evidence is one thing that a verdict rests on.
type Evidence struct {
	Says  string
	Where journal.Where // its line; not written for what no line says
}

// VerdictSource is where the test of a finished beer comes from.
const VerdictSource = "home-brewing magazines' and suppliers' help pages on finishing before bottling; a hydrometer's division is a point"

// FinishedOrQuiet judges whether the fermentation is over, or, of a beer that is
// closed in, whether it was. ok is false where there is nothing to judge: before
// pitching, for beer drawn from other gyles, and once all is drunk.
//
// Finished needs four things at once: two gravities within the instrument's error
// over 48 hours, or what the settings ask for beyond that; a gravity near the one to
// expect and not below what the yeast can do, as far as anybody knows what that is; a beer that was not chilled
// while it stood still; and, after dry hops, three days of standing still. A quiet airlock is no evidence.
func FinishedOrQuiet(s *figures.Sheet) (v Verdict, ok bool) {
	c := inspect(s)
	if s.Stage < figures.Working || s.Stage == figures.Empty || c.BegunAsBeer() {
		return Verdict{}, false
	}
	st := c.Stability()
	v.Evidence = c.evidence(st)
	for _, judge := range []func(*inspection, figures.Stability, *Verdict) bool{unread, stillFalling, tooHigh, sleeping, tooSoon, tooLow, hopsTooFresh} {
		if judge(c, st, &v) {
			return v, true
		}
	}
	last := st.Level[len(st.Level)-1]
	v.Answer = Finished
	v.Says = fmt.Sprintf("Finished: level at %s for %s", assay.SG(last.Gravity.Value), assay.SpanOf(st.Span))
	if expected, _ := c.ExpectedByYeast(); expected > 0 {
		v.Says += fmt.Sprintf(", and about %s was to be expected", assay.SG(expected))
	}
	v.Says += "."
	if s.Stage == figures.Working {
		v.Do = "Rack it and prime it when you like."
	}
	return v, true
}

// evidence is what was read, what is expected, and what could keep the beer
// quiet without its being done.
func (c *inspection) evidence(st figures.Stability) []Evidence {
	var all []Evidence
	logged := false
	for _, r := range st.Level {
		if r.Logged && logged {
			continue // the first of them says since when
		}
		logged = logged || r.Logged
		says := fmt.Sprintf("%s on %s", assay.SG(r.Gravity.Value), r.When.Format("2 January"))
		if r.Temp.Written() {
			says += " at " + c.Heat(r.Temp.Value.Celsius())
		}
		if r.Refractometer {
			says += ", by refractometer"
		}
		if r.Logged {
			says += " and since, by the logger"
		}
		all = append(all, Evidence{Says: says, Where: r.Where})
	}
	if expected, off := c.ExpectedByYeast(); expected > 0 {
		all = append(all, Evidence{Says: fmt.Sprintf("%s to expect of this yeast", gravityWithin(expected, off))})
	}
	if f, ok := c.Find(figures.IDForecastFG, ""); ok {
		all = append(all, Evidence{Says: fmt.Sprintf("%s by the curve through the readings", gravityWithin(q.Gravity(f.Value), f.PlusMinus))})
	}
	return all
}

// gravityWithin is a gravity with its ±, cut to what the ± supports.
func gravityWithin(g q.Gravity, off float64) string {
	value, within := q.Rounded(float64(g), max(off, 0.0005))
	return value + " ± " + within
}

// unread: nothing was read since the yeast went in.
func unread(c *inspection, st figures.Stability, v *Verdict) bool {
	if len(st.Level) > 0 {
		return false
	}
	v.Says = "Cannot tell: no gravity was read after pitching."
	v.Do = "Read one now and another " + c.ApartBy() + " later; a quiet airlock proves nothing."
	if len(c.Logged()) > 0 {
		v.Says = "Cannot tell: nothing was read by hand after pitching, and a float that hops hold down stands still too."
		v.Do = "Read a hydrometer now and again in two days; the logger's offset is taken from it."
	}
	if c.Stage >= figures.Maturing {
		v.Says = "Cannot tell: it was closed in without a gravity after pitching."
		v.Do = "Read a degassed glass from a container that is cold."
	}
	v.Again = c.Now
	return true
}

// stillFalling: the last two readings are apart, or the yeast is young.
func stillFalling(c *inspection, st figures.Stability, v *Verdict) bool {
	if len(st.Level) > 1 || c.nearExpectedOf(st) {
		return false
	}
	last := st.Level[0]
	expected, _ := c.expectedEnd()
	if expected == 0 {
		return false
	}
	v.Answer = NotFinished
	v.Says = fmt.Sprintf("Not finished: %s, and about %s to be expected%s.", assay.SG(last.Gravity.Value), assay.SG(expected), c.finishAbout())
	v.Do = "Leave it be and read it again in two days."
	v.Again = last.When.Add(2 * 24 * time.Hour)
	c.closedIn(v)
	return true
}

// tooHigh: it stands still well above where it should: stuck, not finished.
func tooHigh(c *inspection, st figures.Stability, v *Verdict) bool {
	expected, _ := c.expectedEnd()
	if expected == 0 || c.nearExpectedOf(st) {
		return false
	}
	last := st.Level[len(st.Level)-1]
	v.Answer = NotFinished
	v.Says = fmt.Sprintf("Not finished: quiet at %s for %s, but about %s is to be expected.", assay.SG(last.Gravity.Value), assay.SpanOf(st.Span), assay.SG(expected))
	v.Do = c.Text("Bring it to {20 or 21 °C}, rouse the yeast gently, and read it again in two days. Do not package it.")
	v.Again = last.When.Add(2 * 24 * time.Hour)
	c.closedIn(v)
	return true
}

// closedIn changes what to do about beer that is closed in already: the rules
// about containers say the rest.
func (c *inspection) closedIn(v *Verdict) {
	if c.Stage >= figures.Maturing {
		v.Again = time.Time{}
		v.Do = "It is closed in: see the warnings about its containers."
	}
}

// sleeping: the beer was colder while it stood still than it worked before, or
// than its yeast works at: cold yeast is quiet whatever sugar is left.
func sleeping(c *inspection, st figures.Stability, v *Verdict) bool {
	warm, cold, where := c.chilledWhileLevel(st)
	if !where.Written() {
		return false
	}
	v.Says = fmt.Sprintf("Cannot tell: it stands still, but it was chilled from %s to %s, and cold yeast is quiet whatever is left.", c.HeatNumber(warm), c.Heat(cold))
	v.Evidence = append(v.Evidence, Evidence{Says: "chilled to " + c.Heat(cold), Where: where})
	v.Do = c.Sayf("Bring it back to {18 or 20 °C} and read it after %s there.", c.ApartBy())
	v.Again = c.Now.Add(st.Needs)
	c.closedIn(v)
	return true
}

// chilledWhileLevel is how warm it was when it last fell and how cold while it
// stood still, with the line of the cold: written only where the difference is
// more than a cold night makes. Once it has stood still for long enough warm, what
// happens to it after that proves nothing.
func (c *inspection) chilledWhileLevel(st figures.Stability) (warm, cold float64, where journal.Where) {
	if c.levelWhileWarm(st) {
		return 0, 0, where
	}
	for _, r := range c.GravityReadings() {
		if !c.AfterPitching(r) || !r.Temp.Written() {
			continue
		}
		heat := r.Temp.Value.Celsius()
		switch {
		case r.When.Before(st.Level[0].When) || r.When.Equal(st.Level[0].When):
			warm = heat
		case warm-heat >= assay.ChilledBy.Number && !r.When.After(st.Level[len(st.Level)-1].When):
			return warm, heat, r.Temp.Where
		}
	}
	return 0, 0, where
}

// levelWhileWarm tells whether the readings before the chill are level for long
// enough by themselves.
func (c *inspection) levelWhileWarm(st figures.Stability) bool {
	first := st.Level[0]
	if !first.Temp.Written() {
		return true // nothing says that it was ever warmer
	}
	for _, r := range st.Level[1:] {
		warm := !r.Temp.Written() || first.Temp.Value.Celsius()-r.Temp.Value.Celsius() < assay.ChilledBy.Number
		if warm && r.When.Sub(first.When) >= st.Needs {
			return true
		}
	}
	return len(st.Level) < 2
}

// tooSoon: what was read agrees, and does not yet cover 48 hours, or what the
// settings ask for beyond that.
func tooSoon(c *inspection, st figures.Stability, v *Verdict) bool {
	if st.Stable {
		return false
	}
	again := st.Level[0].When.Add(st.Needs)
	switch {
	case len(st.Level) == 1:
		v.Says = fmt.Sprintf("Cannot tell: one gravity, %s, is not enough.", assay.SG(st.Level[0].Gravity.Value))
	default:
		v.Says = fmt.Sprintf("Cannot tell: level at %s for only %s%s.", assay.SG(st.Level[len(st.Level)-1].Gravity.Value), c.LevelHours(st.Span), c.asksForLevel())
	}
	v.Do = "Read it again after " + again.Format("15:04 on 2 January") + "."
	if again.Before(c.Now) {
		again = c.Now
		v.Do = "Read it again now."
	}
	v.Again = again
	c.closedIn(v)
	return true
}

// tooLow: it stands still below what the yeast can do; something else may be at
// work, and slowly.
func tooLow(c *inspection, st figures.Stability, v *Verdict) bool {
	if len(overAttenuated(c)) == 0 {
		return false
	}
	last := st.Level[len(st.Level)-1]
	v.Says = fmt.Sprintf("Cannot tell: it stands at %s, lower than this yeast should go, and whatever took it there may go on slowly.", assay.SG(last.Gravity.Value))
	v.Again = last.When.Add(7 * 24 * time.Hour)
	v.Do = "Keep it in the fermenter, and read it again after " + v.Again.Format("2 January") + "."
	c.closedIn(v)
	return true
}

// hopsTooFresh: dry hops carry enzymes that free more sugar for some days.
func hopsTooFresh(c *inspection, st figures.Stability, v *Verdict) bool {
	if c.Stage >= figures.Maturing && len(hopCreep(c)) == 0 {
		return false // a later glass has shown that they did not
	}
	for _, h := range c.Gyle.Hops {
		if !h.Dry.Written() || !h.When.Written() || !c.Come(h.When) {
			continue
		}
		last := st.Level[len(st.Level)-1].When
		if since := last.Sub(h.When.Middle()); since >= 0 && since < hopsLevel.Duration() {
			v.Says = "Cannot tell: dry hops went in " + assay.SpanOf(since) + " before the last reading, and they can wake a finished beer."
			v.Evidence = append(v.Evidence, Evidence{Says: "dry hops on " + h.When.Middle().Format("2 January"), Where: h.When.Where})
			v.Again = h.When.Middle().Add(hopsLevel.Duration())
			v.Do = "Read it again after " + v.Again.Format("2 January") + "."
			c.closedIn(v)
			return true
		}
	}
	return false
}

// expectedEnd is where the gravity should stop: by the yeast's card or past,
// else by the curve through the readings; 0 where nobody knows.
func (c *inspection) expectedEnd() (expected q.Gravity, off float64) {
	if expected, off = c.ExpectedByYeast(); expected > 0 {
		return expected, off
	}
	if f, ok := c.Find(figures.IDForecastFG, ""); ok {
		return q.Gravity(f.Value), f.PlusMinus
	}
	return 0, 0
}

// nearExpectedOf tells whether the last of the level readings is near the end to
// expect, as far as anybody knows what that is.
func (c *inspection) nearExpectedOf(st figures.Stability) bool {
	expected, off := c.expectedEnd()
	if expected == 0 {
		return true
	}
	last := st.Level[len(st.Level)-1].Gravity
	return c.near(last.Value.Points(), expected, off, float64(last.PlusMinus()))
}

// near tells whether so many points are near where the beer should end, or not above the
// least that its yeast is known to take, with the doubt of both.
func (c *inspection) near(points float64, expected q.Gravity, off, doubt float64) bool {
	above := points - max(expected.Points(), c.Lowest().Least.Points())
	return above <= assay.NearExpected.Number+1000*doubt/2 || points-expected.Points() <= off/float64(q.Point)+1000*doubt/2
}

// finishAbout is when the forecast has it done, as the end of a sentence.
func (c *inspection) finishAbout() string {
	f, ok := c.Find(figures.IDForecastFinish, "")
	if !ok || f.Date.Before(c.Now) {
		return ""
	}
	text := " about " + f.Date.Format("2 January")
	if f.HasPlusMinus() && f.PlusMinus >= 0.5 {
		text += fmt.Sprintf(" ± %.0f days", f.PlusMinus)
	}
	return text
}
