package site

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/quantity"
)

func inUnits(t *testing.T, units string) speller {
	t.Helper()
	settings := &journal.Settings{}
	settings.Units.All = journal.Choice[quantity.System]{Word: quantity.System(units)}
	return newSpeller(settings)
}

// measured parses a quantity and writes it as a page would.
func measured[Q quantity.Quantity](t *testing.T, s speller, text string) string {
	t.Helper()
	a, err := quantity.Parse[Q](text)
	if err != nil {
		t.Fatal(err)
	}
	return s.value(journal.Value[Q]{Amount: a, Where: journal.Where{Place: notice.Place{Line: 1}}}).String()
}

func TestUnits(t *testing.T) {
	metric, uk, us := inUnits(t, "metric"), inUnits(t, "uk"), inUnits(t, "us")
	for _, c := range []struct{ got, want string }{
		{measured[quantity.Volume](t, metric, "20.5 ± 0.5 L"), "20.5\u00a0±\u00a00.5\u00a0L"},
		{measured[quantity.Volume](t, metric, "5 mL"), "5\u00a0mL"},
		{measured[quantity.Volume](t, metric, "500 mL"), "0.5\u00a0L"},
		{measured[quantity.Volume](t, uk, "5 gal-uk"), "5\u00a0UK gal"},
		{measured[quantity.Volume](t, uk, "16 pt-uk"), "2\u00a0UK gal"},
		{measured[quantity.Volume](t, uk, "500 mL"), "0.88\u00a0UK pt"},
		{measured[quantity.Volume](t, us, "5 gal-us"), "5\u00a0US gal"},
		{measured[quantity.Mass](t, metric, "3.2 kg"), "3.2\u00a0kg"},
		{measured[quantity.Mass](t, metric, "250 g"), "250\u00a0g"},
		{measured[quantity.Mass](t, uk, "1 lb 4 oz"), "1 lb 4\u00a0oz"},
		{measured[quantity.Mass](t, us, "8 oz"), "8\u00a0oz"},
		{measured[quantity.Mass](t, us, "2 lb"), "2\u00a0lb"},
		{measured[quantity.Temperature](t, metric, "66 C"), "66\u00a0°C"},
		{measured[quantity.Temperature](t, us, "66 ± 0.5 C"), "150.8\u00a0±\u00a00.9\u00a0°F"},
		{measured[quantity.Pressure](t, uk, "0.69 bar"), "10\u00a0psi"},
		{measured[quantity.Colour](t, us, "39.4 EBC"), "20\u00a0SRM"},
		{measured[quantity.Gravity](t, metric, "1.04"), "1.040"},
		{measured[quantity.Gravity](t, metric, "1.0105"), "1.0105"},
		{measured[quantity.Gravity](t, metric, "1.041 ± 0.001"), "1.0410\u00a0±\u00a00.0010"},
		{measured[quantity.Duration](t, metric, "60 min"), "60\u00a0min"},
		{measured[quantity.Duration](t, metric, "3 days"), "3\u00a0days"},
		{measured[quantity.Duration](t, metric, "12 h"), "12\u00a0h"},
		{measured[quantity.Percent](t, metric, "4.9 %"), "4.9\u00a0%"},
		{measured[quantity.Acidity](t, metric, "5.4"), "5.4"},
		{measured[quantity.Cells](t, metric, "20e9 cells"), "20\u00a0thousand million cells"},
		{measured[quantity.Cells](t, metric, "3.25e6 cells"), "3.25\u00a0million cells"},
		{measured[quantity.Temperature](t, metric, "165 F"), "73.89\u00a0°C"},
		{measured[quantity.Gravity](t, metric, "9.8 P"), "1.0392"},
		{measured[quantity.Mass](t, uk, "11 g"), "11\u00a0g"},
		{measured[quantity.Mass](t, us, "0.5 oz"), "0.5\u00a0oz"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

func TestFiguresArePrintedAsFarAsTheyAreKnown(t *testing.T) {
	s := inUnits(t, "metric")
	figure := func(id, unit string, value, pm float64) string {
		at := slices.IndexFunc(figures.Kinds(), func(k *figures.Kind) bool { return string(k.ID) == id && k.Unit == unit })
		return s.figure(figures.Figure{Kind: figures.Kinds()[at], Value: value, PlusMinus: pm}).String()
	}
	for _, c := range []struct{ got, want string }{
		{figure("abv", "% vol", 3.2967, 0.28), "3.3\u00a0±\u00a00.3\u00a0% vol"},
		{figure("og", "SG", 1.03621, 0.00117), "1.0362\u00a0±\u00a00.0012"},
		{figure("og", "SG", 1.03621, math.NaN()), "1.0362"},
		{figure("pints", "UK pints", 36.07, 0.5), "36.1\u00a0±\u00a00.5\u00a0pints"},
		{figure("abv-duty", "% vol", 4.19, 0.3), "4.1\u00a0% vol"},
		{figure("abv-duty", "% vol", 4.2, 0.3), "4.2\u00a0% vol"},
		{figure("condition", "vol", math.Inf(1), 1), ""},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	us := inUnits(t, "us")
	if got := us.measure(20, 0.5, "°C", 1).String(); got != "68.0\u00a0±\u00a00.9\u00a0°F" {
		t.Errorf("a ± took the offset: %q", got)
	}
}

func TestDatesAreInTheJournalsZone(t *testing.T) {
	zone := time.FixedZone("east", 10*3600)
	s := speller{zone: zone}
	if got := s.day(time.Date(2026, 3, 6, 20, 0, 0, 0, time.UTC)); got != "7\u00a0March\u00a02026" {
		t.Error(got)
	}
}

// TestPagesFollowTheUnitsOfTheSettings: tables, figures and warnings do. Formulas
// are worked in the units of their constants, which the page says.
func TestPagesFollowTheUnitsOfTheSettings(t *testing.T) {
	files := archive(t, "testdata/site/small.txtar")
	files["index.md"].Data = []byte("---\njournal: In the old units\nunits: us\n---\n")
	text := page(t, build(t, files, Options{}), "gyles/2/index.html")
	wants(t, text, "US gal", "SRM", "°F")
	wants(t, text, "psi, at", "Workings stay in litres")
	_, aims, _ := strings.Cut(text, `id="p-aims"`)
	aims, _, _ = strings.Cut(aims, `id="p-workings"`)
	wants(t, aims, "SRM", "!\u00a0EBC")
}

// TestChartsFollowTheUnitsOfTheSettings: their axes and what they say of themselves.
func TestChartsFollowTheUnitsOfTheSettings(t *testing.T) {
	files := entries("index.md", "---\njournal: In the old units\nunits: us\n---\n", "gyles/1.md", `---
gyle: 1
beer: Warm
brewed: 2026-03-01
fermenter: {volume: 20 L, gravity: 1.041}
readings:
  - {when: 2026-03-03, gravity: 1.020, temp: 20 C}
  - {when: 2026-03-06, gravity: 1.010, temp: 18 C}
racked: {on: 2026-03-10, volume: 19 L}
packages: [{vessel: keg 19 L, fill: 18.93 L}]
poured: [{when: 2026-03-20, volume: 16 pt-uk}]
---
`)
	text := page(t, build(t, files, Options{}), "gyles/1/index.html")
	wants(t, text, "Temperature, °F", "The beer stood between 64.4 and 68.0 °F.", "!Temperature, °C", "US pints left", "39 US pints on ")
}
