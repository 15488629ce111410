package figures

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"gylebook/internal/journal"
)

// mostPrintedDigits is how many digits a number may have for a reader to take in.
const mostPrintedDigits = 8

// longest is the number with the most digits in a text.
func longest(text string) (number string, digits int) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsDigit(r) && r != '.' }) {
		word = strings.Trim(word, ".")
		if n := len(word) - strings.Count(word, "."); n > digits {
			number, digits = word, n
		}
	}
	return number, digits
}

// readable holds everything of a sheet that is printed to numbers that can be read.
func readable(t interface{ Errorf(string, ...any) }, s *Sheet) {
	for _, f := range s.Figures {
		if f.Unit == dateUnit {
			continue
		}
		value, plusMinus := f.Rounded()
		_, numbers, _ := strings.Cut(f.Working(), "\n") // the formula itself is as published
		for _, text := range []string{value, plusMinus, numbers, f.Note} {
			for line := range strings.Lines(text) {
				if number, n := longest(withoutConstants(line, f.Formula)); n > mostPrintedDigits {
					t.Errorf("%s prints %s, of %d digits: %s", partOf(f), number, n, line)
				}
			}
		}
	}
}

// TestShownPlusMinus: what is finer than any print is not shown.
func TestShownPlusMinus(t *testing.T) {
	for _, c := range []struct{ value, plusMinus, want float64 }{
		{20, 0.5, 0.5}, {20, 1e-9, 0}, {12345.678, 0.001, 0}, {0.02, 0.0002, 0.0002},
	} {
		f := Figure{Kind: kindLiquorNeeded, Value: c.value, PlusMinus: c.plusMinus}
		if got := f.ShownPlusMinus(); got != c.want {
			t.Errorf("%g ± %g shows ± %g, want %g", c.value, c.plusMinus, got, c.want)
		}
		text, plusMinus := f.Rounded()
		if _, n := longest(text); n > mostPrintedDigits || (plusMinus == "") != (c.want == 0) {
			t.Errorf("%g ± %g prints as %s ± %s", c.value, c.plusMinus, text, plusMinus)
		}
	}
}

// withoutConstants takes a formula's own numbers out of a working.
func withoutConstants(working, formula string) string {
	for _, word := range strings.FieldsFunc(formula, func(r rune) bool { return !unicode.IsDigit(r) && r != '.' }) {
		if len(word) > mostPrintedDigits {
			working = strings.ReplaceAll(working, word, "")
		}
	}
	return working
}

// TestExtremesStayReadable: entries of extreme and random numbers give no number
// that is none, no amount below nothing, and none with nine digits or more.
func TestExtremesStayReadable(t *testing.T) {
	raw := file(t, every)
	keys := keysOf(t, raw)
	extremes := append(slices.Clone(wild), "2000 L", "1 mL", "0.001 g", "1000 kg", "999.999 kg", "1e-3 ± 1e-9 L", "20 ± 1e-9 L", "1.040 ± 1e-12", "1e15 cells", "2 cells", "20000 ppm", "0.1 ppm", "1e9 cells/mL", "37 %", "0.001 %", "1e-5 bar")
	rapid.Check(t, func(t *rapid.T) {
		var sets []string
		for range rapid.IntRange(1, 8).Draw(t, "changes") {
			value := rapid.OneOf(rapid.SampledFrom(extremes), rapid.Map(rapid.Float64Range(1e-6, 1e6), func(x float64) string {
				return fmt.Sprintf("%g %s", x, "L")
			}), rapid.Map(rapid.Float64Range(0.98, 1.2), func(x float64) string { return fmt.Sprint(x) })).Draw(t, "value")
			sets = append(sets, rapid.SampledFrom(keys).Draw(t, "key")+"="+value)
		}
		d := journal.ReadFileSet("entry.md", raw, nil, sets)
		if d.Gyle == nil {
			return
		}
		for _, days := range []int{-3, 0, 11, 45} {
			c := plainContext()
			if d.Gyle.Brewed.Written() {
				c.Now = d.Gyle.Brewed.Time.AddDate(0, 0, days)
			}
			s := Work(d.Gyle, c)
			possible(t, s)
			readable(t, s)
		}
	})
}

