package site

import (
	"fmt"
	"math"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/planning"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// Plan is the way to a party.
type Plan struct {
	Says   []string
	Table  view.Table
	Drink  []string
	Source string
}

// planning is the way to the party that a gyle is brewed for: its steps counted
// back from the day, and what is likely to be drunk. A private party has none.
func (w pageWriter) planning(v *GylePage, g *book.Gyle) {
	plan, ok := g.Plan()
	if !ok || w.private.Party {
		return
	}
	out := &Plan{}
	for _, way := range plan.Ways {
		out.Says = append(out.Says, w.wayThere(way))
		out.Source = way.Source
	}
	out.Table = w.planTable(plan)
	if plan.HasRound {
		out.Drink = w.drink(plan.Round)
	}
	v.Plan = out
}

// wayThere says how one kind of container stands to the party.
func (w pageWriter) wayThere(t planning.Timetable) string {
	name := sentence(t.Name)
	name = name[:len(name)-1] + ": "
	next := t.Next()
	switch {
	case t.Late > 0:
		return name + "it cannot be ready. Hurried as far as is right it is ready on " + w.spell.day(t.Ready()) + ", " + counted(t.Late, "day") + " after the party."
	case next == nil || next.ID == "party":
		return name + "all is done."
	case t.Hurried > 0:
		return name + counted(t.Hurried, "day") + " of the usual time are lacking; hurried, it can be ready. Next: " + next.Do + ", by " + w.spell.weekday(next.By) + "."
	case next.Set:
		return name + "in time. Next: " + next.Do + ", set for " + w.spell.weekday(next.Earliest) + "; " + w.spell.weekday(next.By) + " would do."
	}
	return name + "in time. Next: " + next.Do + ", by " + w.spell.weekday(next.By) + "."
}

// weekday is a date as a kitchen calendar has it: Sat 25 July.
func (s speller) weekday(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.In(s.zone).Format("Mon") + "\u00a0" + s.shortDay(t)
}

func (w pageWriter) planTable(plan book.Plan) view.Table {
	columns := []string{"What"}
	for _, way := range plan.Ways {
		head := "By"
		if len(plan.Ways) > 1 {
			head = sentence(way.Name)
			head = head[:len(head)-1]
		}
		columns = append(columns, "~"+head)
	}
	table := w.newTable("p-plan", "", append(columns, "If it slips")...)
	for _, row := range plan.Rows() {
		cells := []any{row.Says}
		slips := ""
		for i, s := range row.Steps {
			cells = append(cells, w.stepCell(s, plan.Ways[i]))
			if s != nil && !s.Done && slips == "" {
				slips = s.Slips
			}
		}
		table.row(append(cells, slips)...)
	}
	out := table.done()
	if len(out.Rows) > 0 {
		out.Note = "In brackets: how many days later will still do, if all that follows is hurried as far as is right. Brewing can be sooner; a beer that waits is kept cold, its pressure watched, and vented weekly."
	}
	return out
}

func (w pageWriter) stepCell(s *planning.Step, way planning.Timetable) string {
	switch {
	case s == nil:
		return ""
	case s.ID == "party" && way.Late > 0:
		return "ready " + w.spell.shortDay(s.By)
	case s.Done && s.By.IsZero():
		return "done"
	case s.Done:
		return "done " + w.spell.shortDay(s.By)
	case s.InHand > 0 && s.ID != "party":
		return fmt.Sprintf("%s\u00a0(%d)", w.spell.weekday(s.By), s.InHand)
	}
	return w.spell.weekday(s.By)
}

// drink is what the party is likely to drink, with the units beside the pints.
func (w pageWriter) drink(r planning.Round) []string {
	hours := "for " + counted(int(r.Hours+0.5), "hour")
	// The rule is of UK pints, which others have to be told.
	pints, one := w.spell.Into("UK pints"), "A pint"
	if pints.Converts() {
		one = "A UK pint"
	}
	text := counted(int(r.Guests+0.5), "guest") + " " + hours + ": " + uncapital(one) + " each in the first hour, and a half to three quarters of one in each after it"
	if r.Capped {
		text += ", " + quantity.Plain(math.Round(10*r.Most)/10) + " at most"
	}
	text += ", makes " + fromTo(pints.Of(r.Guests*r.Low), pints.Of(r.Guests*r.High), 0) + " " + pints.Unit + "."
	if r.Known {
		text += " There should be " + w.spell.measure(r.Have.Value, r.Have.PlusMinus, "UK pints", 0).String() + " to pour."
	}
	all := []string{text}
	if r.UnitsEach > 0 {
		all = append(all, fmt.Sprintf("%s holds %s units of alcohol: %s units a guest, %s in all. Put out water and food, offer halves and something without alcohol, and see that nobody drives.",
			one, quantity.Fixed(r.UnitsEach, 1), fromTo(r.Low*r.UnitsEach, r.High*r.UnitsEach, 0), fromTo(r.Guests*r.Low*r.UnitsEach, r.Guests*r.High*r.UnitsEach, 0)))
	}
	return all
}

// fromTo is a range as a sentence has it, one number where both ends print alike.
func fromTo(low, high float64, decimals int) string {
	from, to := quantity.Fixed(low, decimals), quantity.Fixed(high, decimals)
	if from == to {
		return from
	}
	return from + " to " + to
}
