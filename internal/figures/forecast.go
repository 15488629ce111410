package figures

import (
	"fmt"
	"math"
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindForecastFG = &Kind{
		ID: IDForecastFG, Label: "Final gravity forecast", Unit: "SG", Decimals: 4,
		Says:    "Where the curve through the readings ends, with what the yeast is known for counting as one more reading. Forecasts from few readings run low, and the ± owns up to that.",
		Formula: "gravity = {Pe} + ({Pi} − {Pe}) ÷ (1 + e^({B} ({t} − {M}))), in points and hours, least squares",
		Symbols: []string{"Pe: lower end", "Pi: upper end", "B: rate, 1/h", "M: middle, h after pitching", "t: hours since pitching"},
		Valid:   "four readings or more, a fall of at least 5 points, and readings past the steepest part",
		Source:  "the four-parameter logistic of ASBC Yeast-14 (Speers, Rogers and Smith, J. Inst. Brew. 109(3) 229-235, 2003)",
		Checked: "a brewery's published record of 1941, forecast from its first five, six and seven readings, and simulated fermentations of seven shapes",
	}
	kindForecastFinish = &Kind{
		ID: IDForecastFinish, Label: "Finished about", Unit: dateUnit,
		Says:    "Between the first day on which it may be within half a point of its end and the last, if it drags out its last points, pauses, or is let warm up; never before it last fell. A quiet airlock is no evidence; two readings that agree, 48 hours apart, are.",
		Formula: "{D} = halfway from the first to the last of: pitched + {M} + ln(({Pi} − {Pe}) ÷ 0.5 − 1) ÷ {B}, hurried or dragged out",
		Symbols: []string{"D: finished about", "M: middle, h", "Pi, Pe: upper and lower end, points", "B: rate, 1/h"},
		Valid:   kindForecastFG.Valid, Source: kindForecastFG.Source, Checked: kindForecastFG.Checked,
	}
	forecastKinds = []*Kind{kindForecastFG, kindForecastFinish}
)

// What a forecast asks for, and what it believes of any ale before the first
// reading.
const (
	fewestReadings = 4
	leastFall      = 5.0 // points
	// offCurve is how far, in points, a real gravity lies off the best curve: the
	// residual deviation of the published record of 1941 is 0.9.
	offCurve = 0.7
	// tailDoubt is the standard uncertainty of the lower end, as a share of what
	// is forecast still to fall. Ferments have longer tails than the curve: on the
	// published record a fit to the first five, six or seven readings, with the
	// belief about an unknown yeast, ends low by 0.3 to 0.6 of what it then had
	// still to fall, and twice this covers the worst.
	tailDoubt = 0.3
	// loggedU is the standard uncertainty, in points, of six hours of a logger. How
	// far a beer lies off its curve changes within half a day, by which the published
	// record was read, so two sightings of six hours count as one reading.
	loggedU = offCurve * math.Sqrt2
	// finishedWithin is how near its end, in points, the curve counts as done.
	finishedWithin = 0.5
)

// Forecast is the curve through a gyle's gravities.
type Forecast struct {
	fit   fitted
	start time.Time
	last  GravityReading // the sighting that it goes on from
	// shared is the standard uncertainty, in points, of what shifts the whole curve.
	shared float64
	open   remainder
}

// From is when it was last sighted: the forecast begins there.
func (f *Forecast) From() time.Time { return f.last.When }

// At is the gravity it expects at a moment, and the ± (2u) of that. Gravity only
// falls: it expects none above the last sighting after that.
func (f *Forecast) At(t time.Time) (g q.Gravity, plusMinus float64) {
	hour := t.Sub(f.start).Hours()
	points, now := f.fit.at(hour), f.last.Gravity.Value.Points()
	if t.After(f.last.When) {
		points = math.Min(points, now)
	}
	u := math.Hypot(f.fit.u(f.fit.slopes(hour)), f.shared)
	u = math.Hypot(u, tailDoubt*math.Max(0, now-points)) // still to fall by then
	if since := t.Sub(f.last.When).Hours(); since > 0 {
		u = math.Hypot(u, f.open.tail/2*(1-math.Exp(-since/f.open.takes)))
	}
	return q.SG(1 + points/1000), 2 * u / 1000
}

// forecastCurve is the curve through the gravities so far, nil with the reason
// where the readings cannot support one.
func (b *bench) forecastCurve() (*Forecast, string) {
	c := b.memoForecast.once(func() forecastOr {
		f, why := b.makeForecast()
		return forecastOr{f, why}
	})
	return c.curve, c.whyNot
}

// forecastOr is a forecast, or why there is none.
type forecastOr struct {
	curve  *Forecast
	whyNot string
}

func (b *bench) makeForecast() (*Forecast, string) {
	readings := byTime(b.beforeSealing(), b.sightings())
	og := b.og()
	switch {
	case b.begunAsBeer():
		return nil, "it began as beer"
	case !og.known:
		return nil, "there is no original gravity to fall from"
	case len(readings)+1 < fewestReadings:
		return nil, fmt.Sprintf("%d gravities with the original one; a curve needs %d", len(readings)+1, fewestReadings)
	}
	last := readings[len(readings)-1]
	if og.Value.Points()-last.Gravity.Value.Points() < leastFall {
		return nil, "it has hardly begun to fall"
	}
	seen := b.onTheCurve(readings, og)
	f, err := fit(seen, b.beliefs(og, last))
	if err != nil {
		return nil, err.Error()
	}
	if hour := last.When.Sub(b.pitchedAt()).Hours(); hour < f.curve[middle] {
		return nil, "it is still falling its fastest; read again in a day"
	}
	_, most, goesOn := b.attenuationLimits(allOf)
	lowest := f.curve[lower]
	if end := b.lowestEnd(most); end.known {
		lowest = end.Value.Points()
	}
	shared := b.sharedBias(last).Uncertainty() * 1000
	return &Forecast{fit: f, start: b.pitchedAt(), last: last, shared: shared, open: f.leftOpen(seen, lowest, goesOn)}, ""
}

