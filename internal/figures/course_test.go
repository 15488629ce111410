package figures

import (
	"math"
	"math/rand/v2"
	"testing"
)

// course is a way in which gravity falls: points at an hour, and where it ends.
type course struct {
	at  func(hour float64) float64
	end float64
}

// finished is the hour from which on it is within half a point of its end.
func (c course) finished() float64 {
	for hour := 0.0; ; hour += 2 {
		if c.at(hour) <= c.end+finishedWithin {
			return hour
		}
	}
}

func logistic(rate, middle float64) func(hour float64) float64 {
	return func(hour float64) float64 { return 1 / (1 + math.Exp(rate*(hour-middle))) }
}

// courses are seven shapes: what real fermentations do beside the logistic.
var courses = map[string]func(r *rand.Rand, og, end float64) course{
	"a logistic": func(r *rand.Rand, og, end float64) course {
		l := logistic(0.04+0.05*r.Float64(), 26+14*r.Float64())
		return course{func(t float64) float64 { return end + (og-end)*l(t) }, end}
	},
	"a slow tail of three points": func(r *rand.Rand, og, end float64) course {
		l, takes := logistic(0.05+0.04*r.Float64(), 26+12*r.Float64()), 60+60*r.Float64()
		return course{func(t float64) float64 { return end + (og-end-3)*l(t) + 3*math.Exp(-max(t-48, 0)/takes) }, end}
	},
	"a lager let warm up": func(r *rand.Rand, og, end float64) course {
		l, rest, faster := logistic(0.02+0.01*r.Float64(), 80+40*r.Float64()), 120+72*r.Float64(), 2+r.Float64()
		return course{func(t float64) float64 {
			if t > rest {
				t = rest + faster*(t-rest)
			}
			return end + (og-end)*l(t)
		}, end}
	},
	"a saison's long tail": func(r *rand.Rand, og, end float64) course {
		l, takes, share := logistic(0.05+0.04*r.Float64(), 28+12*r.Float64()), 120+72*r.Float64(), 6+4*r.Float64()
		return course{func(t float64) float64 { return end + (og-end-share)*l(t) + share*math.Exp(-max(t-60, 0)/takes) }, end}
	},
	"a pause": func(r *rand.Rand, og, end float64) course {
		l, from, long := logistic(0.04+0.04*r.Float64(), 30+12*r.Float64()), 50+30*r.Float64(), 24+36*r.Float64()
		return course{func(t float64) float64 { return end + (og-end)*l(t-min(max(t-from, 0), long)) }, end}
	},
	"as it decays": func(r *rand.Rand, og, end float64) course {
		lag, takes := 8+10*r.Float64(), 24+36*r.Float64()
		return course{func(t float64) float64 { return end + (og-end)*math.Exp(-max(t-lag, 0)/takes) }, end}
	},
	"cooling down": func(r *rand.Rand, og, end float64) course {
		l, from := logistic(0.05+0.04*r.Float64(), 30+10*r.Float64()), 48+24*r.Float64()
		return course{func(t float64) float64 {
			if t > from {
				t = from + 0.5*(t-from)
			}
			return end + (og-end)*l(t)
		}, end}
	},
}

// readWith are two ways of reading: one hydrometer reading a day, and a logger's rows of
// six hours with their wander.
var readWith = map[string]func(r *rand.Rand, c course, until float64) []sighting{
	"a hydrometer": func(r *rand.Rand, c course, until float64) (seen []sighting) {
		for hour := 24.0; hour <= until; hour += 24 {
			at := hour - 4 + 8*r.Float64()
			points := math.Round(2*(c.at(at)+0.5*r.NormFloat64())) / 2
			seen = append(seen, sighting{at, points, math.Hypot(0.5, offCurve)})
		}
		return seen
	},
	"a logger": func(r *rand.Rand, c course, until float64) (seen []sighting) {
		wander := 0.0
		for hour := 6.0; hour <= until; hour += 6 {
			wander = 0.8*wander + 0.3*r.NormFloat64()
			seen = append(seen, sighting{hour, c.at(hour) + wander, loggedU})
		}
		return seen
	},
}

// TestForecastCoversCourses: of seven shapes, from day three until it is done, read either
// way, the day on which it is done and the gravity at which it ends lie within the stated
// intervals at least 90 times in 100.
func TestForecastCoversCourses(t *testing.T) {
	const runs = 60
	for shape, draw := range courses {
		for by, read := range readWith {
			saison := shape == "a saison's long tail" // its yeast is known by its card
			r := rand.New(rand.NewPCG(20260601, uint64(len(shape)*100+len(by))))
			held, ended, given, wide := 0, 0, 0, 0.0
			for range runs {
				og := 38 + 24*r.Float64()
				end := og * (0.2 + 0.06*r.NormFloat64())
				if end < 2 {
					end = 2
				}
				c := draw(r, og, end)
				done := c.finished()
				for day := 3.0; day*24 < done+24; day++ {
					seen := append([]sighting{{0, og, offCurve}}, read(r, c, day*24)...)
					last := seen[len(seen)-1]
					f, err := fit(seen, unknownYeast(og))
					if err != nil || last.hour < f.curve[middle] || og-last.points < leastFall {
						continue
					}
					lowest := og * (1 - anyYeastMost.Fraction())
					if saison {
						lowest = 0
					}
					open := f.leftOpen(seen, lowest, saison)
					given++
					if open.earliest-12 <= done && done <= open.latest+12 { // it is printed as a day
						held++
					}
					wide += (open.latest - open.earliest) / 48
					u := math.Hypot(math.Hypot(f.u(curve{lower: 1}), tailDoubt*math.Max(0, last.points-f.curve[lower])), open.tail/2)
					if math.Abs(math.Min(f.curve[lower], last.points)-c.end) <= 2*u {
						ended++
					}
				}
			}
			share, ends := float64(held)/float64(given), float64(ended)/float64(given)
			t.Logf("%s by %s: %d forecasts, the day in %.0f %%, ± %.1f days; the gravity in %.0f %%", shape, by, given, 100*share, wide/float64(given), 100*ends)
			if share < 0.9 || ends < 0.9 || given < runs {
				t.Errorf("%s by %s: the day held in %.0f %%, the gravity in %.0f %% of %d", shape, by, 100*share, 100*ends, given)
			}
		}
	}
}
