package figures

import (
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Context is what a gyle is worked out in: the cards, the clock, and what this
// brewer's earlier gyles taught.
type Context struct {
	Larder   *journal.Larder
	Settings *journal.Settings
	Now      time.Time
	Past     Past
	// Other is the sheet of another gyle, nil where there is none: for beer that
	// was drawn from it.
	Other func(number int) *Sheet
	// Taken is what other gyles say that they drew from this one.
	Taken []journal.Drawn
}

// Past is what this brewer's earlier-brewed gyles taught, each with its spread.
// The zero Past knows nothing, and the stated defaults are used.
type Past struct {
	Yield  Learned // brewhouse yield, %
	Losses Learned // from fermenter to containers, L
	// CopperLosses is from copper to fermenter, L; BoilOff is L/h.
	CopperLosses, BoilOff Learned
	Attenuation           map[string]Learned // apparent, %, by the yeast's name as its card has it
	MashLost              map[string]Learned // K that a mash settled too cool by, by the tun as it is named
	// Next is what is known once this gyle, and the others of its day, have taught
	// too: what to plan the one after it by. No figure of this gyle leans on it.
	Next *Past
}

// Learned is the median of earlier gyles and how far they spread.
type Learned struct {
	Median    float64
	HalfWidth float64 // within which about two thirds of them lie, at least the readings' own doubt
	Gyles     int
	// Mash is how warm they were mashed, °C, of an attenuation; 0 where nobody says.
	Mash float64
}

// Enough tells whether there are gyles enough to lean on.
func (l Learned) Enough() bool { return l.Gyles >= 3 }

// Sheet is one gyle worked out: its figures, what is missing, and what else was
// found on the way. Nothing changes it once Work has returned it, so any number
// of readers may share it. What is not on it is asked of an Inquiry.
type Sheet struct {
	Gyle       *journal.Gyle
	Stage      Stage
	Figures    []Figure
	Missing    []Missing
	Impossible []Impossible
	Inputs     []Input

	Context
	symbols    []symbol // in the figures' workings, of all figures one after the other
	containers []Container
	readings   []GravityReading
	logged     []GravityReading
	logCheck   LogCheck
	stability  Stability
	forecast   *Forecast
	left       []Left
	late       []Late
	lowest     Lowest
	gauges     []GaugeCheck
}

// Late is something fermentable that went into the beer after the last gravity that
// counts, so that no reading shows what has become of it.
type Late struct {
	What  string
	Where journal.Where
	// Of is the container it went into alone, "" for the whole beer.
	Of string
	// Dated is false where nobody says when it went in: it may have been before.
	Dated bool
	// Culture says that it is a yeast or bacteria and not extract.
	Culture bool
}

// Late is what went in after the last gravity that counts.
func (s *Sheet) Late() []Late { return s.late }

// Lowest is where the keenest culture that is known to be in the beer would leave it.
type Lowest struct {
	Gravity q.Gravity
	// Least is where it would stand if its cultures took the least that they are known
	// for: above that it is stuck.
	Least q.Gravity
	// Known tells whether a card, or this brewer's past, says so of every culture.
	Known bool
	Where journal.Where // the line that says so
	// Simple says that all of its extract is plain sugar: cider, mead or wine.
	Simple bool
	GoesOn bool // that a culture works on for months
}

// Lowest is where the keenest culture would leave the beer; its Gravity is 0 where
// there is no original gravity.
func (s *Sheet) Lowest() Lowest { return s.lowest }

// GaugeCheck is a container's gauge beside what its account has there at that hour.
type GaugeCheck struct {
	Of      string
	Where   journal.Where
	Read    Figure  // bar
	Least   float64 // bar, with nothing more come than there was
	Most    float64 // bar, with all of it come
	PlusOff float64 // bar, the doubt of either
}

// Gauges are what was read of the containers' gauges, beside the account.
func (s *Sheet) Gauges() []GaugeCheck { return s.gauges }

// Containers are the gyle's packages.
func (s *Sheet) Containers() []Container { return s.containers }

// GravityReadings are the readings by hand of the whole beer (not of one
// container) up to the clock, in order of time, those with a gravity that can be.
func (s *Sheet) GravityReadings() []GravityReading { return s.readings }

// Logged are the logger's sightings, in order of time.
func (s *Sheet) Logged() []GravityReading { return s.logged }

// Sightings are the readings by hand and the logger's together, in order of time.
func (s *Sheet) Sightings() []GravityReading { return byTime(s.readings, s.logged) }

// LogCheck is what speaks against the gyle's logger; nothing where it has none.
func (s *Sheet) LogCheck() LogCheck { return s.logCheck }

// Stability is whether the gravity has stood still, and on what evidence.
func (s *Sheet) Stability() Stability { return s.stability }

// Forecast is the curve through the gravities of a beer that is working, nil where
// the readings cannot support one.
func (s *Sheet) Forecast() *Forecast { return s.forecast }

// LeftOverTime is what could be drawn when the containers were filled, and after
// each thing that has left them since. Its last point is the figure pints-left. It
// is empty where that is not known, and lacks what no volume tells.
func (s *Sheet) LeftOverTime() []Left { return s.left }

// Find is the figure of an id and of the part it is about.
func (s *Sheet) Find(id ID, of string) (Figure, bool) {
	for _, f := range s.Figures {
		if f.ID == id && f.Of == of {
			return f, true
		}
	}
	return Figure{}, false
}

// First is the first figure of an id, whatever part it is about.
func (s *Sheet) First(id ID) (Figure, bool) {
	for _, f := range s.Figures {
		if f.ID == id {
			return f, true
		}
	}
	return Figure{}, false
}
