package figures

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// ferment is a simulated fermentation with a float in it and a hydrometer at hand.
type ferment struct {
	og, end, rate, mid, tail float64       // points, points, 1/h, h, and how long its tail is (1: as the curve's)
	every                    time.Duration // between rows
	hours                    float64       // how long it has worked
	low, drift, noise        float64       // how many points the float reads low, more each day, and its scatter
	hand                     []float64     // the hours of the readings by hand
	handOff                  float64       // the hydrometer's own bias
	extra                    func(hour float64) float64
}

// usual is a bitter on its fifth day.
func usual() ferment {
	return ferment{og: 44, end: 11, rate: 0.07, mid: 30, tail: 1, every: 10 * time.Minute, hours: 100, noise: 0.4, hand: []float64{0.5, 46, 94}}
}

func (f ferment) at(hour float64) float64 {
	return f.end + (f.og-f.end)/math.Pow(1+math.Exp(f.rate*(hour-f.mid)), f.tail)
}

var pitchedThen = time.Date(2026, 5, 1, 18, 0, 0, 0, time.UTC)

func hoursOn(hour float64) time.Time {
	return pitchedThen.Add(time.Duration(hour * float64(time.Hour))).Round(time.Minute)
}

// csv is what the float wrote.
func (f ferment) csv(random *rand.Rand) string {
	var b strings.Builder
	b.WriteString("when,gravity,temp (C)\n")
	for t := 0.2; t <= f.hours; t += f.every.Hours() {
		points := f.at(t) - f.low - f.drift*t/24 + f.noise*random.NormFloat64()
		if f.extra != nil {
			points += f.extra(t)
		}
		fmt.Fprintf(&b, "%s,%.4f,%.1f\n", hoursOn(t).Format("2006-01-02 15:04"), 1+points/1000, 19+0.2*random.NormFloat64())
	}
	return b.String()
}

