package proposals

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"gylebook/internal/assay"
	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
)

// TestProposalsFedBack: whatever an entry reads, a change that is proposed and made
// moves the figure towards the aim; what is expected of it is the same figure that
// the entry gives with the change typed into it; and the interval covers the aim or
// says why not.
func TestProposalsFedBack(t *testing.T) {
	seen := map[figures.ID]int{}
	rapid.Check(t, func(r *rapid.T) {
		entry := rapid.SampledFrom([]string{"bottled", "bagged", "casked", "kegged", "pouring"}).Draw(r, "entry")
		sets := drawnSets(r)
		s := healthy.Sheet(t, entry, "", sets...)
		for _, p := range Propose(s) {
			seen[p.Figure]++
			if was, will := math.Abs(p.got.Value-p.aim), math.Abs(p.Expect.Value-p.aim); will >= was {
				r.Fatalf("%s with %v: %s moves it from %g to %g, away from %g", entry, sets, p.Change, p.got.Value, p.Expect.Value, p.aim)
			}
			if math.Abs(p.Expect.Value-p.aim) > p.Expect.PlusMinus && p.Short == "" {
				r.Fatalf("%s with %v: %g ± %g does not cover %g and does not say why", entry, sets, p.Expect.Value, p.Expect.PlusMinus, p.aim)
			}
			fedBack(t, r, entry, sets, s, p)
		}
		allUntold(r, s)
	})
	for _, figure := range []figures.ID{"og", "fg", "bitterness", "colour", "condition", "volume"} {
		if seen[figure] == 0 {
			t.Errorf("no random entry gave a proposal for %s: nothing was tested", figure)
		}
	}
}

// drawnSets are random readings and aims.
func drawnSets(r *rapid.T) []string {
	between := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(r, name) }
	fg := between("fg", 1.004, 1.018)
	volume := between("volume", 18, 25)
	return []string{
		fmt.Sprintf("fermenter.gravity=%.4f", between("og", 1.034, 1.052)),
		fmt.Sprintf("fermenter.volume=%.1f L", volume),
		fmt.Sprintf("sparge.liquor=%.1f L", between("sparge", 15, 25)),
		fmt.Sprintf("readings[1].gravity=%.4f", fg), fmt.Sprintf("readings[2].gravity=%.4f", fg),
		fmt.Sprintf("mash.rests[0].at=%.1f C", between("rest", 63, 70)),
		fmt.Sprintf("racked.volume=%.1f L", volume-between("lost", 0.5, 3.5)),
		"priming.sugar=sucrose", fmt.Sprintf("priming.weight=%.0f g", between("sugar", 5, 90)),
		fmt.Sprintf("aim.bitterness=%.0f IBU", between("bitterness", 5, 70)),
		fmt.Sprintf("aim.colour=%.0f EBC", between("colour", 4, 60)),
	}
}

// fedBack reads the entry afresh with the proposal's change typed into it.
func fedBack(t *testing.T, r *rapid.T, entry string, sets []string, s *figures.Sheet, p Proposal) {
	if len(p.Sets) == 0 {
		return
	}
	typed := slices.Clone(sets)
	for _, set := range p.Sets {
		typed = append(typed, set.Key+"="+set.Value)
	}
	after := healthy.Sheet(t, entry, "", typed...)
	var got figures.Figure
	ok := true
	switch p.Figure {
	case "bitterness", "colour", "condition":
		got, ok = after.Find(p.Expect.ID, p.Of) // of a bag all of its gas
	case "og":
		if p.Key != "grist[0].weight" {
			return // more or less liquor changes no figure before it is read
		}
		yield, _ := (&proposer{Case: assay.Of(s), next: s.Past}).yieldToPlanBy()
		context := after.Context
		context.Past.Yield = yield
		got, ok = figures.Work(after.Gyle, context).Find("og-expected", "")
	default:
		return // what a mash or a siphon does no formula says: see the rules of thumb
	}
	if !ok || math.Abs(got.Value-p.Expect.Value) > 1e-9 || math.Abs(got.PlusMinus-p.Expect.PlusMinus) > 1e-9 {
		r.Fatalf("%s with %v: %s expects %g ± %g, and the entry with it gives %g ± %g", entry, sets, p.Change, p.Expect.Value, p.Expect.PlusMinus, got.Value, got.PlusMinus)
	}
}

// allUntold: a figure is proposed for, or passed over with a reason, never both.
func allUntold(r *rapid.T, s *figures.Sheet) {
	proposals, unproposed := Appraise(s)
	for _, u := range unproposed {
		if _, both := findProposal(proposals, u.Figure); both {
			r.Fatalf("%s is proposed for and passed over: %s", u.Figure, u.Why)
		}
	}
}

// TestAProposalLeavesItsSheetAlone: pages ask for proposals from several goroutines.
func TestAProposalLeavesItsSheetAlone(t *testing.T) {
	s := healthy.Sheet(t, "bottled", "", "fermenter.gravity=1.038", "readings[1].gravity=1.006", "readings[2].gravity=1.006", "aim.bitterness=60 IBU", "aim.condition=1.2 vol")
	inputs, count := len(s.Inputs), len(s.Figures)
	done := make(chan int)
	for range 4 {
		go func() { done <- len(Propose(s)) }()
	}
	for range 4 {
		if n := <-done; n < 4 {
			t.Errorf("%d proposals, want four at least", n)
		}
	}
	if len(s.Inputs) != inputs || len(s.Figures) != count {
		t.Error("proposing changed the sheet")
	}
}
