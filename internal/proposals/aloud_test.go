package proposals

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
)

var update = flag.Bool("update", false, "rewrite the proposals kept in testdata; read every difference aloud")

// howToRead stands at the head of the kept proposals.
const howToRead = `# What is proposed for each gyle of proposals_test.go, to be read aloud: a line for the
# gyle and what was changed in a healthy entry to make it; then for each proposal, in
# metric and in US units, its gap, cause, change and sign, and why it falls short where
# it does; then what is passed over and why. Numbers are worked by hand beside the test.
`

// TestProposalsReadAloud keeps every sentence of the proposals worked by hand.
func TestProposalsReadAloud(t *testing.T) {
	const kept = "testdata/aloud.txt"
	var b strings.Builder
	b.WriteString(howToRead)
	for _, c := range workedProposals {
		fmt.Fprintf(&b, "\n## %s (%s: %s)\n", c.name, c.in, strings.Join(c.sets, ", "))
		for _, units := range []string{"metric", "us"} {
			all, passed := Appraise(healthy.InUnits(healthy.Sheet(t, c.in, "", c.sets...), units))
			for _, p := range all {
				fmt.Fprintf(&b, "\n%s, %s: %s=%s\n%s\n%s\n%s\n%s\n", p.Figure, units, p.Key, p.Value, p.Gap, p.Cause, p.Change, p.Know)
				if p.Short != "" {
					fmt.Fprintln(&b, p.Short)
				}
			}
			for _, u := range passed {
				fmt.Fprintf(&b, "\npassed over: %s, %s: %s\n", u.Figure, units, u.Why)
			}
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
		t.Errorf("the proposals are not those of %s; run with -update and read the difference aloud", kept)
	}
}
