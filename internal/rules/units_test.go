package rules_test

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/proposals"
	q "gylebook/internal/quantity"
	"gylebook/internal/rules"
)

var update = flag.Bool("update", false, "rewrite the sentences kept in testdata; read every difference aloud")

// TestSentencesInTheSettingsUnits keeps what the examples of rules and causes say in
// each system, where it is not the same in all.
func TestSentencesInTheSettingsUnits(t *testing.T) {
	const kept = "testdata/units.txt"
	var b strings.Builder
	sheets, seen := exampleSheets(t), map[string]bool{}
	for _, name := range slices.Sorted(maps.Keys(sheets)) {
		metric := everySentence(healthy.InUnits(sheets[name], "metric"))
		uk, us := everySentence(healthy.InUnits(sheets[name], "uk")), everySentence(healthy.InUnits(sheets[name], "us"))
		if len(metric) != len(uk) || len(metric) != len(us) {
			t.Fatalf("%s: %d sentences in metric units, %d in UK and %d in US ones: the units decide what is said", name, len(metric), len(uk), len(us))
		}
		for i, m := range metric {
			text := fmt.Sprintf("metric: %s\nuk:     %s\nus:     %s\n\n", m.text, uk[i].text, us[i].text)
			if m.text == uk[i].text && m.text == us[i].text || seen[text] {
				continue
			}
			seen[text] = true
			fmt.Fprintf(&b, "%s: %s\n%s", name, m.of, text)
		}
	}
	if *update {
		if err := os.WriteFile(kept, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(kept)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != b.String() {
		t.Errorf("the sentences in units are not those of %s; run with -update and read the difference", kept)
	}
}

// foreign are the units that a brewer who set others must not meet.
var foreign = map[string]*regexp.Regexp{
	"us": regexp.MustCompile(`([\d.]+)\s(?:L|mL|hL|kg|g|bar|EBC)\b|[\d.]+\s°C|(?:^|\s)(?:°C|litres?|kilograms?|kilos?|grams?)\b|%!|[{}]`),
	"uk": regexp.MustCompile(`([\d.]+)\s(?:L|mL|hL|kg|g|bar)\b|[\d.]+\s°F|(?:^|\s)(?:°F|litres?|kilograms?|kilos?|grams?)\b|%!|[{}]`),
}

// inTheirOwnUnits are the sentences that keep a metric unit, and why.
var inTheirOwnUnits = []struct{ of, part, why string }{
	{"vessel-unknown", "bottle 500 mL, keg 19 L or soft bag 10 L", "names of vessels, as they are typed"},
	{"value-impossible", "A temperature of 200 °C", "quoted as it was typed"},
	{"pitch-tiny", "g of yeast is next to nothing", "yeast is sold and weighed by the gram"},
	{"pitch-tiny", "a packet is about 11 g", "yeast is sold and weighed by the gram"},
}

// TestNoForeignUnits: under units: us or uk, nothing that is said has a metric unit
// in it, but what was typed so, and doses too small for kitchen ounces. Over the
// examples of all rules and causes, the entries written for tests, and the
// demonstration at several days of each gyle's life.
func TestNoForeignUnits(t *testing.T) {
	sheets := exampleSheets(t)
	maps.Copy(sheets, journalSheets(t))
	excused, looked := map[int]bool{}, 0
	for name, sheet := range sheets {
		for system, pattern := range foreign {
			for _, s := range everySentence(healthy.InUnits(sheet, system)) {
				looked++
				text := withoutVessels(sheet, s.text)
				for i, own := range inTheirOwnUnits {
					if strings.HasPrefix(s.of, own.of) && strings.Contains(text, own.part) {
						text, excused[i] = strings.ReplaceAll(text, own.part, ""), true
					}
				}
				for _, found := range pattern.FindAllStringSubmatch(withoutDoses(text), -1) {
					t.Errorf("%s, %s, in units: %s has %q: %s", name, s.of, system, found[0], s.text)
				}
			}
		}
	}
	for i, own := range inTheirOwnUnits {
		if !excused[i] {
			t.Errorf("nothing is said any more that %s excuses: %q", own.of, own.part)
		}
	}
	if looked < 10000 {
		t.Errorf("only %d sentences were looked at", looked)
	}
}

// withoutVessels is a sentence without the names of the gyle's vessels, which are
// as they were typed.
func withoutVessels(s *figures.Sheet, text string) string {
	for _, k := range s.Containers() {
		name := k.Called()
		for _, article := range []string{"each ", "the "} {
			name = strings.TrimPrefix(name, article)
		}
		text = strings.ReplaceAll(text, name, "")
	}
	return text
}

var dose = regexp.MustCompile(`[\d.]+ g\b`)

// withoutDoses is a sentence without weights of less than half an ounce.
func withoutDoses(text string) string {
	return dose.ReplaceAllStringFunc(text, func(found string) string {
		grams, err := strconv.ParseFloat(strings.TrimSuffix(found, " g"), 64)
		if err == nil && grams < float64(q.Ounce)/2 {
			return ""
		}
		return found
	})
}

// TestWhatIsOfferedCanBeTyped: every value that a proposal offers, in any units, is
// read back by the entry's reader at the key it is offered for.
func TestWhatIsOfferedCanBeTyped(t *testing.T) {
	sheets := exampleSheets(t)
	maps.Copy(sheets, journalSheets(t))
	offered := 0
	for name, sheet := range sheets {
		for _, system := range []string{"metric", "uk", "us"} {
			for _, p := range proposals.Propose(healthy.InUnits(sheet, system)) {
				for _, set := range p.Sets {
					if set.Value == "" {
						continue
					}
					offered++
					if !readable(set.Value) {
						t.Errorf("%s in units: %s: %s=%s cannot be read", name, system, set.Key, set.Value)
					}
				}
			}
		}
	}
	if offered < 100 {
		t.Errorf("only %d values were offered", offered)
	}
}

// readable tells whether a text is a quantity of one of the kinds that proposals
// change.
func readable(text string) bool {
	_, mass := q.Parse[q.Mass](text)
	_, volume := q.Parse[q.Volume](text)
	_, heat := q.Parse[q.Temperature](text)
	_, pressure := q.Parse[q.Pressure](text)
	_, duration := q.Parse[q.Duration](text)
	return mass == nil || volume == nil || heat == nil || pressure == nil || duration == nil
}

// TestUnitsDoNotDecide: what is found, how grave it is and where is the same in all
// units; only the words differ.
func TestUnitsDoNotDecide(t *testing.T) {
	for name, sheet := range exampleSheets(t) {
		var all []string
		for _, system := range []string{"metric", "uk", "us"} {
			var ids strings.Builder
			for _, n := range rules.Examine(healthy.InUnits(sheet, system)) {
				fmt.Fprintln(&ids, n.ID, n.Severity, n.Of, n.Place.Line)
			}
			all = append(all, ids.String())
		}
		if all[0] != all[1] || all[0] != all[2] {
			t.Errorf("%s: %q", name, all)
		}
	}
}