// onTheCurve are the gravities that it goes through: the original at pitching, and the
// readings after it. What all readings of an instrument share moves the whole
// curve and is no part of their scatter.
func (b *bench) onTheCurve(readings []GravityReading, og Estimate[q.Gravity]) []sighting {
	all := []sighting{{0, og.Value.Points(), offCurve}}
	for _, r := range readings {
		u := math.Hypot(ownU(r), offCurve)
		if r.Logged {
			u = loggedU
		}
		all = append(all, sighting{r.When.Sub(b.pitchedAt()).Hours(), r.Gravity.Value.Points(), u})
	}
	return all
}

// beliefs are what is known before the readings: it starts near its original
// gravity, ends where the yeast should take it (or, of an unknown yeast, near a
// quarter of that), and takes one to several days over it (common practice, no
// source).
func (b *bench) beliefs(og Estimate[q.Gravity], last GravityReading) belief {
	start := og.Value.Points()
	end, endU := start/4, start/10
	if expected := b.expectedByYeast(); expected.known {
		end, endU = expected.Value.Points(), math.Max(1.5, expected.Uncertainty()*1000)
	}
	return belief{
		mean: curve{end, start, math.Log(0.07), 36},
		u:    curve{endU, 1.5, 0.7, 24},
	}
}

// forecasting puts the forecast on the sheet while the beer is working.
func forecasting(b *bench) {
	if b.Stage != Working {
		return
	}
	f, why := b.forecastCurve()
	if f == nil {
		lack := &Lack{Because: why, Needs: []string{"readings[+].gravity"}}
		b.lacks(kindForecastFG, "", lack)
		b.lacks(kindForecastFinish, "", lack)
		return
	}
	end := scattered(b, b.forecastFG(), f.open.tail/2000, "SG", "the forecast's curve", "it may drag out points that no reading shows yet")
	symbols := f.symbols()
	if figure := add(b, kindForecastFG, "", end, symbols...); figure != nil {
		figure.Provisional = true
	}
	b.addFinish(f, symbols)
}

// symbols are the curve's parameters, rounded as the fit supports and one digit
// more.
func (f *Forecast) symbols() []symbol {
	of := func(name string, i int) symbol {
		return symbol{name: name, value: f.fit.curve[i], place: 0.2 * f.fit.u(unit(i))}
	}
	rate := math.Exp(f.fit.curve[logRate])
	return []symbol{of("Pe", lower), of("Pi", upper), {name: "B", value: rate, place: 0.2 * rate * f.fit.u(unit(logRate))}, of("M", middle), inWords("t", "t")}
}

// unit is the slope of a parameter by itself.
func unit(parameter int) curve {
	var slopes curve
	slopes[parameter] = 1
	return slopes
}

// forecastFG is the end of the forecast curve, shifted with its instrument. A
// curve may end a little above the last reading; the beer cannot, since gravity
// only falls.
func (b *bench) forecastFG() Estimate[q.Gravity] {
	f, why := b.forecastCurve()
	if f == nil {
		return withheld[q.Gravity](why)
	}
	end := math.Min(f.fit.curve[lower], f.last.Gravity.Value.Points())
	toFall := math.Max(0, f.last.Gravity.Value.Points()-end)
	u := math.Hypot(f.fit.u(curve{lower: 1}), tailDoubt*toFall) / 1000
	e := input(b, q.SG(1+end/1000), Input{What: "the forecast from the readings", Where: f.last.Where, Uncertainty: u, Unit: "SG", Reason: "the fit's covariance, and 0.3 of what is still to fall"})
	return sum(b, e, b.sharedBias(f.last))
}

// sharedBias is nought, with the doubt that all sightings on the curve share: a
// logger's, whose rows are most of them, else the hydrometer's.
func (b *bench) sharedBias(last GravityReading) Estimate[q.Gravity] {
	bias := b.biasOf(b.hydrometerOf(b.Gyle.Fermenter.With))
	if l := b.logOf(); l != nil && len(l.sightings) > 0 {
		bias = l.bias(b, last.When)
	}
	bias.Value = 0 // the readings are corrected for it; only its doubt is shared
	return bias
}

// addFinish is the middle of when it may be done, and ± the half of that time.
func (b *bench) addFinish(f *Forecast, symbols []symbol) {
	hours, off := (f.open.earliest+f.open.latest)/2, (f.open.latest-f.open.earliest)/2
	date := f.start.Add(time.Duration(hours * float64(time.Hour))).Round(time.Hour)
	b.Figures = append(b.Figures, Figure{
		Kind: kindForecastFinish, Date: date, Value: float64(date.Unix()), PlusMinus: off / 24,
		Provisional: true, at: []journal.Where{f.last.Where}, sheet: b.Sheet,
		worked: b.keepSymbols(append([]symbol{onDay("D", date)}, symbols...)),
	})
}
