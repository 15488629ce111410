package figures

import "math"

// Real beers do not fall by one curve: some drag out their last points for a week or two,
// some pause, a lager hurries once it is let warm up. A few readings cannot tell which it
// will be, so the forecast allows for all of them: what is left may be more than the curve's
// end says, and it may take longer or less time.

// remainder is what a curve leaves open of a course.
type remainder struct {
	tail  float64 // points that may still come below the curve's end
	takes float64 // hours in which two thirds of a tail come
	// earliest and latest are between when it may be within finishedWithin of its end, in
	// hours since pitching.
	earliest, latest float64
}

// What courses do beside the curve (common practice, no source, and the simulated courses
// that the tests hold the forecast to).
const (
	tailMost     = 3.5   // points that a tail may have which no reading shows yet
	tailTakes    = 96.0  // h at least
	tailOfMonths = 168.0 // h at least, of a culture that goes on where a beer yeast stops
	tailSlowest  = 336.0 // h
	tailReckoned = 168.0 // h: as fast as it fell lately for so long
	hurried      = 0.15  // of the time that is left, where the beer is let warm up
	rateOver     = 48.0  // h: over which the present rate is taken
	// unshown is a fall that two readings a point apart need not show.
	unshown = 1.0 // points
)

// leftOpen is what the sightings leave open of a beer that nothing takes lower than lowest,
// in points; goesOn says that a culture in it works on for months.
func (f fitted) leftOpen(seen []sighting, lowest float64, goesOn bool) remainder {
	last := seen[len(seen)-1]
	fell, over := lately(seen)
	rate := (max(fell, 0) + unshown) / over
	done := f.hoursTo(finishedWithin)
	most := max(tailMost, f.curve[lower]-lowest)
	if last.hour > done && fell > unshown {
		most = max(most, f.curve[lower]) // it goes on where the curve has ended
	}
	r := remainder{tail: min(rate*tailReckoned, most)}
	least := tailTakes
	if goesOn {
		least = tailOfMonths
	}
	r.takes = min(max(r.tail/rate, least), tailSlowest)
	u := f.uOf(func(c curve) float64 { return c.hoursTo(finishedWithin) })
	fellLast := lastFell(seen)
	r.earliest = max(min(done-2*u, fellLast+hurried*max(done-fellLast, 0)), fellLast)
	r.latest = max(done+2*u, last.hour) + r.takes*math.Log(max(r.tail/finishedWithin, 1))
	return r
}

// lately is by how many points it fell over the last hours, and over how many: two days, or
// since the reading before where that is longer ago.
func lately(seen []sighting) (fell, over float64) {
	last := seen[len(seen)-1]
	for i := len(seen) - 2; i >= 0; i-- {
		fell, over = seen[i].points-last.points, last.hour-seen[i].hour
		if over >= rateOver {
			break
		}
	}
	return fell, max(over, 1)
}

// lastFell is the hour of the last sighting that stood clearly below all before it.
func lastFell(seen []sighting) float64 {
	lowest, hour := math.Inf(1), 0.0
	for _, s := range seen {
		if s.points < lowest-unshown {
			lowest, hour = s.points, s.hour
		}
	}
	return hour
}
