package figures

import (
	"math"
	"testing"
)

// TestExplained: a sheet worked again with its workings is the same sheet, and a
// figure gives the same working whichever of the two it is asked of.
func TestExplained(t *testing.T) {
	for _, at := range []struct{ dir, gyle string }{{byHand, "1"}, {byHand, "2"}, {demo, "34"}, {demo, "40"}, {demo, "44"}} {
		j := opened(t, at.dir)
		g, c := j.Find(at.gyle), contextOf(j, longAfter)
		s := Work(g, c)
		full := s.Explained()
		if len(full.Figures) != len(s.Figures) || len(full.Missing) != len(s.Missing) {
			t.Fatalf("gyle %s of %s has %d figures and %d missing, explained %d and %d", at.gyle, at.dir, len(s.Figures), len(s.Missing), len(full.Figures), len(full.Missing))
		}
		numbered := 0
		for i, f := range s.Figures {
			also := full.Figures[i]
			same := f.Value == also.Value && f.Kind == also.Kind && f.Of == also.Of &&
				(f.PlusMinus == also.PlusMinus || math.IsNaN(f.PlusMinus) && math.IsNaN(also.PlusMinus))
			if !same || f.Working() != also.Working() {
				t.Errorf("%s is %g ± %g, %q; explained %g ± %g, %q", partOf(f), f.Value, f.PlusMinus, f.Working(), also.Value, also.PlusMinus, also.Working())
			}
			if also.worked.to > also.worked.from {
				numbered++
			}
		}
		if numbered < len(full.Figures)*3/4 {
			t.Errorf("only %d of %d workings of gyle %s have numbers", numbered, len(full.Figures), at.gyle)
		}
	}
}

// TestNothingToExplain: a sheet that could not be worked out is not tried again by
// every page that shows it.
func TestNothingToExplain(t *testing.T) {
	s := &Sheet{} // without an entry, which work would fall over
	if s.Explained() != s {
		t.Error("it was worked again")
	}
}
