package journal

import (
	"testing"

	"gylebook/internal/quantity"
)

// TestSpelling: one word for all, and a kind's own before it.
func TestSpelling(t *testing.T) {
	chosen := func(word quantity.System) Choice[quantity.System] { return Choice[quantity.System]{Word: word} }
	for _, c := range []struct {
		name  string
		units Units
		want  quantity.Spelling
	}{
		{"nothing set", Units{}, quantity.Spelling{Volume: quantity.Metric, Weight: quantity.Metric, Temperature: quantity.Metric, Pressure: quantity.Metric, Colour: quantity.Metric}},
		{"all", Units{All: chosen("us")}, quantity.Spelling{Volume: quantity.US, Weight: quantity.US, Temperature: quantity.US, Pressure: quantity.US, Colour: quantity.US}},
		{"by kind", Units{Volume: chosen("uk"), Pressure: chosen("us")}, quantity.Spelling{Volume: quantity.UK, Weight: quantity.Metric, Temperature: quantity.Metric, Pressure: quantity.US, Colour: quantity.Metric}},
	} {
		if got := c.units.Spelling(); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}
