package figures

import (
	"math"
	"slices"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// logRows is what a logger's file says of one gyle's beer, as it stands there: from
// brew day until the float came out, or until now.
type logRows struct {
	log      *journal.Log
	from, to int                   // the rows that count
	gravity  func(row int) float64 // a row's, in SG
	points   []float64             // the gravity of each of them, NaN where it has none
	// impossible is how many of them have a gravity that no beer has.
	impossible int
}

// loggedRows are the rows of the gyle's logger. A float is taken out when the beer
// is racked, so of a day of racking without an hour nothing counts.
func (b *bench) loggedRows() logRows {
	r := logRows{log: b.Gyle.Log}
	begin := b.pitchedAt()
	if r.log == nil || begin.IsZero() || !r.log.Has("gravity") && !r.log.Has("brix") {
		return logRows{}
	}
	if brewed := b.Gyle.Brewed; brewed.Written() && brewed.Time.Before(begin) {
		begin = brewed.Time
	}
	end := b.Now.Add(time.Second)
	if out, ok := b.floatOut(); ok && out.Before(end) {
		end = out
	}
	r.from = r.log.From(begin)
	r.to = max(r.from, r.log.From(end))
	r.gravity = b.asLogged()
	r.points = make([]float64, r.to-r.from)
	possible := limitsOf(q.Gravity(1).Kind())
	for i := range r.points {
		g := r.gravity(r.from + i)
		if r.points[i] = 1000 * (g - 1); !math.IsNaN(g) && !possible.hold(g) {
			r.impossible++
			r.points[i] = math.NaN()
		}
	}
	return r
}

// floatOut is when the beer left the float: the first of racking, priming and
// filling, a bare date from its first minute.
func (b *bench) floatOut() (time.Time, bool) {
	moments := []journal.Moment{b.Gyle.Racked.On, b.Gyle.Priming.On}
	for i := range b.Gyle.Packages {
		p := &b.Gyle.Packages[i]
		moments = append(moments, p.On, p.Priming.On)
	}
	var first time.Time
	for _, m := range moments {
		if m.Written() && (first.IsZero() || m.Time.Before(first)) {
			first = m.Time
		}
	}
	return first, !first.IsZero()
}

// asLogged is how a row's gravity is had: as the logger gives it, which is taken
// to allow for the beer's heat itself; else from its Brix, which in beer needs the
// original gravity.
func (b *bench) asLogged() func(row int) float64 {
	log := b.Gyle.Log
	if log.Has("gravity") {
		return log.Gravity
	}
	pitched, og := b.pitchedAt(), b.hydrometerOG()
	return func(row int) float64 {
		var g q.Gravity
		var err error
		switch r := log.At(row); {
		case math.IsNaN(r.Brix):
			return math.NaN()
		case !r.When.After(pitched):
			g, err = brewing.WortGravityByRefractometer(q.Brix(r.Brix), float64(brewing.WortFactor))
		case og.known:
			g, err = brewing.GravityByRefractometer(og.Value, q.Brix(r.Brix), float64(brewing.WortFactor))
		default:
			return math.NaN()
		}
		if err != nil {
			return 0 // counted as impossible
		}
		return float64(g)
	}
}

// when is the time of a row, counted from the first that counts.
func (r logRows) when(i int) time.Time { return time.Unix(r.log.Second(r.from+i), 0) }

// bin is what the rows of a few hours say together. The median passes over a spike
// of foam as long as fewer than half of them are in it.
type bin struct {
	when   time.Time // their mean time
	points float64   // their median
	u      float64   // of the median, from their spread
	heat   float64   // the median heat, NaN where there is none
}

// between makes one bin of the rows in [from, to); false where none has a gravity.
func (r logRows) between(from, to time.Time) (bin, bool) {
	first, last := max(r.log.From(from), r.from), min(r.log.From(to), r.to)
	points, heats := make([]float64, 0, max(last-first, 0)), make([]float64, 0, max(last-first, 0))
	seconds, possible := 0.0, limitsOf(q.Temperature(0).Kind())
	for i := first; i < last; i++ {
		if g := r.points[i-r.from]; !math.IsNaN(g) {
			points = append(points, g)
			seconds += float64(r.log.Second(i) - from.Unix())
		}
		if t := r.log.Temp(i); possible.hold(t) {
			heats = append(heats, t)
		}
	}
	if len(points) == 0 {
		return bin{}, false
	}
	b := bin{when: time.Unix(from.Unix(), 0).In(from.Location()).Add(time.Duration(seconds / float64(len(points)) * float64(time.Second))), points: median(points), heat: median(heats)}
	b.u = spreadOf(points, b.points) / math.Sqrt(float64(len(points)))
	return b, true
}

// spreadOf is the standard deviation of rows about their median, from the median
// of how far they lie off it (1.4826 times that for a normal distribution); a point
// where there are too few to tell.
func spreadOf(points []float64, middle float64) float64 {
	if len(points) < 3 {
		return 1
	}
	off := make([]float64, len(points))
	for i, p := range points {
		off[i] = math.Abs(p - middle)
	}
	return 1.4826 * median(off)
}

// median sorts the values and is the middle one, NaN for none.
func median(of []float64) float64 {
	if len(of) == 0 {
		return math.NaN()
	}
	slices.Sort(of)
	return (of[(len(of)-1)/2] + of[len(of)/2]) / 2
}

// bins are the rows after pitching, some hours together.
func (r logRows) bins(pitched time.Time) []bin {
	var all []bin
	for i := 0; i < len(r.points); {
		at := r.when(i)
		if !at.After(pitched) {
			i++
			continue
		}
		from := pitched.Add(at.Sub(pitched).Truncate(binned))
		to := from.Add(binned)
		if b, ok := r.between(maxTime(from, pitched.Add(time.Second)), to); ok {
			all = append(all, b)
		}
		i = max(i+1, r.log.From(to)-r.from)
	}
	return all
}

func maxTime(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
