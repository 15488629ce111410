package rules_test

import (
	"regexp"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/proposals"
	"gylebook/internal/rules"
)

// withDoubt is a number with its ± in a sentence.
var withDoubt = regexp.MustCompile(`(−?[0-9]+(?:\.([0-9]+))?) ± ([0-9]+(?:\.([0-9]+))?)`)

// TestNoMoreDigitsThanTheDoubtSupports: wherever a sentence gives a ±, the number
// before it is printed to the same place, and the ± itself to one digit, or two
// where it begins with 1. Nobody is blamed.
func TestNoMoreDigitsThanTheDoubtSupports(t *testing.T) {
	seen := 0
	look := func(whose, text string) {
		for _, m := range withDoubt.FindAllStringSubmatch(text, -1) {
			seen++
			if len(m[2]) != len(m[4]) {
				t.Errorf("%s: %q is not printed to the place of its doubt, in %q", whose, m[0], text)
			}
			digits := strings.TrimLeft(strings.ReplaceAll(m[3], ".", ""), "0")
			if m[4] != "" && (len(digits) > 2 || len(digits) == 2 && digits[0] != '1') {
				t.Errorf("%s: a doubt of %q has digits that mean nothing, in %q", whose, m[3], text)
			}
		}
		for _, blame := range []string{"you should have", "your fault", "your mistake", "careless", "you failed", "you forgot"} {
			if strings.Contains(strings.ToLower(text), blame) {
				t.Errorf("%s blames: %q", whose, text)
			}
		}
	}
	for _, e := range healthy.Examples(t, "testdata/examples.yaml") {
		for _, n := range rules.Examine(e.Raised(t)) {
			look(n.ID, n.Says+" "+n.Why+" "+n.Do)
		}
	}
	j := readBook(t)
	for _, want := range verdicts {
		s := sheetIn(t, j, want.file, want.on)
		for _, n := range rules.Examine(s) {
			look(want.file+", "+n.ID, n.Says+" "+n.Why+" "+n.Do)
		}
		if v, ok := rules.FinishedOrQuiet(s); ok {
			text := v.Says + " " + v.Do
			for _, e := range v.Evidence {
				text += " " + e.Says
			}
			look(want.file+", verdict", text)
		}
		for _, p := range proposals.Propose(s) {
			look(want.file+", proposal", p.Gap+" "+p.Cause+" "+p.Change+" "+p.Know)
		}
	}
	if seen < 50 {
		t.Errorf("only %d numbers with a doubt were seen", seen)
	}
}