// TestOutsideItsRange: beyond its formula's range a figure is withheld, with the
// reason, or marked as extrapolated.
func TestOutsideItsRange(t *testing.T) {
	raw := file(t, byHand, "soft-bag-and-bottles.md")
	for _, c := range []struct {
		set     string
		id      ID
		of      string
		because string // "" for extrapolated
	}{
		{"fermenter.gravity=1.140", "abv", "", "Balling's formula: the original gravity must be from 1.000 to 1.130"},
		{"fermenter.gravity=1.140", "energy", "kJ", "Balling's formula: the original gravity must be from 1.000 to 1.130"},
		{"fermenter.gravity=1.140", "carbohydrate", "", "Balling's formula: the original gravity must be from 1.000 to 1.130"},
		{"fermenter.gravity=1.140", "abv-duty", "", "the duty table: the fall in gravity must be from 0 to 100.75 points"},
		{"fermenter.gravity=1.002", "pitching-rate", "", "a pitching rate: the gravity must be from 1.004 to 1.150"},
		{"hops[0].boiled=150 min", "bitterness", "", ""},
		{"hops[0].boiled=5 h", "bitterness", "", "Tinseth's utilisation: the boil must be from 0 to 240 min"},
		{"grist[1].weight=7 kg", "colour", "", ""},
		{"grist[1].weight=40 kg", "colour", "", "Morey's colour: the malt colour must be from 0 to 250"},
		{"aim.volume=5 L", "og-expected", "", "the grist would make wort above 1.150 in so little"},
		{"mash.rests[0].at=85 C", "strike-temperature", "", "a strike temperature: the rest must be from 30 to 80 °C"},
		{"racked.warmest=45 C", "residual-co2", "", ""},
		{"racked.warmest=60 C", "residual-co2", "", "the solubility of carbon dioxide: the temperature must be from −2 to 50 °C"},
		{"packages[2].priming.each=12 g", "condition", "packages[2]", ""},
		{"packages[2].priming.each=18 g", "pressure-warmest", "packages[2]", ""},
		{"aim.condition=5.5 vol", "priming-sugar", "sucrose", ""},
		{"liquor.volume=0.0001 L", "ion", "calcium", tooMuch},
	} {
		d := journal.ReadFileSet("entry.md", raw, nil, []string{c.set})
		if len(d.Errors) > 0 {
			t.Fatalf("%s: %v", c.set, d.Errors)
		}
		j := opened(t, byHand)
		s := Work(d.Gyle, contextOf(j, longAfter))
		f, ok := s.Find(c.id, c.of)
		switch {
		case ok && c.because == "" && !strings.Contains(f.Note, "extrapolated"):
			t.Errorf("%s: %s is %g and nobody says that it is extrapolated: %q", c.set, partOf(f), f.Value, f.Note)
		case ok && c.because != "":
			t.Errorf("%s: %s is %g, want it withheld", c.set, partOf(f), f.Value)
		case !ok && !slices.ContainsFunc(s.Missing, func(m Missing) bool {
			return m.Figure == c.id && m.Of == c.of && c.because != "" && strings.HasPrefix(m.Because, c.because)
		}):
			t.Errorf("%s: %s is not there; missing are %+v", c.set, part{c.id, c.of}, s.Missing)
		}
	}
}

// TestEveryKindSaysItsRange, what its symbols are, where it is from and what it was
// checked against.
func TestEveryKindSaysItsRange(t *testing.T) {
	seen := map[ID]bool{}
	for _, k := range Kinds() {
		if seen[k.ID] {
			t.Errorf("two kinds are called %s", k.ID)
		}
		seen[k.ID] = true
		for what, text := range map[string]string{"label": k.Label, "says": k.Says, "formula": k.Formula, "range": k.Valid, "source": k.Source, "check": k.Checked} {
			if strings.TrimSpace(text) == "" {
				t.Errorf("%s has no %s", k.ID, what)
			}
		}
		if len(k.Symbols) == 0 {
			t.Errorf("%s explains none of its symbols", k.ID)
		}
	}
}
