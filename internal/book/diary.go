package book

import (
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// diary writes one gyle's events.
type diary struct {
	b      *Book
	g      *Gyle
	events []Event
}

// note writes an event of the entry in the words for what is done, or for what
// is to be done.
func (d *diary) note(what Happening, m journal.Moment, done, toDo string) {
	if !m.Written() {
		return
	}
	e := Event{
		Gyle: d.g, What: what, At: m.Time.In(d.b.zone()), AllDay: m.DateOnly, Says: done, Where: m.Where, key: m.Key,
	}
	if e.Planned = m.Time.After(d.b.Now); e.Planned {
		e.Says = toDo
	}
	d.events = append(d.events, e)
}

func (d *diary) write() {
	g := d.g
	d.note(Brewing, g.Brewed, "Brewed", "Brew")
	for _, from := range g.DrawnFrom {
		amount := phrase(spoken(from.Volume), "from gyle", number(from.Gyle))
		d.note(Drawing, from.On, "Drawn: "+amount, "Draw "+amount)
	}
	for _, p := range g.Yeast {
		d.note(Pitching, p.Pitched, phrase("Pitched", with("with", p.Yeast.Name)), phrase("Pitch", p.Yeast.Name))
	}
	d.additions()
	d.readingDue()
	d.note(Racking, g.Racked.On, "Racked", "Rack")
	d.note(Priming, g.Priming.On, "Primed", "Prime")
	d.stood("", g.Condition, g.Cellared)
	d.containers()
	d.note(Broaching, g.Served.Broached, "Broached", "Broach")
	d.note(Emptying, g.Served.Emptied, "Emptied", "Empty it")
	d.plan()
	occasion := "Party" + with(":", g.Party.Occasion.Text)
	d.note(Party, g.Party.On, occasion, occasion)
	d.reckoned()
}

func (d *diary) additions() {
	for _, h := range d.g.Hops {
		if !h.Dry.Written() && !h.When.Written() {
			continue
		}
		amount := phrase(spoken(h.Weight), h.Hop.Name)
		d.note(HopsIn, h.When, "Hops in: "+amount, "Put hops in: "+amount)
		if h.Dry.Written() && h.When.Written() {
			out := h.When
			out.Time = out.Time.Add(time.Duration(h.Dry.Value.Minutes() * float64(time.Minute)))
			out.Key += "-out"
			d.note(HopsOut, out, "Hops out: "+amount, "Take hops out: "+amount)
		}
	}
	for _, a := range d.g.Added {
		what := phrase(firstOf(spoken(a.Weight), spoken(a.Volume)), a.Called())
		d.note(AddingTo, a.When, "Added: "+what, "Add: "+what)
	}
	for _, grain := range d.g.Grist {
		name := firstOf(grain.Sugar.Name, grain.Syrup.Name, grain.Malt.Name, grain.Adjunct.Name)
		what := phrase(spoken(grain.Weight), name)
		d.note(AddingTo, grain.When, "Added: "+what, "Add: "+what)
	}
	for _, f := range d.g.Finings {
		what := phrase(firstOf(spoken(f.Weight), spoken(f.Volume)), f.With.Name)
		d.note(Fining, f.When, "Fined: "+what, "Fine: "+what)
	}
}

// stood is where the beer stands to condition and is kept cool.
func (d *diary) stood(name string, c journal.Conditioned, cool journal.Cellared) {
	warm := phrase("Set to condition", with("at", spoken(c.At)), bracketed(name))
	over := phrase("Conditioning over", bracketed(name))
	cold := phrase(with("at", spoken(cool.At)), bracketed(name))
	d.note(Warm, c.From, warm, warm)
	d.note(WarmEnds, c.To, over, over)
	d.note(Cool, cool.From, phrase("Kept cool", cold), phrase("Keep cool", cold))
}

func bracketed(text string) string {
	if text == "" {
		return ""
	}
	return "(" + text + ")"
}

func (d *diary) containers() {
	for i, p := range d.g.Packages {
		name := d.container(i)
		d.note(Filling, p.On, "Filled: "+name, "Fill "+name)
		d.note(Priming, p.Priming.On, "Primed: "+name, "Prime "+name)
		d.stood(name, p.Condition, p.Cellared)
		d.note(Broaching, p.Broached, "Broached: "+name, "Broach "+name)
		d.note(Emptying, p.Emptied, "Emptied: "+name, "Empty "+name)
	}
}

// container is what a brewer calls one of the containers, numbered where there
// are several of one name.
func (d *diary) container(i int) string {
	all := d.g.Sheet.Containers()
	if i >= len(all) {
		return "container"
	}
	name, alike, which := all[i].Name(), 0, 0
	for j, c := range all {
		if c.Name() == name {
			alike++
			if j <= i {
				which++
			}
		}
	}
	if alike == 1 {
		return name
	}
	return name + ", no. " + number(journal.Whole{N: which})
}

// reckoned are the figures that are dates: those of what is not empty yet.
func (d *diary) reckoned() {
	s := d.g.Sheet
	if s.Stage == figures.Empty {
		return
	}
	for _, f := range s.Figures {
		if f.Unit != dateUnit {
			continue
		}
		name := ""
		if i, ok := containerOf(s, f.Of); ok {
			if emptied(s, i, d.b.Now) {
				continue
			}
			name = d.container(i)
		}
		e := Event{
			Gyle: d.g, What: Reckoned, At: f.Date.In(d.b.zone()), AllDay: true, Planned: f.Date.After(d.b.Now),
			Says: f.Label + with(":", name), Figure: f.ID, key: string(f.ID) + " " + f.Of,
		}
		if f.HasPlusMinus() {
			e.PlusMinus = f.PlusMinus
		}
		if lines := f.From(); len(lines) > 0 {
			e.Where = lines[0]
		}
		d.events = append(d.events, e)
	}
}

// containerOf is the container that a figure is about.
func containerOf(s *figures.Sheet, of string) (index int, ok bool) {
	for _, c := range s.Containers() {
		if c.Key == of {
			return c.Index, true
		}
	}
	return 0, false
}

// emptied tells that there was nothing left in a container.
func emptied(s *figures.Sheet, i int, now time.Time) bool {
	m := s.Emptied(s.Containers()[i])
	return m.Written() && !m.Time.After(now)
}
