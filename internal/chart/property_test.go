package chart

import (
	"html/template"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

const mostBytes = 20_000

// anyValue is near a centre, or something that a broken reading might be.
func anyValue(centre, spread float64) *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.Float64Range(centre-spread, centre+spread),
		rapid.Float64Range(centre-spread, centre+spread),
		rapid.Float64(),
		rapid.SampledFrom([]float64{0, centre, -centre, 1e9, -1e9, 1e-300, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64}),
	)
}

// anyTime draws times within some distance of a day, or far from any.
func anyTime(t *rapid.T) func() time.Time {
	within := rapid.SampledFrom([]int64{0, 60, 3600, 86400, 30 * 86400, 3e8, 9e10}).Draw(t, "within")
	return func() time.Time {
		if rapid.IntRange(0, 30).Draw(t, "odd") == 0 {
			return rapid.SampledFrom([]time.Time{{}, time.Unix(1<<55, 0), time.Date(-5, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(9999, 12, 31, 23, 59, 59, 0, time.UTC)}).Draw(t, "far")
		}
		return at(7, 13, 40).Add(time.Duration(rapid.Int64Range(0, within).Draw(t, "after")) * time.Second)
	}
}

func anyFrame(t *rapid.T) Frame {
	return Frame{
		Prefix: rapid.String().Draw(t, "prefix"), Title: rapid.String().Draw(t, "title"),
		Width: rapid.SampledFrom([]int{0, 1, 320, 360, 640, 1200, 1 << 40, -3}).Draw(t, "width"),
	}
}

func anyWords() *rapid.Generator[string] {
	return rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{
		"pitched", "roused", "dry hops", "racked", "", "<script>alert(1)</script>", strings.Repeat(`"&`, 300), strings.Repeat("é̂", 400), "a\x00b\xff\u202e\ufffe\uffff",
	}))
}

func anyZone(t *rapid.T) *time.Location {
	return rapid.SampledFrom([]*time.Location{nil, time.UTC, time.FixedZone("", 20700), time.FixedZone("", -43200)}).Draw(t, "zone")
}

func anyEvents(t *rapid.T, when func() time.Time) []Event {
	events := make([]Event, rapid.IntRange(0, 14).Draw(t, "events"))
	for i := range events {
		events[i] = Event{when(), anyWords().Draw(t, "label")}
	}
	return events
}

func anyPoints(t *rapid.T, name string, when func() time.Time, centre, spread float64) []Point {
	points := make([]Point, rapid.SampledFrom([]int{0, 1, 2, 5, 70, 250}).Draw(t, name))
	for i := range points {
		points[i] = Point{when(), anyValue(centre, spread).Draw(t, "value"), anyValue(0, spread).Draw(t, "±")}
	}
	return points
}

// sound fails unless the chart is empty or all that a chart promises.
func sound(t *rapid.T, svg template.HTML, most int) {
	if svg == "" {
		return
	}
	if len(svg) > most {
		t.Fatalf("%d bytes", len(svg))
	}
	if strings.Contains(string(svg), "<script") {
		t.Fatal("a label got out of its text")
	}
	if _, err := readSVG(svg); err != nil {
		t.Fatalf("%v\n%s", err, svg)
	}
}

func TestFermentationHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		when := anyTime(t)
		in := FermentationInput{
			Frame: anyFrame(t), Said: anyWords().Draw(t, "said"), Zone: anyZone(t), Events: anyEvents(t, when),
			Gravity: anyPoints(t, "gravity", when, 1.03, 0.03), Logged: anyPoints(t, "logged", when, 1.03, 0.03),
			Temperature: anyPoints(t, "temperature", when, 18, 4),
		}
		for _, p := range anyPoints(t, "forecast", when, 1.01, 0.01) {
			in.Forecast = append(in.Forecast, Expected{p.At, p.Value, p.Value - p.PlusMinus, anyValue(1.01, 0.01).Draw(t, "high")})
		}
		svg := Fermentation(in)
		sound(t, svg, mostBytes)
		if svg != Fermentation(in) {
			t.Fatal("twice the same input, two drawings")
		}
	})
}

func TestConditionHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string) float64 { return anyValue(1, 1.5).Draw(t, name) }
		sound(t, Condition(ConditionInput{
			Frame: anyFrame(t), Residual: v("residual"), Priming: v("priming"), ToCome: v("to come"), Vented: v("vented"),
			PlusMinus: v("±"), Aim: v("aim"), Takes: v("takes"), ResidualWords: anyWords().Draw(t, "words"), PrimingWords: anyWords().Draw(t, "words"),
		}), mostBytes)
	})
}

func TestAimsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyValue(20, 5)
		sound(t, Interval(Aim{
			Frame: anyFrame(t), Name: anyWords().Draw(t, "name"), Aim: v.Draw(t, "aim"), Got: v.Draw(t, "got"),
			PlusMinus: anyValue(1, 1).Draw(t, "±"), AimWords: anyWords().Draw(t, "aim"), GotWords: anyWords().Draw(t, "got"),
		}), mostBytes)
	})
}

func TestDotsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyValue(75, 6)
		in := DotsInput{
			Frame: anyFrame(t), Name: anyWords().Draw(t, "name"), Low: v.Draw(t, "low"), High: v.Draw(t, "high"),
			Range: anyWords().Draw(t, "range"), Median: v.Draw(t, "median"),
		}
		for range rapid.SampledFrom([]int{0, 1, 2, 20, 150}).Draw(t, "results") {
			in.Results = append(in.Results, Result{rapid.IntRange(-5, 2000).Draw(t, "gyle"), v.Draw(t, "value"), anyValue(2, 2).Draw(t, "±"), ""})
		}
		sound(t, Dots(in), mostBytes)
	})
}

func TestLineageHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := LineageInput{Frame: anyFrame(t)}
		for range rapid.SampledFrom([]int{0, 1, 2, 8, 30, 80}).Draw(t, "gyles") {
			number := rapid.IntRange(0, 60)
			in.Gyles = append(in.Gyles, Gyle{
				Number: number.Draw(t, "number"), Name: anyWords().Draw(t, "name"), Here: rapid.Bool().Draw(t, "here"),
				Follows: rapid.SliceOfN(number, 0, 3).Draw(t, "follows"),
				Href:    rapid.SampledFrom([]string{"", "../3/index.html", "javascript:alert(1)", "https://example.org/?a=1&b=\"2"}).Draw(t, "href"),
			})
		}
		svg := Lineage(in)
		sound(t, svg, 4*mostBytes)
		if strings.Contains(string(svg), `href="javascript`) {
			t.Fatal("a link that runs")
		}
	})
}

func TestLeftHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		when := anyTime(t)
		sound(t, Left(LeftInput{
			Frame: anyFrame(t), Left: anyPoints(t, "left", when, 20, 20), Until: when(), Events: anyEvents(t, when),
			Said: anyWords().Draw(t, "said"), Zone: anyZone(t),
		}), mostBytes)
	})
}

// FuzzLabels looks for words that get out of their text or upset the layout.
func FuzzLabels(f *testing.F) {
	for _, seed := range []string{"racked", "<b>&amp;", `"'`, "\u202eracked", "a\x00\xff", "</text><script>", "漢字かな", strings.Repeat("W", 400)} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, label string) {
		ferment := mild()
		ferment.Prefix, ferment.Title, ferment.Said, ferment.Desc = label, label, label, label
		for i := range ferment.Events {
			ferment.Events[i].Label = label
		}
		bag := softBag()
		bag.ResidualWords, bag.PrimingWords = label, label
		family := revisions()
		for i := range family.Gyles {
			family.Gyles[i].Name, family.Gyles[i].Href = label, label
		}
		aim := dark()
		aim.Name, aim.AimWords, aim.GotWords = label, label, label
		for _, svg := range []template.HTML{Fermentation(ferment), Condition(bag), Lineage(family), Interval(aim)} {
			d, err := readSVG(svg)
			if err != nil {
				t.Fatalf("%v\n%s", err, svg)
			}
			for _, href := range d.hrefs {
				if scheme, _, found := strings.Cut(strings.ToLower(href), ":"); found && strings.Contains("javascript data vbscript", scheme) {
					t.Errorf("a link to %q", href)
				}
			}
		}
	})
}
