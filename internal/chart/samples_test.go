package chart

import (
	"html/template"
	"math"
	"time"
)

// The gyles drawn here are invented.

func at(d, h, m int) time.Time { return time.Date(2026, time.March, d, h, m, 0, 0, time.UTC) }

// mild is a plain fermentation: four readings, a forecast, temperatures.
func mild() FermentationInput {
	in := FermentationInput{
		Frame: Frame{Prefix: "mild"},
		Gravity: []Point{
			{at(7, 13, 40), 1.036, 0.001}, {at(10, 9, 0), 1.0145, 0.001}, {at(14, 9, 0), 1.011, 0.001}, {at(16, 9, 0), 1.011, 0.001},
		},
		Temperature: []Point{
			{at(7, 13, 40), 19, 0}, {at(8, 20, 0), 20.1, 0}, {at(10, 9, 0), 20.4, 0}, {at(12, 9, 0), 19, 0}, {at(14, 9, 0), 18.4, 0}, {at(16, 9, 0), 18, 0},
		},
		Events: []Event{
			{at(7, 13, 40), "pitched"}, {at(8, 8, 0), "roused"}, {at(9, 8, 0), "roused again"}, {at(12, 18, 0), "dry hops in"},
			{at(15, 18, 0), "dry hops out"}, {at(16, 10, 0), "racked"}, {at(16, 11, 0), "primed"}, {at(18, 8, 0), "chilled"},
		},
		Said: "1.011, stable for 48 h",
	}
	for i := range 40 {
		t := at(10, 9, 0).Add(time.Duration(i) * 5 * time.Hour)
		v := 1.0105 + 0.004*math.Exp(-float64(i)/8)
		spread := 0.0025 * (1 - math.Exp(-float64(i)/6))
		in.Forecast = append(in.Forecast, Expected{t, v, v - spread, v + 1.3*spread})
	}
	return in
}

// logger is a fermentation with a reading every few minutes for six weeks.
func logger(points int) FermentationInput {
	in := FermentationInput{Frame: Frame{Prefix: "logger"}, Said: "1.009"}
	start := at(2, 16, 5)
	for i := range points {
		share := float64(i) / float64(points)
		t := start.Add(time.Duration(share * float64(42*24*time.Hour)))
		noise := 0.0006 * math.Sin(float64(i)*1.7) * math.Sin(float64(i)*0.13)
		in.Logged = append(in.Logged, Point{t, 1.009 + 0.043/(1+math.Exp(60*(share-0.09))) + noise, 0})
		in.Temperature = append(in.Temperature, Point{t, 18 + 2.5*math.Exp(-math.Pow((share-0.09)/0.05, 2)) - 7*max(0, share-0.5) + 20*noise, 0})
	}
	in.Gravity = []Point{{start, 1.052, 0.001}, {start.Add(80 * time.Hour), 1.030, 0.001}, {start.Add(400 * time.Hour), 1.009, 0.001}}
	in.Events = []Event{{start, "pitched"}, {start.Add(90 * time.Hour), "dry hops"}, {start.Add(900 * time.Hour), "chilled"}}
	return in
}

func softBag() ConditionInput {
	return ConditionInput{
		Frame: Frame{Prefix: "bag"}, Residual: 0.82, Priming: 0.65, PlusMinus: 0.15, Aim: 1.4, Takes: 1.48,
		ResidualWords: "left from fermentation at 21 °C", PrimingWords: "from 44 g sucrose",
	}
}

func revisions() LineageInput {
	return LineageInput{Frame: Frame{Prefix: "family"}, Gyles: []Gyle{
		{Number: 3, Name: "Towpath Mild", Href: "../3/index.html"},
		{Number: 7, Name: "Towpath Mild", Href: "../7/index.html", Follows: []int{3}},
		{Number: 8, Name: "Sluice Porter", Href: "../8/index.html", Follows: []int{3}},
		{Number: 9, Name: "Sluice Porter aged on damsons and left in the coldest corner of the cellar", Href: "../9/index.html", Follows: []int{8}},
		{Number: 11, Name: "Towpath Mild", Href: "../11/index.html", Follows: []int{7}},
		{Number: 12, Name: "Winter Blend", Href: "../12/index.html", Follows: []int{9, 7}},
		{Number: 14, Name: "Towpath Mild", Follows: []int{11}, Here: true},
		{Number: 15, Name: "Pale experiment", Href: "../15/index.html"},
	}}
}

func attenuations() DotsInput {
	return DotsInput{
		Frame: Frame{Prefix: "house"}, Name: "Apparent attenuation, %", Low: 72, High: 78, Range: "the card's range", Median: 71.4,
		Results: []Result{
			{3, 74, 3, "../3/"}, {7, 70.2, 3, "../7/"}, {8, 76.1, 2, ""}, {9, 71.4, 30, "../9/"}, {11, 68, 3.5, ""}, {14, 69, 3.2, ""}, {21, 73, 0, ""},
		},
	}
}

// dark is a colour well above its aim.
func dark() Aim {
	return Aim{
		Frame: Frame{Prefix: "dark"}, Name: "Colour", Aim: 50, Got: 56, PlusMinus: 4,
		AimWords: "50 EBC", GotWords: "56 ± 4 EBC",
	}
}

func pints() LeftInput {
	return LeftInput{
		Frame: Frame{Prefix: "pints"}, Said: "11 pints left", Until: at(29, 12, 0),
		Left: []Point{{at(16, 12, 0), 37, 0}, {at(24, 19, 0), 34, 0}, {at(26, 19, 0), 29, 0}, {at(27, 22, 0), 14, 0}, {at(28, 20, 0), 11, 0}},
		Events: []Event{
			{at(16, 12, 0), "racked"}, {at(24, 19, 0), "broached"}, {at(27, 19, 0), "Spring working party"}, {at(38, 12, 0), "drink by"},
		},
	}
}

// samples are the charts whose bytes are kept in testdata.
func samples() map[string]template.HTML {
	three := ConditionInput{
		Frame: Frame{Prefix: "cask"}, Residual: 0.9, Priming: 0.3, ToCome: 0.5, Vented: 0.2, PlusMinus: 0.2, Aim: 1.3, Takes: 12, VentedWords: "let out on 20 March",
	}
	paper := mild()
	paper.Width, paper.Prefix = 640, "paper"
	brewDay := FermentationInput{
		Frame: Frame{Prefix: "first"}, Gravity: []Point{{at(7, 13, 40), 1.036, 0.001}}, Events: []Event{{at(7, 13, 40), "pitched"}},
	}
	return map[string]template.HTML{
		"fermentation-mild":      Fermentation(mild()),
		"fermentation-logger":    Fermentation(logger(5000)),
		"fermentation-first-day": Fermentation(brewDay),
		"fermentation-paper":     Fermentation(paper),
		"condition-bag":          Condition(softBag()),
		"condition-vented":       Condition(three),
		"interval":               Interval(dark()),
		"dots":                   Dots(attenuations()),
		"lineage":                Lineage(revisions()),
		"left":                   Left(pints()),
	}
}
