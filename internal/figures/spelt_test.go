package figures

import (
	"math"
	"testing"
	"time"

	"gylebook/internal/quantity"
)

func TestAFigureIsPrintedInTheSettingsUnits(t *testing.T) {
	metric := quantity.Spelling{}
	us := quantity.Spelling{
		Volume: quantity.US, Weight: quantity.US, Temperature: quantity.US, Pressure: quantity.US, Colour: quantity.US,
	}
	margin := func(value float64) Figure { return Figure{Kind: kindMargin, Value: value, PlusMinus: 0.1} }
	day := Figure{Kind: &Kind{Unit: dateUnit}, Date: time.Date(2026, 3, 7, 12, 0, 0, 0, time.UTC), PlusMinus: 4.6}
	for _, c := range []struct {
		figure Figure
		in     quantity.Spelling
		want   string
	}{
		{Figure{Kind: &Kind{Unit: "°C", Decimals: 1}, Value: 20, PlusMinus: 0.5}, metric, "20.0 ± 0.5 °C"},
		{Figure{Kind: &Kind{Unit: "°C", Decimals: 1}, Value: 20, PlusMinus: 0.5}, us, "68.0 ± 0.9 °F"},
		{Figure{Kind: &Kind{Unit: "K", Decimals: 1}, Value: 2, PlusMinus: 0.5}, metric, "2.0 ± 0.5 °C"},
		{Figure{Kind: &Kind{Unit: "% vol", Decimals: 1, Cut: true}, Value: 4.19, PlusMinus: 0.3}, us, "4.1 % vol"},
		{Figure{Kind: &Kind{Unit: "vol", Decimals: 2}, Value: math.Inf(1), PlusMinus: 1}, metric, ""},
		{Figure{Kind: &Kind{Unit: "vol", Decimals: 2}, Value: 1.5, PlusMinus: math.NaN()}, metric, "1.50 vol"},
		{margin(1.018), us, "14.7 ± 1.5 psi"}, // of 14.765: never more than there is
		{day, us, "2026-03-07 ± 5 days"},
	} {
		if got := c.figure.Spelt(c.in).String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