// entry is what the brewer wrote, read to half a point.
func (f ferment) entry(random *rand.Rand, more string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\ngyle: 1\nbeer: Any\nbrewed: 2026-05-01\nyeast: [{yeast: nobody's own, pitched: 2026-05-01 18:00}]\n")
	fmt.Fprintf(&b, "fermenter: {volume: 20 L, gravity: %.4f, temp: 20 C}\nreadings_from: float.csv\n%s", 1+(f.og+f.handOff)/1000, more)
	for i, hour := range f.hand {
		if i == 0 {
			b.WriteString("readings:\n")
		}
		points := f.at(hour) + f.handOff + 0.3*random.NormFloat64()
		fmt.Fprintf(&b, "  - {when: %s, gravity: %.4f, temp: 20 C}\n", hoursOn(hour).Format("2006-01-02 15:04"), 1+math.Round(2*points)/2000)
	}
	b.WriteString("---\n")
	return b.String()
}

// gyle is the entry with its log.
func (f ferment) gyle(t testing.TB, random *rand.Rand, more string) *journal.Gyle {
	t.Helper()
	d := journal.ReadFile("gyles/1.md", []byte(f.entry(random, more)), nil)
	log, errors := journal.ReadLog("gyles/float.csv", strings.NewReader(f.csv(random)), time.UTC)
	if len(d.Errors)+len(errors) > 0 {
		t.Fatal(d.Errors, errors)
	}
	d.Gyle.Log = log
	return d.Gyle
}

func (f ferment) sheet(t testing.TB, random *rand.Rand) *Sheet {
	return Work(f.gyle(t, random, ""), Context{Larder: testLarder, Now: hoursOn(f.hours)})
}

func seeded(n uint64) *rand.Rand { return rand.New(rand.NewPCG(20260501, n)) }

func found(t testing.TB, s *Sheet, id ID) Figure {
	t.Helper()
	f, ok := s.Find(id, "")
	if !ok {
		t.Fatalf("no %s: %+v", id, s.Missing)
	}
	return f
}

// TestLoggerIsSetRight: a float that reads 3.2 points low and drifts by 0.4 a day
// is found out, and the gravity now is the beer's.
func TestLoggerIsSetRight(t *testing.T) {
	f := usual()
	f.low, f.drift, f.hours, f.hand = 3.2, 0.4, 150, []float64{0.5, 46, 94, 142}
	s := f.sheet(t, seeded(1))
	offset, drift, now := found(t, s, "logger-offset"), found(t, s, "logger-drift"), found(t, s, "gravity-now")
	middle := s.Inquire().logOf().line.middle
	if want := 3.2 + 0.4*middle; math.Abs(offset.Value-want) > offset.PlusMinus || offset.PlusMinus > 2.5 {
		t.Errorf("offset %.2f ± %.2f, want %.2f", offset.Value, offset.PlusMinus, want)
	}
	if math.Abs(drift.Value-0.4) > drift.PlusMinus || drift.PlusMinus > 0.6 {
		t.Errorf("drift %.2f ± %.2f, want 0.4", drift.Value, drift.PlusMinus)
	}
	if truth := 1 + f.at(150)/1000; math.Abs(now.Value-truth) > now.PlusMinus || now.PlusMinus > 0.003 {
		t.Errorf("gravity now %.4f ± %.4f, the beer has %.4f", now.Value, now.PlusMinus, truth)
	}
	if !strings.Contains(offset.Working(), "4 readings by hand") {
		t.Errorf("working: %s", offset.Working())
	}
}

// TestLoggerCoverage: over simulated ferments with floats that read anything up to
// five points wrong and drift, the ± of offset, drift, gravity now and forecast hold
// the truth about 95 times in 100.
func TestLoggerCoverage(t *testing.T) {
	const runs = 300
	random := seeded(2)
	held, given := map[ID]int{}, map[ID]int{}
	count := func(id ID, f Figure, ok bool, truth float64) {
		if ok {
			given[id]++
			if math.Abs(f.Value-truth) <= f.PlusMinus {
				held[id]++
			}
		}
	}
	for range runs {
		f := usual()
		f.og = 36 + 20*random.Float64()
		f.end = f.og * (0.25 + 0.1*random.NormFloat64()) // as widely as an unknown yeast is believed to
		if f.end < 2 || f.end > f.og-15 {
			continue
		}
		f.rate, f.mid = 0.06*math.Exp(0.3*random.NormFloat64()), 26+10*random.Float64()
		if random.IntN(2) == 0 {
			f.tail = 0.6 + 0.4*random.Float64() // slower at the end than the curve
		}
		f.every, f.hours = 30*time.Minute, 50+70*random.Float64()
		f.low, f.drift, f.handOff = 10*random.Float64()-5, 0.3*random.NormFloat64(), 0.001*1000*(2*random.Float64()-1)
		f.hand = []float64{0.5, f.hours * 0.5, f.hours - 3}
		wander := 0.57 * random.NormFloat64()
		f.extra = func(hour float64) float64 { return wander * math.Sin(hour/15) }
		s := f.sheet(t, random)
		l := s.Inquire().logOf()
		offset, ok := s.Find("logger-offset", "")
		count("logger-offset", offset, ok, f.low+f.drift*l.line.middle) // the float reads low, and the hydrometer's own bias is in the ±
		drift, ok := s.Find("logger-drift", "")
		count("logger-drift", drift, ok, f.drift)
		now, ok := s.Find("gravity-now", "")
		count("gravity-now", now, ok, 1+f.at(f.hours)/1000)
		forecast, ok := s.Find("forecast-fg", "")
		count("forecast-fg", forecast, ok, 1+f.end/1000)
	}
	for _, id := range []ID{"logger-offset", "logger-drift", "gravity-now", "forecast-fg"} {
		share := float64(held[id]) / float64(given[id])
		t.Logf("%-14s %3d given, %.1f %% held the truth", id, given[id], 100*share)
		if share < 0.91 || given[id] < runs/8 {
			t.Errorf("%s: the ± holds the truth in %.1f %% of %d", id, 100*share, given[id])
		}
	}
}

// TestManyRowsAreNotManyReadings: ten times the rows make nothing surer.
func TestManyRowsAreNotManyReadings(t *testing.T) {
	few, many := usual(), usual()
	few.every, many.every = 10*time.Minute, time.Minute
	a, b := few.sheet(t, seeded(3)), many.sheet(t, seeded(3))
	for _, id := range []ID{"logger-offset", "gravity-now", "forecast-fg"} {
		was, is := found(t, a, id).PlusMinus, found(t, b, id).PlusMinus
		if is < 0.9*was {
			t.Errorf("%s: ± %.5f with %d rows, ± %.5f with %d", id, was, a.Gyle.Log.Rows(), is, b.Gyle.Log.Rows())
		}
	}
}

// TestLoggerAlone: without a reading by hand its scale may be three points off.
func TestLoggerAlone(t *testing.T) {
	f := usual()
	f.hand = nil
	s := f.sheet(t, seeded(4))
	now := found(t, s, "gravity-now")
	if least := 2 * 0.003 / math.Sqrt(3); now.PlusMinus < least || now.PlusMinus > 1.3*least {
		t.Errorf("gravity now ± %.4f, want a little over %.4f", now.PlusMinus, least)
	}
	for _, m := range s.Missing {
		if m.Figure == "logger-offset" && reflect.DeepEqual(m.Needs, []string{"readings[+].gravity"}) {
			return
		}
	}
	t.Errorf("nobody is asked for a reading by hand: %+v", s.Missing)
}

// TestFoamDoesNotMoveTheForecast: spikes in one row of twelve, and eight hours in
// which the head holds the float up, move the end by less than half a point.
func TestFoamDoesNotMoveTheForecast(t *testing.T) {
	clean, foamed := usual(), usual()
	spikes := seeded(6)
	foamed.extra = func(hour float64) float64 {
		switch {
		case hour > 34 && hour < 42:
			return 6
		case spikes.IntN(12) == 0:
			return 15 * spikes.Float64()
		}
		return 0
	}
	a, b := found(t, clean.sheet(t, seeded(5)), "forecast-fg"), found(t, foamed.sheet(t, seeded(5)), "forecast-fg")
	if off := 1000 * math.Abs(a.Value-b.Value); off > 0.5 {
		t.Errorf("foam moved the forecast by %.2f points, from %.4f ± %.4f to %.4f ± %.4f", off, a.Value, a.PlusMinus, b.Value, b.PlusMinus)
	}
}

// TestFloatAloneProvesNoStandstill: a level trace is evidence once two readings by
// hand agree with it and the last word is by hand, and a fall since takes it away.
func TestFloatAloneProvesNoStandstill(t *testing.T) {
	stuck := func(hour float64) float64 { return 0 }
	for _, c := range []struct {
		name  string
		hand  []float64
		extra func(float64) float64
		want  bool
	}{
		{"no hydrometer", nil, stuck, false},
		{"a hydrometer once, at the end", []float64{214}, stuck, false},
		{"a hydrometer at the beginning and at the end", []float64{0.5, 214}, stuck, true},
		{"a hydrometer while it still fell", []float64{0.5, 100}, stuck, false},
		{"a fall after the last word", []float64{0.5, 190}, func(hour float64) float64 {
			if hour > 191 {
				return -5
			}
			return 0
		}, false},
		{"the same without the fall", []float64{0.5, 190}, stuck, true},
		{"two hydrometers that agree, foam between", []float64{0.5, 160, 214}, func(hour float64) float64 {
			if hour > 165 && hour < 200 {
				return 5
			}
			return 0
		}, true},
	} {
		f := usual()
		f.hours, f.hand, f.extra = 220, c.hand, c.extra
		if st := f.sheet(t, seeded(7)).Stability(); st.Stable != c.want {
			t.Errorf("%s: stable is %v, level for %s by %d", c.name, st.Stable, st.Span, len(st.Level))
		}
	}
}

// TestFinalGravityIsTheHydrometers while the two agree, and the logger's where the
// beer has plainly fallen on since, or nothing was read by hand.
func TestFinalGravityIsTheHydrometers(t *testing.T) {
	for _, c := range []struct {
		name   string
		hand   []float64
		logged bool
	}{{"read at the end", []float64{0.5, 90}, false}, {"read on the second day", []float64{0.5, 40}, true}, {"never read", nil, true}} {
		f := usual()
		f.hand = c.hand
		s := f.sheet(t, seeded(8))
		from := ""
		for _, w := range found(t, s, "fg").From() {
			from += " " + w.Key
		}
		if got := strings.Contains(from, "readings_from"); got != c.logged {
			t.Errorf("%s: fg is from%s", c.name, from)
		}
	}
}

// TestFloatIsOutOnceRacked: what a float writes after racking is about no beer.
func TestFloatIsOutOnceRacked(t *testing.T) {
	f := usual()
	f.hours = 200
	f.extra = func(hour float64) float64 {
		if hour > 174 { // midnight before 9 May
			return 300
		}
		return 0
	}
	g := f.gyle(t, seeded(9), "racked: {on: 2026-05-09, volume: 19 L}\n")
	s := Work(g, Context{Larder: testLarder, Now: hoursOn(400)})
	trace := slices.Collect(s.Inquire().LogTrace())
	if last := trace[len(trace)-1].When; last.After(hoursOn(174)) {
		t.Errorf("rows count until %s", last)
	}
	if check := s.LogCheck(); check.Impossible > 0 || math.Abs(check.JumpedBy) > 2 {
		t.Errorf("the float is blamed for what it wrote in the sink: %+v", check)
	}
}

// TestLogCheck: jumps, disagreement and impossible rows are found, and a healthy log
// shows none of them.
func TestLogCheck(t *testing.T) {
	healthy := usual()
	healthy.hand = []float64{0.5, 46, 70, 94}
	if c := healthy.sheet(t, seeded(10)).LogCheck(); math.Abs(c.OffBy) > 1.5 || math.Abs(c.JumpedBy) > 3 || c.Impossible > 0 {
		t.Errorf("a healthy log: %+v", c)
	}
	jumps := healthy
	jumps.extra = func(hour float64) float64 {
		if hour > 50 && hour < 51 {
			return -6
		}
		return 0
	}
	c := jumps.sheet(t, seeded(10)).LogCheck()
	if math.Abs(c.JumpedBy) < 5 || math.Abs(c.Jumped.Sub(hoursOn(50.5)).Hours()) > 1.5 {
		t.Errorf("a jump of 6 points about hour 50: %+v", c)
	}
	spike := healthy
	spike.extra = func(hour float64) float64 {
		if hour > 50 && hour < 50.17 {
			return 40
		}
		return 0
	}
	if c := spike.sheet(t, seeded(10)).LogCheck(); math.Abs(c.JumpedBy) > 3 {
		t.Errorf("one row that stands out counts as a jump: %+v", c)
	}
	off := healthy
	off.extra = func(hour float64) float64 {
		if hour > 60 && hour < 80 {
			return 7
		}
		return 0
	}
	if c := off.sheet(t, seeded(10)).LogCheck(); c.OffBy < 4 || !c.Off.When.Equal(hoursOn(70)) {
		t.Errorf("seven points off at hour 70: %+v", c)
	}
	wild := healthy
	wild.extra = func(hour float64) float64 { return 1044000 }
	if c := wild.sheet(t, seeded(10)).LogCheck(); c.Impossible == 0 {
		t.Error("gravities of a thousand are passed over in silence")
	}
}

// TestBrixLog: a log of Brix is the beer's gravity by the original one.
func TestBrixLog(t *testing.T) {
	g := usual().gyle(t, seeded(11), "")
	log, errors := journal.ReadLog("gyles/float.csv", strings.NewReader("when,brix\n2026-05-04 18:00,5.8\n2026-05-04 18:30,5.8\n2026-05-04 19:00,5.8\n"), time.UTC)
	if len(errors) > 0 {
		t.Fatal(errors)
	}
	g.Log, g.Readings = log, nil
	s := Work(g, Context{Larder: testLarder, Now: hoursOn(100)})
	now := found(t, s, "gravity-now")
	if now.Value < 1.005 || now.Value > 1.016 || now.PlusMinus < 0.003 {
		t.Errorf("5.8 °Bx from 1.044 is %.4f ± %.4f", now.Value, now.PlusMinus)
	}
}

// TestLoggerMonteCarlo holds the ± of a log's figures to a Monte Carlo of the same
// sheet (JCGM 101:2008).
func TestLoggerMonteCarlo(t *testing.T) {
	f := usual()
	f.hours, f.hand = 120, []float64{0.5, 40, 80, 110}
	g := f.gyle(t, seeded(12), "")
	c := Context{Larder: testLarder, Now: hoursOn(120)}
	nominal, counts := Work(g, c), map[part]*coverage{}
	const trials = 500
	for trial := range trials {
		cover(nominal, trialOf(g, c, 1, trial), counts)
	}
	for _, id := range []ID{"logger-offset", "logger-drift", "gravity-now"} {
		got := float64(counts[partOf(found(t, nominal, id))].within) / trials
		if below(got, coversAtLeast, trials) || above(got, coversAtMost, trials) {
			t.Errorf("%s: the ± covers %.1f %% of the trials", id, 100*got)
		}
	}
}

// TestLoggerTwice: the same journal gives the same sheet.
func TestLoggerTwice(t *testing.T) {
	a, b := usual().sheet(t, seeded(14)), usual().sheet(t, seeded(14))
	if printed(a) != printed(b) {
		t.Error(differing(printed(a), printed(b)))
	}
}

// BenchmarkLoggedGyle works a gyle with a hundred thousand rows.
func BenchmarkLoggedGyle(b *testing.B) {
	f := usual()
	f.every, f.hours = 3*time.Second, 84
	g := f.gyle(b, seeded(15), "")
	b.ReportAllocs()
	for b.Loop() {
		Work(g, Context{Larder: testLarder, Now: hoursOn(90)})
	}
	b.ReportMetric(float64(g.Log.Rows()), "rows")
}
