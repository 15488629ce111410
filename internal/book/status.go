package book

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Status is where a gyle stands at the book's clock.
type Status struct {
	Stage figures.Stage
	// Parts are said one after the other, the most telling first.
	Parts []Saying
}

// String is the parts with commas between them: day 3 at 24 °C, 1.014 ± 0.002.
func (s Status) String() string {
	texts := make([]string, len(s.Parts))
	for i, p := range s.Parts {
		texts[i] = p.Text
	}
	return listed(texts...)
}

// Saying is one part of a status.
type Saying struct {
	// About tells what it is: day, gravity, stable, finish, reading-due, pints,
	// ready, drink-by, party, brew, boil, standing, emptied, score.
	About string
	Text  string
	// Value and PlusMinus are its number, NaN where it has none; Unit is its
	// unit. A reckoned day has a PlusMinus in days.
	Value, PlusMinus float64
	Unit             string
	// Date is the day it names, the zero time where it names none; Late says
	// that this day is over.
	Date time.Time
	Late bool
}

// reporter makes one gyle's status.
type reporter struct {
	*figures.Sheet
	tasted Tasted
	zone   *time.Location
	parts  []Saying
}

// statusOf is where a gyle stood at the clock of its sheet.
func statusOf(s *figures.Sheet, tasted Tasted, zone *time.Location) Status {
	r := &reporter{Sheet: s, tasted: tasted, zone: zone}
	switch s.Stage {
	case figures.Paper:
		r.onPaper()
	case figures.Copper:
		r.inCopper()
	case figures.Working:
		r.working()
	case figures.Maturing:
		r.maturing()
	case figures.Pouring:
		r.pouring()
	case figures.Empty:
		r.empty()
	}
	return Status{Stage: s.Stage, Parts: r.parts}
}

func (r *reporter) say(about, text string) {
	r.parts = append(r.parts, Saying{About: about, Text: text, Value: math.NaN(), PlusMinus: math.NaN()})
}

// figure says a figure, in words made from its rounded value.
func (r *reporter) figure(about string, f figures.Figure, text string) {
	r.parts = append(r.parts, Saying{About: about, Text: text, Value: f.Value, PlusMinus: f.PlusMinus, Unit: f.Unit})
}

// date says a day: text before it, or late where the day is over.
func (r *reporter) date(about string, at time.Time, text, late string) {
	at = at.In(r.zone)
	over := day(at).Before(day(r.Now.In(r.zone)))
	if over {
		text = late
	}
	r.parts = append(r.parts, Saying{
		About: about, Text: text + " " + at.Format(time.DateOnly), Value: math.NaN(), PlusMinus: math.NaN(),
		Date: at, Late: over,
	})
}

// reckoned says the day of a figure that is a date.
func (r *reporter) reckoned(about string, f figures.Figure, text, late string) {
	r.date(about, f.Date, text+" about", late+" about")
	last := &r.parts[len(r.parts)-1]
	last.PlusMinus, last.Unit = f.PlusMinus, "days"
}

func (r *reporter) onPaper() {
	if r.Gyle.Brewed.Written() {
		r.date("brew", r.Gyle.Brewed.Time, "to be brewed on", "to have been brewed on")
	} else {
		r.say("brew", "no brewing day yet")
	}
	r.party()
}

// party says the occasion where it is still to come.
func (r *reporter) party() {
	p := r.Gyle.Party
	if p.On.Written() && !day(p.On.Time.In(r.zone)).Before(day(r.Now.In(r.zone))) {
		r.date("party", p.On.Time, phrase("for", firstOf(p.Occasion.Text, "a party"), "on"), "")
	}
}

func (r *reporter) inCopper() {
	g := r.Gyle
	began := g.Brewed
	if !began.Written() {
		began = earliest(g.Mash.Started, g.Copper.Started)
	}
	if daysSince(began.Time, r.Now, r.zone) > 0 {
		r.date("brew", began.Time, "brewed on", "no yeast in it yet, brewed on")
		return
	}
	switch {
	case r.past(g.Copper.After.Volume.Written(), g.Copper.Started):
		r.say("boil", "boiled, to be cooled and pitched")
	case r.happened(g.Copper.Started) && !g.Copper.Started.DateOnly:
		r.say("boil", "boiling since "+r.clock(g.Copper.Started))
	case r.happened(g.Mash.Started) && !g.Mash.Started.DateOnly:
		r.say("brew", "mashed in at "+r.clock(g.Mash.Started))
	default:
		r.say("brew", "brew day")
	}
}

func (r *reporter) past(measured bool, started journal.Moment) bool {
	return measured && (!started.Written() || r.happened(started))
}

func (r *reporter) happened(m journal.Moment) bool {
	return m.Written() && !m.Time.After(r.Now)
}

