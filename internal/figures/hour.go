package figures

import (
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// State is what one container holds at an hour, as its account has it. Beer and
// headspace are in L, of a soft bag the headspace is what it can still swell by.
type State struct {
	At              time.Time
	Heat            q.Temperature
	Beer, Headspace q.Volume
	Gas             q.Mass        // carbon dioxide in beer and headspace together, g
	ToCome          q.Mass        // what is still to ferment will give, g
	Dissolved       q.Carbonation // in the beer, at rest at that heat, vol
	Gauge           q.Pressure    // bar above the air outside
}

// HeldAtHour is what a container holds at an hour; false where it was not filled by
// then, or its account lacks a number.
func (i *Inquiry) HeldAtHour(c Container, at time.Time) (State, bool) {
	r, heat := i.reckon(c), i.heatAt(c, at)
	posts := r.likely.posts
	if r.lack != nil || !heat.known || !posts[0].at.IsZero() && posts[0].at.After(at) {
		return State{}, false
	}
	w, x := r.likely.before(at), valuesOf(r.numbers)
	s, err := w.through(x)
	if err != nil {
		return State{}, false
	}
	s.wait(w.daysUntil(at), x)
	state, err := w.stateOf(s, x, heat.Value)
	state.At = at
	return state, err == nil
}

// heatAt is the heat of a container's beer at an hour: on the day that it was filled as it
// was then.
func (b *bench) heatAt(c Container, at time.Time) Estimate[q.Temperature] {
	const aDay = 24 * time.Hour
	if filled := b.Filled(c); filled.Written() && at.Sub(filled.Middle()) < aDay {
		return b.sealedHeat()
	}
	return b.heatOn(c, at)
}

// HeldInFermenter is the beer in the fermenter at an hour, at rest under its valve or in
// the open; false before it was pitched, or where its volume is not known.
func (i *Inquiry) HeldInFermenter(at time.Time) (State, bool) {
	beer, heat, set := i.workingVolume(), i.heatAtClosing(journal.Value[q.Temperature]{}), exactly(q.Pressure(0))
	for _, r := range i.gravityReadings() {
		if r.Temp.Written() && !r.When.After(at) {
			heat = read(i.bench, r.Temp, r.Temp.Key, ofHeat)
		}
	}
	if v := &i.Gyle.Fermenter.Spunding; v.Written() && !v.From.Middle().After(at) && !(v.To.Written() && v.To.Middle().Before(at)) {
		set = read(i.bench, v.Set, v.Set.Key, ofValve)
	}
	held := from3(i.bench, brewing.UnderGauge, set, heat, i.outside())
	if !beer.known || !held.known || !at.After(i.pitchedAt()) {
		return State{}, false
	}
	gas := brewing.MolesOf(held.Value, beer.Value)
	return State{At: at, Heat: heat.Value, Beer: beer.Value, Gas: gas.Mass(), Dissolved: held.Value, Gauge: set.Value}, true
}

// before is the same account up to an hour: a cylinder that was on then has fed until
// then.
func (w walk) before(at time.Time) walk {
	posts, fed := w.posts, false
	w.posts = nil
	for _, p := range posts {
		if p.at.After(at) {
			break
		}
		if passed := daysFrom(p.at, at); p.what == feeding && p.days > passed {
			p.days, fed = passed, true
		}
		w.posts = append(w.posts, p)
	}
	w.feeds = fed
	return w
}

// stateOf is how what has come of a walk stands at a heat. At the moment of a venting
// nothing presses.
func (w *walk) stateOf(s walked, x []float64, heat q.Temperature) (State, error) {
	h, err := s.Held, error(nil)
	if valve, on := w.valve(x); on {
		if h, err = h.HeldUnder(valve.set, valve.heat); err != nil {
			return State{}, err
		}
	}
	at, err := h.At(heat)
	if set, on := w.regulator(x); on {
		at.Gauge = max(at.Gauge, set)
	}
	if last := &w.posts[len(w.posts)-1]; last.what == venting && w.daysUntil(last.at) == s.days {
		at.Gauge = min(at.Gauge, 0)
	}
	return State{
		Heat: heat, Beer: h.Beer, Headspace: h.Room, Gas: h.CO2.Mass(), ToCome: (s.sugar + s.fall).Mass(),
		Dissolved: at.Dissolved, Gauge: at.Gauge,
	}, err
}

func daysFrom(from, to time.Time) float64 { return to.Sub(from).Hours() / 24 }

func valuesOf(numbers []argument) []float64 {
	x := make([]float64, len(numbers))
	for i := range numbers {
		x[i] = numbers[i].value
	}
	return x
}
