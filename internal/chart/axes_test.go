package chart

import (
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the test names a zone whose clocks change
)

// labels are what an axis of time over the span would say, unthinned.
func labels(from, to time.Time, zone *time.Location) string {
	a := newTimeAxis(span{seconds(from), seconds(to), true}, zone, 40, 350)
	var said []string
	var before time.Time
	for _, tick := range a.ticks() {
		said = append(said, a.label(tick, before))
		before = tick
	}
	return strings.Join(said, " | ")
}

func TestTimeTicks(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Fatal(err)
	}
	utc := func(s string) time.Time {
		moment, err := time.Parse("2006-01-02 15:04", s)
		if err != nil {
			t.Fatal(err)
		}
		return moment
	}
	for _, c := range []struct {
		name, from, to string
		zone           *time.Location
		want           string
	}{
		{"a brew day", "2026-03-07 09:05", "2026-03-07 15:10", nil, "7 Mar 10:00 | 11:00 | 12:00 | 13:00 | 14:00 | 15:00"},
		{"two nights", "2026-03-07 13:40", "2026-03-09 09:00", nil, "8 Mar | 12:00 | 9 Mar"},
		{"nine days, from midnight", "2026-03-07 13:40", "2026-03-16 09:00", nil, "7 Mar | 9 | 11 | 13 | 15"},
		{"weeks from the first day, over a month's end", "2026-03-07 13:40", "2026-04-12 09:00", nil, "7 Mar | 14 | 21 | 28 | 4 Apr | 11"},
		{"a year's end", "2026-12-28 13:40", "2027-01-04 09:00", nil, "28 Dec | 30 | 1 Jan 2027 | 3"},
		{"months", "2026-03-07 13:40", "2027-02-01 00:00", nil, "May 2026 | Jul | Sep | Nov | Jan 2027"},
		{"years", "2019-03-07 13:40", "2026-02-01 00:00", nil, "2020 | 2022 | 2024 | 2026"},
		{"clocks go forward: days still begin at midnight", "2026-03-27 12:00", "2026-04-01 12:00", london, "27 Mar | 28 | 29 | 30 | 31 | 1 Apr"},
		{"the night itself", "2026-03-28 22:00", "2026-03-29 06:00", london, "28 Mar 22:00 | 29 Mar | 02:00 | 04:00 | 06:00"},
		{"one moment", "2026-03-07 13:40", "2026-03-07 13:40", nil, "7 Mar 11:00 | 12:00 | 13:00 | 14:00 | 15:00 | 16:00"},
	} {
		if got := labels(utc(c.from), utc(c.to), c.zone); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

func TestRuled(t *testing.T) {
	for _, c := range []struct {
		lo, hi, least float64
		most          int
		want          string
	}{
		{1.0095, 1.0372, 0.001, 8, "1.005 1.010 1.015 1.020 1.025 1.030 1.035 1.040"},
		{1.0095, 1.0372, 0.001, 6, "1.00 1.01 1.02 1.03 1.04"},
		{1.010, 1.0105, 0.001, 6, "1.010 1.011"},
		{18, 20.4, 0.5, 4, "18 19 20 21"},
		{0, 37, 1, 6, "0 10 20 30 40"},
		{-3, 4, 0.5, 4, "−5 0 5"},
		{0, 1.62, 0.001, 6, "0.0 0.5 1.0 1.5 2.0"},
	} {
		a := span{c.lo, c.hi, true}.ruled(0, 100, c.most, c.least)
		var said []string
		for _, v := range a.ticks() {
			said = append(said, spoken(v, a.decimals))
		}
		if got := strings.Join(said, " "); got != c.want {
			t.Errorf("%g to %g: got %s, want %s", c.lo, c.hi, got, c.want)
		}
	}
}

// TestHoist shows each of the manners in which labels make room for another.
func TestHoist(t *testing.T) {
	type want struct {
		words string
		left  bool
		lane  int
	}
	for name, c := range map[string]struct {
		flags []pennant
		want  []want
	}{
		"apart":                {[]pennant{{x: 40, words: "pitched"}, {x: 200, words: "racked"}}, []want{{"pitched", false, 0}, {"racked", false, 0}}},
		"close":                {[]pennant{{x: 40, words: "pitched"}, {x: 60, words: "roused"}}, []want{{"pitched", false, 0}, {"roused", false, 1}}},
		"unsorted":             {[]pennant{{x: 60, words: "roused"}, {x: 40, words: "pitched"}}, []want{{"pitched", false, 0}, {"roused", false, 1}}},
		"in one place":         {[]pennant{{x: 40, words: "racked"}, {x: 41, words: "primed"}}, []want{{"racked, primed", false, 0}}},
		"at the right border":  {[]pennant{{x: 340, words: "chilled"}}, []want{{"chilled", true, 0}}},
		"a circle at the edge": {[]pennant{{x: 300, words: "racked"}, {x: 340, words: "chilled"}}, []want{{"racked", true, 1}, {"chilled", true, 0}}},
	} {
		placed, _, unnamed := hoist(c.flags, 4, 356)
		var got []want
		for _, f := range placed {
			got = append(got, want{f.words, f.left, f.lane})
		}
		if !slices.Equal(got, c.want) || unnamed != 0 {
			t.Errorf("%s: got %v (%d unnamed), want %v", name, got, unnamed, c.want)
		}
	}
}

// TestHoistOwnsUp: marks that could not be named are counted and said.
func TestHoistOwnsUp(t *testing.T) {
	in := mild()
	in.Events = nil
	for i := range 30 {
		in.Events = append(in.Events, Event{at(7, 13, 40).Add(time.Duration(i) * 7 * time.Hour), "something with a long name"})
	}
	if svg := string(Fermentation(in)); !strings.Contains(svg, "marks have no room for their names") {
		t.Error("thirty long labels were claimed to fit")
	}
}

func TestShorten(t *testing.T) {
	for _, c := range []struct {
		words string
		room  float64
		want  string
	}{
		{"racked", 100, "racked"},
		{"  two\n\tlines ", 100, "two lines"},
		{"dry hops, second addition", 80, "dry hops…"},
		{"racked", 10, ""},
		{"bad\x00\xff", 100, "bad��"},
	} {
		if got := shorten(c.words, c.room); got != c.want || breadth(got) > c.room {
			t.Errorf("shorten(%q, %g) = %q, %g wide, want %q", c.words, c.room, got, breadth(got), c.want)
		}
	}
}

// TestNoWhiskerIsCutUnsaid: an interval that ends within the axis has no arrow, and one
// that goes on beyond it has one at each end that does, and words for it.
func TestNoWhiskerIsCutUnsaid(t *testing.T) {
	near := []Result{{1, 70, 1, ""}, {2, 72, 1, ""}}
	if svg := string(Dots(DotsInput{Results: near})); strings.Contains(svg, goesOn) {
		t.Errorf("no interval is cut, and yet:\n%s", svg)
	}
	far := append(near, Result{3, 71, 500, ""})
	if svg := string(Dots(DotsInput{Results: far})); strings.Count(svg, goesOn) != 1 {
		t.Errorf("a cut interval is not told of:\n%s", svg)
	}
	a := axis{scale: scale{lo: 0, hi: 10, from: 100, to: 0}}
	for _, c := range []struct {
		low, high float64
		strokes   int
		cut       bool
	}{{2, 8, 1, false}, {0, 10, 1, false}, {2, 11, 2, true}, {-1, 8, 2, true}, {-1, 11, 3, true}} {
		var drawn trace
		if cut := a.whisker(&drawn, 50, c.low, c.high); cut != c.cut || strings.Count(drawn.String(), "M") != c.strokes {
			t.Errorf("from %g to %g: cut is %t, drawn %s", c.low, c.high, cut, drawn.String())
		}
	}
}
