package figures

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
)

// pitchedWith is the rate of a gyle of 20 L at 1.040 with such yeast.
func pitchedWith(t *testing.T, yeast string) (f Figure, m Missing) {
	t.Helper()
	raw := strings.Replace(string(withLines(plainGrist, fermenting)), "yeast: [{yeast: house ale, pitched: 2026-03-07 14:00}]", "yeast: ["+yeast+"]", 1)
	s := works(t, []byte(raw))
	f, _ = s.Find("pitching-rate", "")
	if i := slices.IndexFunc(s.Missing, func(m Missing) bool { return m.Figure == "pitching-rate" }); i >= 0 {
		m = s.Missing[i]
	}
	return f, m
}

// A rate for each thousand million cells: 20 L of 9.993 °P (1.040).
const perMilliard = 1000.0 / (20000 * 9.993)

func TestPitchingRates(t *testing.T) {
	const pitched = ", pitched: 2026-03-07 14:00}"
	for _, c := range []struct {
		yeast  string
		cells  float64 // thousand million
		within float64 // least ± as a share
	}{
		{"{yeast: any, cells: 150e9 cells" + pitched, 150, 0.25},
		{"{yeast: any, cells: 150e9 ± 10e9 cells" + pitched, 150, 0.07},
		{"{yeast: any, weight: 11 g" + pitched, 143, 0.6},
		{"{yeast: any, sold: dried, weight: 11 g" + pitched, 143, 0.6},
		{"{yeast: dried ale, sold: dried, weight: 11 g" + pitched, 143, 0.6},
		{"{yeast: any, sold: slurry, volume: 200 mL" + pitched, 200, 0.6},
		{"{yeast: dried ale, sold: slurry, volume: 200 mL" + pitched, 200, 0.6}, // not by the packet's count
		{"{yeast: any, sold: slurry, volume: 200 mL, packed: 2026-02-05 14:00" + pitched, 160, 0.6},
		{"{yeast: any, sold: liquid, cells: 100e9 cells" + pitched, 100, 0.25},
		{"{yeast: any, sold: liquid, cells: 100e9 cells, packed: 2026-02-05 14:00" + pitched, 80, 0.28},
		{"{yeast: any, sold: liquid, cells: 100e9 cells, packed: 2026-03-08" + pitched, 100, 0.25}, // packed tomorrow: a slip
		{"{yeast: any, cells: 100e9 cells" + pitched + ", {yeast: other, cells: 50e9 cells" + pitched, 150, 0.2},
		{"{yeast: any, cells: 100e9 cells" + pitched + ", {yeast: other, cells: 50e9 cells, pitched: 2026-03-20}", 100, 0.25}, // for the bottles
	} {
		f, m := pitchedWith(t, c.yeast)
		if !near(f.Value, c.cells*perMilliard, 0.002) || f.PlusMinus < c.within*f.Value {
			t.Errorf("%s: %.4g ± %.2g, want %.4g; %+v", c.yeast, f.Value, f.PlusMinus, c.cells*perMilliard, m)
		}
	}
}

// TestUnknownYeast asks for what would do, or says what nobody knows.
func TestUnknownYeast(t *testing.T) {
	for yeast, want := range map[string]string{
		"":                                  "needs yeast[0].cells",
		"{yeast: any, pitched: 2026-03-07}": "needs yeast[0].cells",
		"{yeast: any, sold: dried, pitched: 2026-03-07}":                                                                    "needs yeast[0].weight",
		"{yeast: any, sold: slurry, pitched: 2026-03-07}":                                                                   "needs yeast[0].volume",
		"{yeast: any, sold: liquid, volume: 40 mL, packed: 2025-06-01, pitched: 2026-03-07}":                                "how many cells live after half a year nobody can say: count them, and write yeast[0].cells",
		"{yeast: any, sold: liquid, volume: 40 mL, starter: {volume: 1 L, gravity: 1.036, hours: 24}, pitched: 2026-03-07}": "how far yeast grows in a starter differs too much from one to the next: count it, and write yeast[0].cells",
	} {
		f, m := pitchedWith(t, yeast)
		got := m.Because
		if len(m.Needs) > 0 {
			got = "needs " + strings.Join(m.Needs, ", ")
		}
		if f.Kind != nil || got != want {
			t.Errorf("%s: %g, %q; want %q", yeast, f.Value, got, want)
		}
	}
	if f, _ := pitchedWith(t, "{yeast: any, sold: liquid, cells: 200e9 cells, starter: {volume: 1 L}, packed: 2025-10-01, pitched: 2026-03-07}"); f.Kind == nil || !near(f.Value, 200*perMilliard, 0.002) || !strings.Contains(f.Note, "starter") {
		t.Errorf("cells counted after a starter: %+v", f)
	}
}

// TestYeastDiesOff: older is never more, and is less sure for its number.
func TestYeastDiesOff(t *testing.T) {
	last, doubt := math.Inf(1), 0.0
	for _, day := range []string{"2026-03-07", "2026-02-20", "2026-01-20", "2025-12-01", "2025-10-01"} {
		f, m := pitchedWith(t, fmt.Sprintf("{yeast: any, sold: liquid, cells: 100e9 cells, packed: %s, pitched: 2026-03-07 14:00}", day))
		if f.Kind == nil || f.Value > last || f.PlusMinus/f.Value < doubt {
			t.Fatalf("packed on %s: %+v, %+v", day, f, m)
		}
		last, doubt = f.Value, f.PlusMinus/f.Value
	}
}
