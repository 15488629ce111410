package chart

import (
	"html/template"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"time"
)

// TestNothingToDraw: no chart, rather than an empty frame or a broken one.
func TestNothingToDraw(t *testing.T) {
	nan := math.NaN()
	for name, svg := range map[string]template.HTML{
		"fermentation":            Fermentation(FermentationInput{}),
		"fermentation, events":    Fermentation(FermentationInput{Events: mild().Events, Said: "said"}),
		"fermentation, not dated": Fermentation(FermentationInput{Gravity: []Point{{Value: 1.036}}}),
		"condition":               Condition(ConditionInput{Aim: 1.4, Takes: 3}),
		"condition, not numbers":  Condition(ConditionInput{Residual: nan, Priming: math.Inf(1), ToCome: -1}),
		"condition, not of beer":  Condition(ConditionInput{Residual: 1e6}),
		"interval":                Interval(Aim{Name: "Alcohol", Aim: nan, Got: 3}),
		"dots":                    Dots(DotsInput{Results: []Result{{Gyle: 14, Value: nan, PlusMinus: 1}}, Median: 70}),
		"lineage":                 Lineage(LineageInput{}),
		"left":                    Left(LeftInput{Events: pints().Events, Until: at(7, 0, 0)}),
	} {
		if svg != "" {
			t.Errorf("%s: %s", name, svg)
		}
	}
}

// TestSmallInputs: one point, or all alike, is a chart like any other.
func TestSmallInputs(t *testing.T) {
	same := []Point{{at(7, 0, 0), 1, 0}, {at(7, 0, 0), 1, 0}, {at(7, 0, 0), 1, 0}}
	for name, svg := range map[string]template.HTML{
		"one reading":     Fermentation(FermentationInput{Gravity: same[:1]}),
		"alike":           Fermentation(FermentationInput{Gravity: same, Logged: same, Temperature: same}),
		"one temperature": Fermentation(FermentationInput{Temperature: same[:1]}),
		"one forecast":    Fermentation(FermentationInput{Forecast: []Expected{{at(7, 0, 0), 1.01, math.NaN(), math.Inf(1)}}}),
		"all vented":      Condition(ConditionInput{Residual: 1, Vented: 5}),
		"aim of nought":   Interval(Aim{Name: "Chlorine"}),
		"one dot":         Dots(DotsInput{Results: []Result{{Gyle: 14, Value: 70}}}),
		"own parent":      Lineage(LineageInput{Gyles: []Gyle{{Number: 14, Follows: []int{14, 99}}}}),
		"a circle":        Lineage(LineageInput{Gyles: []Gyle{{Number: 1, Follows: []int{2}}, {Number: 2, Follows: []int{1}}}}),
		"one number":      Lineage(LineageInput{Gyles: []Gyle{{Number: 1}, {Number: 1, Follows: []int{1}}}}),
		"one pint":        Left(LeftInput{Left: same[:1]}),
		"emptied":         Left(LeftInput{Left: []Point{{at(7, 0, 0), 0, 0}}, Until: at(9, 0, 0)}),
	} {
		if svg == "" {
			t.Errorf("%s: nothing drawn", name)
			continue
		}
		if _, err := readSVG(svg); err != nil {
			t.Errorf("%s: %v\n%s", name, err, svg)
		}
	}
}

// TestSamplesHold reads back the drawings that are kept.
func TestSamplesHold(t *testing.T) {
	seen := map[string]string{}
	for name, svg := range samples() {
		d, err := readSVG(svg)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(svg) >= mostBytes {
			t.Errorf("%s: %d bytes", name, len(svg))
		}
		for _, id := range d.ids {
			if other, taken := seen[id]; taken {
				t.Errorf("%s and %s share the id %s", name, other, id)
			}
			seen[id] = name
		}
	}
}

// TestClassesAreDocumented holds the package comment to what is drawn: the
// stylesheet is written from it.
func TestClassesAreDocumented(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	charts := []string{"fermentation", "condition", "interval", "dots", "lineage", "left"}
	for name, svg := range samples() {
		d, err := readSVG(svg)
		if err != nil {
			t.Fatal(err)
		}
		for class := range d.classes {
			if !slices.Contains(charts, class) && !strings.Contains(string(doc), "."+class+" ") {
				t.Errorf("%s uses the class %s, of which the package comment is silent", name, class)
			}
		}
	}
}

