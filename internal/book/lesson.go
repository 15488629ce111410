package book

import (
	"math"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// lesson is what one gyle teaches about how this brewer's beer comes out.
type lesson struct {
	yield, losses, copperLosses, boilOff, attenuation lessonFigure

	yeast string // whose attenuation it is, "" where several yeasts share it

	mashLost lessonFigure // K
	tun      string       // that the mash was in, as it is named
}

// lessonFigure is one figure of a lesson, unknown where the zero value.
type lessonFigure struct {
	known bool
	value float64
	doubt float64 // standard uncertainty u, in the figure's unit
	mash  float64 // of an attenuation, how warm it was mashed, °C; 0 where nobody says
}

// lessonOf is what a gyle worked out teaches.
func lessonOf(s *figures.Sheet, l *journal.Larder) lesson {
	if s.Stage < figures.Working {
		return lesson{}
	}
	learnt := lesson{
		yield: teaches(s, "brewhouse-yield", ""), losses: lossesToContainers(s),
		copperLosses: teaches(s, "losses", "copper to fermenter"), boilOff: teaches(s, "boil-off", ""),
		mashLost: teaches(s, "mash-heat-lost", ""), tun: s.Gyle.Mash.Vessel.Name,
	}
	if yeast, one := onlyYeast(s.Gyle, l); one && !sweetened(s.Gyle) {
		learnt.yeast, learnt.attenuation = yeast, teaches(s, "apparent-attenuation", "")
		learnt.attenuation.mash = s.MashedAt()
	}
	return learnt
}

// sweetened tells that sugar went in which the original gravity does not have:
// what became of it is not the yeast's attenuation.
func sweetened(g *journal.Gyle) bool {
	for _, a := range g.Added {
		if a.Fruit.Name != "" || a.Juice.Name != "" || a.Sugar.Written() {
			return true
		}
	}
	for _, grain := range g.Grist {
		if grain.Into.Is(journal.IntoFermenter) {
			return true
		}
	}
	return false
}

// teaches is a figure as a lesson, where no later reading can change it: a
// gravity that may still fall teaches no attenuation. A past with unfinished
// beers in it would expect too little of the yeast, and so too little gas.
func teaches(s *figures.Sheet, id figures.ID, of string) lessonFigure {
	f, ok := s.Find(id, of)
	if !ok || f.Provisional || math.IsNaN(f.Value) {
		return lessonFigure{}
	}
	doubt := 0.0
	if f.HasPlusMinus() {
		doubt = f.PlusMinus / 2
	}
	return lessonFigure{known: true, value: f.Value, doubt: doubt}
}

// onlyYeast is the name, as its card has it, of the one yeast that made a gyle;
// of several yeasts none can be told from another.
func onlyYeast(g *journal.Gyle, l *journal.Larder) (name string, one bool) {
	if len(g.DrawnFrom) > 0 {
		return "", false
	}
	for _, p := range g.Yeast {
		if p.Yeast.Name == "" {
			continue
		}
		this := yeastName(l, p.Yeast.Name)
		if name != "" && this != name {
			return "", false
		}
		name = this
	}
	return name, name != ""
}

// yeastName is a yeast's name as its card has it, else as typed.
func yeastName(l *journal.Larder, typed string) string {
	if c := cardOf(l, string(journal.CardYeast), typed); c != nil && c.Name.Text != "" {
		return c.Name.Text
	}
	return typed
}

// lossSteps are the steps of loss in the order of the work, as figures names
// them.
var lossSteps = []string{"copper to fermenter", "fermenter to container", "filling", "dumped"}

// lossesToContainers is what was lost between the fermenter and the containers:
// in racking, and in filling where that is known apart.
func lossesToContainers(s *figures.Sheet) lessonFigure {
	racking, filling := teaches(s, "losses", "fermenter to container"), teaches(s, "losses", "filling")
	if racking.known && filling.known {
		racking.value += filling.value
		racking.doubt = math.Hypot(racking.doubt, filling.doubt)
	}
	return racking
}
