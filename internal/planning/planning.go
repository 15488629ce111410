package planning

import (
	"math"
	"slices"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// A timetable leads back from a party to brew day, container by container. Its
// gaps are the trade's usual ones and the least that will do; two gravities that
// agree, 48 hours apart or as far as the settings ask, and the day on which a cask
// stands still are never shortened.

// Step is one thing to do before a party.
type Step struct {
	ID   string // brew, level, stable, rack, cool, vent, fine, place, clean, party
	Says string // "Rack and prime"
	Do   string // "rack and prime", after "the last day to"
	// By is the day to do it on, at midnight in the party's zone: the last that
	// leaves what follows its usual time, or where that has passed the first that is
	// still possible.
	By time.Time
	// Earliest is the first day on which it can be done from where the gyle stands.
	Earliest time.Time
	// Done tells that it was done: on By where that is known.
	Done bool
	// Set tells that the entry itself plans the day.
	Set bool
	// InHand is how many days later than By it can be done if all that follows is
	// hurried as far as is right.
	InHand int
	Slips  string // what goes if it slips

	usual, least int // days from the step before
}

// Timetable is the way to a party in one kind of container.
type Timetable struct {
	Vessel journal.VesselKind // the kind of vessel: soft bag, bottle …
	Name   string             // as in a heading
	Of     []string           // the keys of its containers; none for one of several ways to choose from
	Steps  []Step             // in order, the party last
	// Late is by how many days the party comes too soon, however it is hurried; 0
	// where it can be met.
	Late int
	// Hurried is how many days of the usual time are lacking, where the party can be
	// met only by hurrying.
	Hurried int
	Source  string
}

// Ready is the first day on which there can be a party.
func (t Timetable) Ready() time.Time { return t.Steps[len(t.Steps)-1].Earliest }

// Next is the first step not done, nil where all is.
func (t Timetable) Next() *Step {
	for i := range t.Steps {
		if !t.Steps[i].Done {
			return &t.Steps[i]
		}
	}
	return nil
}

// Timetables are the ways to the party that an entry names, one for each kind of
// container; for a gyle without containers one for a bag or cask and one for
// bottles. There are none without a party, once it is over, or once beer has been
// drawn.
func Timetables(s *figures.Sheet) []Timetable {
	c := &planner{assay.Of(s)}
	if !c.PartyAhead() || c.Stage == figures.Empty || len(c.Drawn()) > 0 && len(c.Drawn()) == len(c.Live()) {
		return nil
	}
	var all []Timetable
	for _, way := range c.ways() {
		all = append(all, c.timetable(way))
	}
	return all
}

// way is a kind of container, and which of the gyle's are of it.
type way struct {
	vessel     journal.VesselKind
	name       string
	containers []figures.Container
}

func (c *planner) ways() []way {
	var ways []way
	for _, k := range c.Containers() {
		kind := kindOfVessel(k)
		if kind == "" || c.Spent(k) {
			continue
		}
		i := slices.IndexFunc(ways, func(w way) bool { return w.vessel == kind && c.Filled(w.containers[0]).Time.Equal(c.Filled(k).Time) })
		if i < 0 {
			i = len(ways)
			ways = append(ways, way{vessel: kind, name: string(kind)})
		}
		ways[i].containers = append(ways[i].containers, k)
	}
	if len(ways) > 0 || len(c.Gyle.Packages) > 0 {
		return ways
	}
	return []way{{vessel: journal.SoftBag, name: "soft bag or cask"}, {vessel: journal.Bottle, name: "bottles"}}
}

// kindOfVessel is what a container is, for its timetable; one that nobody knows
// goes like a cask, and a bucket has none.
func kindOfVessel(k figures.Container) journal.VesselKind {
	for _, kind := range []journal.VesselKind{journal.SoftBag, journal.Bottle, journal.PressureBarrel, journal.Cask, journal.Keg} {
		if k.Is(kind) {
			return kind
		}
	}
	if k.Is(journal.Bucket) {
		return ""
	}
	return journal.Cask
}

const (
	neverShorter   = "Never shortened: while two gravities differ, everything waits."
	fromCondition  = "It comes off the conditioning: keep it at {18 °C}, never over {19 °C} in a cask."
	fromBrightness = "It comes off the time to drop bright: the first pints may be hazy."
)

// stepsFor are the steps for a kind of container with their gaps in days: the usual
// and the least. Strong beer takes a fortnight more.
//
// Source: common practice, but that a cask takes over a day to cool (trade articles
// on cask care), stands still for 24 hours at least and better 36 (a
// brewing-supplies house's article on beer at the point of sale), and is held up to
// seven days at 13 to 16 °C (a brewing textbook site).
func (c *planner) stepsFor(vessel journal.VesselKind) []Step {
	apart, level := c.ApartBy(), daysToCover(c.Stability().Needs)
	brewing := []Step{
		{ID: "brew", Says: "Brew", Do: "brew", Slips: fromCondition},
		{ID: "level", Says: "First gravity at its end", Do: "see the gravity at its end for the first time", usual: 7, least: 5, Slips: neverShorter},
		{ID: "stable", Says: "The same again, " + apart + " on", Do: "see the same gravity again, " + apart + " on", usual: level, least: level, Slips: neverShorter},
	}
	if c.strong() {
		brewing[1].usual, brewing[1].least = brewing[1].usual+14, brewing[1].least+14
	}
	rack := Step{ID: "rack", Says: "Rack and prime", Do: "rack and prime", usual: 2, least: 0, Slips: fromCondition}
	place := Step{ID: "place", Says: "In its serving place, untouched", Do: "put it in its serving place", usual: 1, least: 0, Slips: "A day is the least; then it pours cloudy."}
	clean := Step{ID: "clean", Says: "Clean the line, connect, taste", Do: "clean the line, connect and taste", usual: 1, least: 1, Slips: "On the morning itself, if need be; never left out."}
	party := Step{ID: "party", Says: "The party", Do: "be ready", usual: 1, least: 0}
	if c.Habits.Own(assay.SettleFor) && vessel != journal.Keg {
		party.least = max(party.least, daysToCover(c.Habits.Span(assay.SettleFor))-clean.least)
		party.usual = max(party.usual, party.least)
	}
	switch vessel {
	case journal.Bottle:
		rack.Says, rack.Do = "Bottle and prime", "bottle and prime"
		return append(brewing, rack,
			Step{ID: "cool", Says: "From {18–20 °C} to the cool", Do: "move the bottles to the cool", usual: 14, least: 14, Slips: "Sooner, and there is sugar left: flat now, lively later."},
			Step{ID: "place", Says: "Stand upright, where it will be served", Do: "stand the bottles upright", usual: 12, least: 9, Slips: fromBrightness},
			Step{ID: "party", Says: "The party", Do: "be ready", usual: 2, least: 1})
	case journal.PressureBarrel:
		return append(brewing, rack,
			Step{ID: "cool", Says: "Chill", Do: "chill it", usual: 7, least: 5, Slips: fromBrightness},
			withGap(place, 12, 8), clean, party)
	case journal.Keg:
		rack.Says, rack.Do = "Rack into the keg", "rack into the keg"
		return append(brewing, rack,
			Step{ID: "cool", Says: "Chill, gas on", Do: "chill it and put the gas on", usual: 1, least: 0, Slips: "It comes off the time under gas: a higher pressure for the first day wins some."},
			withGap(place, 9, 5), clean, party)
	}
	return append(brewing, rack,
		Step{ID: "cool", Says: "Chill", Do: "chill it", usual: 7, least: 4, Slips: fromCondition},
		Step{ID: "vent", Says: "Vent, chilled", Do: "vent it, chilled", usual: 3, least: 1, Slips: "Vented warm, the gas is gone for good: wait until it is cold."},
		Step{ID: "fine", Says: "Fine, at its coldest, if you fine", Do: "fine it, if you do", usual: 1, least: 0, Slips: fromBrightness},
		place, clean, party)
}

// daysToCover is the fewest whole days that a length of time fits into.
func daysToCover(d time.Duration) int { return int(math.Ceil(d.Hours() / 24)) }

func withGap(s Step, usual, least int) Step {
	s.usual, s.least = usual, least
	return s
}

func (c *planner) strong() bool {
	for _, id := range []figures.ID{figures.IDOG, figures.IDOGExpected} {
		if f, ok := c.Find(id, ""); ok {
			return f.Value >= strongFrom.Number
		}
	}
	return c.Gyle.Aim.OG.Written() && c.Gyle.Aim.OG.Value.SG() >= strongFrom.Number
}

func (c *planner) timetable(w way) Timetable {
	t := Timetable{Vessel: w.vessel, Name: w.name, Steps: c.stepsFor(w.vessel), Source: "common practice, with the limits of trade articles on cask care and on beer at the point of sale"}
	c.atItsPace(&t, w)
	for i := range t.Steps {
		step := &t.Steps[i]
		step.Says, step.Do, step.Slips = c.Text(step.Says), c.Text(step.Do), c.Text(step.Slips)
	}
	for _, k := range w.containers {
		t.Of = append(t.Of, k.Key)
	}
	party := dayIn(c.Gyle.Party.On.Time, c.Gyle.Party.On.Time.Location())
	today := dayIn(c.Now, party.Location())
	c.forward(&t, w, today)
	c.backward(&t, party)
	return t
}

// atItsPace lets the step after the filling wait as much longer, or less long, as beer of this
// strength takes where it is conditioned: so the timetable says what the figure says.
func (c *planner) atItsPace(t *Timetable, w way) {
	if len(w.containers) == 0 {
		return
	}
	days, _ := c.Sheet.Inquire().Ripens(w.containers[0])
	more := int(days - figures.KeepingOf(w.containers[0]).Ready)
	i := slices.IndexFunc(t.Steps, func(s Step) bool { return s.ID == "rack" }) + 1
	if w.vessel == journal.Keg {
		i++ // what is slow in a keg is slow under its gas
	}
	s := &t.Steps[i]
	s.usual, s.least = max(s.usual+more, s.least), s.least+max(more, 0)
}

// dayIn is the midnight at which a day begins.
func dayIn(t time.Time, zone *time.Location) time.Time {
	year, month, day := t.In(zone).Date()
	return time.Date(year, month, day, 0, 0, 0, 0, zone)
}

// forward finds what is done, and how soon the rest can be.
func (c *planner) forward(t *Timetable, w way, today time.Time) {
	var at time.Time
	last := -1
	for i := range t.Steps {
		if on, done := c.stepDone(t.Steps[i].ID, w); done {
			last = i
			if !on.IsZero() {
				t.Steps[i].By = dayIn(on, today.Location())
			}
		}
	}
	for i := range t.Steps {
		s := &t.Steps[i]
		if i <= last {
			s.Done = true
			if s.By.IsZero() {
				s.By = at
			}
			s.Earliest, at = s.By, s.By
			continue
		}
		s.Earliest = at.AddDate(0, 0, s.least)
		if at.IsZero() || s.Earliest.Before(today) {
			s.Earliest = today
		}
		if done, ok := c.Find(figures.IDForecastFinish, ""); ok && s.ID == "level" {
			if soonest := dayIn(done.Date.AddDate(0, 0, -int(done.PlusMinus)), today.Location()); soonest.After(s.Earliest) {
				s.Earliest = soonest
			}
		}
		if on, set := c.stepPlanned(s.ID, w); set && !dayIn(on, today.Location()).Before(s.Earliest) {
			s.Earliest, s.Set = dayIn(on, today.Location()), true
		}
		at = s.Earliest
	}
}

// backward gives each step its day, counted back from the party, and says what is
// in hand.
func (c *planner) backward(t *Timetable, party time.Time) {
	usual, least := 0, 0
	for i := len(t.Steps) - 1; i >= 0; i-- {
		s := &t.Steps[i]
		if !s.Done {
			latest := party.AddDate(0, 0, -usual)
			s.By = latest
			if s.Earliest.After(latest) {
				s.By = s.Earliest
				t.Hurried = max(t.Hurried, daysBetween(latest, s.Earliest))
			}
			s.InHand = max(0, daysBetween(s.By, party.AddDate(0, 0, -least)))
		}
		usual, least = usual+s.usual, least+s.least
	}
	if late := daysBetween(party, t.Ready()); late > 0 {
		t.Late, t.Hurried = late, 0
	}
}

// daysBetween counts days from one midnight to another, whatever the clocks do
// between them.
func daysBetween(from, to time.Time) int {
	return int((to.Sub(from) + 12*time.Hour).Hours() / 24)
}