// TestFrame: the words given come before the chart's own, escaped, and the
// prefix cannot break an id.
func TestFrame(t *testing.T) {
	in := softBag()
	in.Frame = Frame{Prefix: `a b"<`, Title: "Gas <in> the bag", Desc: "One & two", Width: 640}
	d, err := readSVG(Condition(in))
	if err != nil {
		t.Fatal(err)
	}
	if d.title != "Gas <in> the bag" || d.desc != "One & two" || d.width != 640 || !slices.Equal(d.ids, []string{"a-b---title", "a-b---desc"}) {
		t.Errorf("got %q, %q, %g, %v", d.title, d.desc, d.width, d.ids)
	}
}

// TestDescriptions are what a listener hears instead of the drawing.
func TestDescriptions(t *testing.T) {
	for want, svg := range map[string]template.HTML{
		"Gravity went from 1.036 on 7 March 2026 to 1.011 on 16 March 2026. The forecast is 1.011 on 18 March 2026, between 1.008 and 1.014. " +
			"The beer stood between 18.0 and 20.4 °C. Marked: pitched 7 March, roused 8 March, roused again 9 March, dry hops in 12 March, " +
			"dry hops out 15 March, racked 16 March, primed 16 March and chilled 18 March.": Fermentation(mild()),
		"0.82 left from fermentation at 21 °C and 0.65 from 44 g sucrose make 1.47 ± 0.15 vol; the aim is 1.40; the container takes 1.48.": Condition(softBag()),
		"7 gyles, from 68.0 to 76.1; the last, gyle 21, 73.0. The median is 71.4. The range behind them is 72.0 to 78.0.":                  Dots(attenuations()),
		"37 pints on 16 March 2026, 11 on 29 March 2026. Marked: racked 16 March, broached 24 March, Spring working party 27 March " +
			"and drink by 7 April.": Left(pints()),
	} {
		d, err := readSVG(svg)
		if err != nil {
			t.Fatal(err)
		}
		if d.desc != want {
			t.Errorf("\n got %s\nwant %s", d.desc, want)
		}
	}
}

// TestAimsTellFromAfar: the middle of the row is the aim, four half-widths lead
// to its end, and what lies beyond is an arrowhead and no dot.
func TestAimsTellFromAfar(t *testing.T) {
	for name, c := range map[string]struct {
		aim  Aim
		want string
	}{
		"on the aim":        {Aim{Name: "Alcohol", Aim: 4, Got: 4, PlusMinus: 0.5}, `<circle class="dot" cx="180"`},
		"one half-width":    {Aim{Name: "Alcohol", Aim: 4, Got: 4.5, PlusMinus: 0.5}, `<circle class="dot" cx="222.8"`},
		"four half-widths":  {Aim{Name: "Alcohol", Aim: 4, Got: 2, PlusMinus: 0.5}, `<circle class="dot" cx="9"`},
		"beyond":            {Aim{Name: "Alcohol", Aim: 4, Got: 7, PlusMinus: 0.5}, `<path class="dot" d="M355`},
		"no interval, near": {Aim{Name: "Alcohol", Aim: 4, Got: 4.2, PlusMinus: 0}, `<circle class="dot" cx="265.5"`},
		"no interval, far":  {Aim{Name: "Alcohol", Aim: 4, Got: 7, PlusMinus: 0}, `<circle class="dot" cx="351"`},
	} {
		svg := string(Interval(c.aim))
		if !strings.Contains(svg, c.want) || strings.Count(svg, `"dot"`) != 1 {
			t.Errorf("%s: no %s in\n%s", name, c.want, svg)
		}
	}
}

// TestZone: the axis and the words tell the journal's own time.
func TestZone(t *testing.T) {
	in := LeftInput{Left: []Point{{time.Date(2026, 3, 7, 23, 30, 0, 0, time.UTC), 30, 0}}, Zone: time.FixedZone("", 2*3600)}
	d, err := readSVG(Left(in))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(d.desc, "30 pints on 8 March 2026") {
		t.Errorf("got %s", d.desc)
	}
}
