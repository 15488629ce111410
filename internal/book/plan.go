package book

import (
	"slices"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/planning"
)

// Plan is the way from where a gyle stands to the party it is brewed for.
type Plan struct {
	On   time.Time // the party's day, in the journal's zone
	Ways []planning.Timetable
	// Round is what is likely to be drunk; HasRound is false where no guests are
	// named.
	Round    planning.Round
	HasRound bool
}

// PlanRow is one step in all the ways; a way without it has nil there.
type PlanRow struct {
	ID, Says string
	Steps    []*planning.Step
}

// Plan is a gyle's, false where it has no party or that is over.
func (g *Gyle) Plan() (p Plan, ok bool) {
	p.Ways = planning.Timetables(g.Sheet)
	p.Round, p.HasRound = planning.PartyRound(g.Sheet)
	p.On = g.Party.On.Time
	return p, len(p.Ways) > 0 || p.HasRound
}

// commonSteps are done once, whatever the beer goes into.
var commonSteps = []string{"brew", "level", "stable", "party"}

// stepOrder is the order of the rows: that of the work, whichever way has them.
var stepOrder = []string{"brew", "level", "stable", "rack", "cool", "vent", "fine", "place", "clean", "party"}

// Rows are the steps of all ways side by side. What is done once for all of them is
// due when the first of them needs it.
func (p Plan) Rows() []PlanRow {
	var rows []PlanRow
	for _, id := range stepOrder {
		row := PlanRow{ID: id, Steps: make([]*planning.Step, len(p.Ways))}
		for i := range p.Ways {
			for j := range p.Ways[i].Steps {
				if s := &p.Ways[i].Steps[j]; s.ID == id {
					row.Steps[i] = s
					if row.Says == "" {
						row.Says = s.Says
					}
				}
			}
		}
		if row.Says != "" {
			rows = append(rows, row)
		}
	}
	return rows
}

// Due is the step of a row that is due first, nil where every way has done it.
func (r PlanRow) Due() *planning.Step {
	var first *planning.Step
	for _, s := range r.Steps {
		if s != nil && !s.Done && (first == nil || s.By.Before(first.By)) {
			first = s
		}
	}
	return first
}

// Common tells that a row is done once, whatever the beer goes into.
func (r PlanRow) Common() bool { return slices.Contains(commonSteps, r.ID) }

// plan writes the steps still to do before the party, each on the last day that
// leaves what follows its time. What the entry itself dates is written there, and a
// party that cannot be met has no days to keep. While no container is chosen, the
// days are those of the first way.
func (d *diary) plan() {
	plan, ok := d.g.Plan()
	if !ok || len(plan.Ways) == 0 {
		return
	}
	if len(plan.Ways[0].Of) == 0 {
		plan.Ways = plan.Ways[:1]
	}
	for _, row := range plan.Rows() {
		switch {
		case row.ID == "party":
		case row.Common():
			d.planStep(plan, row, row.Due(), -1)
		default:
			for i, s := range row.Steps {
				d.planStep(plan, row, s, i)
			}
		}
	}
}

func (d *diary) planStep(plan Plan, row PlanRow, s *planning.Step, way int) {
	late := slices.ContainsFunc(plan.Ways, func(t planning.Timetable) bool { return t.Late == 0 })
	if s == nil || s.Done || s.Set || way >= 0 && plan.Ways[way].Late > 0 || !late {
		return
	}
	says, key := "Last day to "+s.Do, "plan "+row.ID
	if way >= 0 && len(plan.Ways) > 1 {
		says = phrase(says, bracketed(plan.Ways[way].Name))
		if way > 0 { // one that is the only one, or the first, keeps its name when others join it
			key += " " + number(journal.Whole{N: way})
		}
	}
	d.events = append(d.events, Event{
		Gyle: d.g, What: PlanStep, At: midnight(s.By.In(d.b.zone())), AllDay: true, Planned: true,
		Says: says, Where: d.g.Party.On.Where, key: key,
	})
}

// firstReading is when the first gravity is due: a second day's reading shows that it
// works (common practice, no source). The next is due by the limit of readings-sparse,
// and one that agrees by that of figures.Stability.
const firstReading = 48 * time.Hour

// readingDue is the next gravity to read, while the beer works.
func (d *diary) readingDue() {
	due, from, ok := nextDue(d.g.Sheet)
	if !ok {
		return
	}
	d.events = append(d.events, Event{
		Gyle: d.g, What: ReadingDue, At: midnight(due.In(d.b.zone())), AllDay: true, Planned: due.After(d.b.Now),
		Says: "Read the gravity", Where: from, key: string(ReadingDue),
	})
}

func nextDue(s *figures.Sheet) (due time.Time, from journal.Where, ok bool) {
	if s.Stage != figures.Working {
		return due, from, false
	}
	level := s.Stability()
	switch {
	case level.Stable:
		return due, from, false
	case len(level.Level) == 0:
		pitched := firstPitch(s.Gyle)
		return pitched.Middle().Add(firstReading), pitched.Where, pitched.Written()
	}
	first, last := level.Level[0], level.Level[len(level.Level)-1]
	if len(level.Level) > 1 {
		return first.When.Add(level.Needs), last.Where, true
	}
	return last.When.Add(assay.HabitsOf(s.Settings).Span(assay.ReadingsEvery)), last.Where, true
}

// firstPitch is when the yeast went in, brew day where that is not said.
func firstPitch(g *journal.Gyle) journal.Moment {
	pitched := g.Brewed
	found := false
	for _, p := range g.Yeast {
		if p.Pitched.Written() && (!found || p.Pitched.Time.Before(pitched.Time)) {
			pitched, found = p.Pitched, true
		}
	}
	return pitched
}
