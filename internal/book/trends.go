package book

import (
	"math"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

// Trends is how this brewer's gyles come out, across the journal. Each series is
// in the order of brewing.
type Trends struct {
	BrewhouseYield Series
	MashYield      Series
	BoilOff        Series
	Losses         []Series // by step, in the order of the work
	Attenuation    []Series // by yeast, by name
	Aims           []Series // got less aimed at: og, fg, abv, bitterness, colour, condition
}

// Series is one figure across the gyles.
type Series struct {
	ID      figures.ID
	Of      string // a step of loss, a yeast
	Label   string
	Unit    string
	Subject *Subject // the yeast, nil elsewhere
	Points  []Point
	// Learned is the median and spread of the latest ten points that no later
	// reading can change: what the next gyle is planned by.
	Learned figures.Learned
}

// Point is one gyle's figure.
type Point struct {
	Gyle             *Gyle
	Value, PlusMinus float64 // PlusMinus is U = 2u, NaN where none makes sense
	// Aim and Got are the two sides of an offset from an aim; NaN elsewhere.
	Aim, Got    float64
	Provisional bool
}

// trendsOf makes the trends. The gyles are in the order of brewing.
func (b *Book) trendsOf(gyles []*Gyle) Trends {
	return Trends{
		BrewhouseYield: across(gyles, "brewhouse-yield", ""),
		MashYield:      across(gyles, "mash-yield", ""),
		BoilOff:        across(gyles, "boil-off", ""),
		Losses:         lossSeries(gyles),
		Attenuation:    b.attenuationSeries(gyles),
		Aims:           aimSeries(gyles),
	}
}

// across is one figure of all gyles.
func across(gyles []*Gyle, id figures.ID, of string) Series {
	s := Series{ID: id, Of: of}
	for _, g := range gyles {
		if f, ok := g.Sheet.Find(id, of); ok {
			s.add(g, f)
		}
	}
	return s.finished()
}

func (s *Series) add(g *Gyle, f figures.Figure) {
	s.Label, s.Unit = f.Label, f.Unit
	s.Points = append(s.Points, Point{
		Gyle: g, Value: f.Value, PlusMinus: f.PlusMinus, Aim: math.NaN(), Got: math.NaN(),
		Provisional: f.Provisional,
	})
}

// finished is the series with what it teaches.
func (s Series) finished() Series {
	var lessons []lessonFigure
	for _, p := range s.Points {
		if p.Provisional || math.IsNaN(p.Value) {
			continue
		}
		t := lessonFigure{known: true, value: p.Value}
		if p.PlusMinus > 0 {
			t.doubt = p.PlusMinus / 2
		}
		lessons = append(lessons, t)
	}
	s.Learned = learnedFrom(lessons)
	return s
}

// lossSeries is a series for each step of loss that any gyle has.
func lossSeries(gyles []*Gyle) []Series {
	var all []Series
	at := map[string]int{}
	for _, g := range gyles {
		for _, f := range g.Sheet.Figures {
			if f.ID != figures.IDLosses {
				continue
			}
			if _, known := at[f.Of]; !known {
				at[f.Of] = len(all)
				all = append(all, Series{ID: f.ID, Of: f.Of})
			}
			all[at[f.Of]].add(g, f)
		}
	}
	for i := range all {
		all[i] = all[i].finished()
	}
	sortByRank(all)
	return all
}

// sortByRank puts the steps of loss in the order of the work; those it does not
// know come last, as first met.
func sortByRank(all []Series) {
	rank := func(of string) int {
		for i, step := range lossSteps {
			if step == of {
				return i
			}
		}
		return len(lossSteps)
	}
	for i := 1; i < len(all); i++ {
		for j := i; j > 0 && rank(all[j].Of) < rank(all[j-1].Of); j-- {
			all[j], all[j-1] = all[j-1], all[j]
		}
	}
}

// attenuationSeries is a series for each yeast that a gyle was pitched with
// alone.
func (b *Book) attenuationSeries(gyles []*Gyle) []Series {
	by := map[string]*Series{}
	var names []string
	for _, g := range gyles {
		name, one := onlyYeast(g.Gyle, b.Journal.Larder)
		f, ok := g.Sheet.Find(figures.IDApparentAttenuation, "")
		if !one || !ok {
			continue
		}
		subject := b.Subject("yeast", name)
		if subject != nil {
			name = subject.Name
		}
		if by[name] == nil {
			by[name] = &Series{ID: f.ID, Of: name, Subject: subject}
			names = append(names, name)
		}
		by[name].add(g, f)
	}
	sortByName(b.alphabet(), names, func(n string) string { return n })
	all := make([]Series, len(names))
	for i, name := range names {
		all[i] = by[name].finished()
	}
	return all
}

// aimed is a figure that an entry can aim at.
type aimed struct {
	id  figures.ID
	aim func(journal.Aim) (float64, bool)
}

func aims() []aimed {
	return []aimed{
		{"og", func(a journal.Aim) (float64, bool) { return gravityAim(a.OG) }},
		{"fg", func(a journal.Aim) (float64, bool) { return gravityAim(a.FG) }},
		{"abv", func(a journal.Aim) (float64, bool) { return float64(a.ABV.Value), a.ABV.Written() }},
		{
			"bitterness",
			func(a journal.Aim) (float64, bool) { return float64(a.Bitterness.Value), a.Bitterness.Written() },
		},
		{"colour", func(a journal.Aim) (float64, bool) { return float64(a.Colour.Value), a.Colour.Written() }},
		{"condition", func(a journal.Aim) (float64, bool) { return float64(a.Condition.Value), a.Condition.Written() }},
	}
}

// gravityAim leaves out a gravity typed without its point: from 0.985 to 1.150
// is what a beer or wort can have.
func gravityAim(v journal.Value[quantity.Gravity]) (float64, bool) {
	return v.Value.SG(), v.Written() && v.Value >= 0.985 && v.Value <= 1.150
}

// aimSeries is how far each result lies from its aim.
func aimSeries(gyles []*Gyle) []Series {
	var all []Series
	for _, a := range aims() {
		s := Series{ID: a.id}
		for _, g := range gyles {
			aim, ok := a.aim(g.Aim)
			f, got := whole(g.Sheet, a.id)
			if !ok || !got || g.Sheet.Stage < figures.Working {
				continue
			}
			s.add(g, f)
			p := &s.Points[len(s.Points)-1]
			p.Aim, p.Got, p.Value = aim, f.Value, f.Value-aim
		}
		if len(s.Points) > 0 {
			all = append(all, s.finished())
		}
	}
	return all
}