func (r *reporter) clock(m journal.Moment) string { return m.Time.In(r.zone).Format("15:04") }

// working is day 3 at 24 °C, 1.014, and what is to be done about it.
func (r *reporter) working() {
	s := r.Sheet
	if pitched := firstPitch(r.Gyle); pitched.Written() {
		days := daysSince(pitched.Time, r.Now, r.zone)
		text := "pitched today"
		if days > 0 {
			text = "day " + strconv.Itoa(days)
		}
		heat, known := r.lastHeat()
		if known {
			text += " at " + spoken(heat)
		}
		r.parts = append(r.parts, Saying{
			About: "day", Text: text, Value: float64(days), PlusMinus: math.NaN(), Unit: "days",
		})
	}
	if len(s.Sightings()) > 0 {
		if f, ok := s.Find(figures.IDGravityNow, ""); ok {
			r.figure("gravity", f, measure(f))
		}
	}
	if s.Stability().Stable {
		r.say("stable", "stands still, may be racked")
		r.party()
		return
	}
	if f, ok := s.First(figures.IDForecastFinish); ok {
		r.reckoned("finish", f, "done", "was to be done")
	}
	if due, _, ok := nextDue(s); ok {
		r.date("reading-due", due, "read the gravity by", "gravity to be read since")
	}
}

// lastHeat is the beer's last heat up to the clock.
func (r *reporter) lastHeat() (heat journal.Value[q.Temperature], known bool) {
	var when time.Time
	for _, reading := range r.Gyle.Readings {
		later := reading.When.Written() && reading.When.Time.After(r.Now)
		if !reading.Temp.Written() || reading.Package.Written() || later {
			continue
		}
		if !known || !reading.When.Time.Before(when) {
			heat, when, known = reading.Temp, reading.When.Time, true
		}
	}
	for _, s := range r.Logged() {
		if s.Temp.Written() && s.When.After(when) {
			heat, when, known = s.Temp, s.When, true
		}
	}
	return heat, known
}

func (r *reporter) maturing() {
	r.pints("pints")
	if f, ok := r.extreme("ready-on", earlier); ok {
		r.reckoned("ready", f, "ready", "ready since")
	}
	r.party()
	r.drinkBy()
}

func (r *reporter) pouring() {
	r.pints("pints-left")
	r.party()
	r.drinkBy()
}

// pints says how many there are, or are left.
func (r *reporter) pints(id figures.ID) {
	f, ok := r.Find(id, "")
	if !ok {
		return
	}
	value, plusMinus := f.Rounded()
	text := phrase(value, with("±", plusMinus), "pints")
	if id == "pints-left" {
		text += " left"
	}
	r.figure(string(figures.IDPints), f, text)
}

// drinkBy says until when the first container to go off is good.
func (r *reporter) drinkBy() {
	if f, ok := r.extreme("drink-by", earlier); ok {
		r.reckoned("drink-by", f, "drink by", "past its best since")
	}
}

func earlier(a, b time.Time) bool { return a.Before(b) }

// extreme is the date figure of the containers that are not empty which comes
// before all others.
func (r *reporter) extreme(id figures.ID, before func(a, b time.Time) bool) (best figures.Figure, ok bool) {
	for _, f := range r.Figures {
		if f.ID != id {
			continue
		}
		if i, is := containerOf(r.Sheet, f.Of); is && emptied(r.Sheet, i, r.Now) {
			continue
		}
		if !ok || before(f.Date, best.Date) {
			best, ok = f, true
		}
	}
	return best, ok
}

func (r *reporter) empty() {
	last := r.Gyle.Served.Emptied
	if !last.Written() {
		for _, p := range r.Gyle.Packages {
			if p.Emptied.Written() && p.Emptied.Time.After(last.Time) {
				last = p.Emptied
			}
		}
	}
	if last.Written() {
		r.date("emptied", last.Time, "emptied on", "emptied on")
	}
	if t := r.tasted; t.Scored > 0 {
		c := scoreCell(t)
		r.parts = append(r.parts, Saying{
			About: "score", Text: fmt.Sprintf("scored %s by %s", c.Text, counted(t.Tasters, "taster")),
			Value: c.Value, PlusMinus: c.PlusMinus, Unit: c.Unit,
		})
	}
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

func earliest(moments ...journal.Moment) journal.Moment {
	var first journal.Moment
	for _, m := range moments {
		if m.Written() && (!first.Written() || m.Time.Before(first.Time)) {
			first = m
		}
	}
	return first
}

// daysSince is how many midnights lie between two moments in a zone.
func daysSince(then, now time.Time, zone *time.Location) int {
	return int(math.Round(day(now.In(zone)).Sub(day(then.In(zone))).Hours() / 24))
}
