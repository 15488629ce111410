package book

import (
	"fmt"
	"math"
	"testing"
)

func TestTastingsGathered(t *testing.T) {
	b := open(t, entries{"1.md": `gyle: 1
beer: A
tastings:
  - {by: Ann, score: 30, found: [sweet, Flat, lifeless]}
  - {by: ann, score: 40, found: [sugary]}
  - {by: Bob, score: 7, out_of: 10, found: [too sweet, dry]}
  - {score: 60, found: [flat]}
  - {score: 1, out_of: 0, found: [" flat "]}
  - {by: Bob, text: nothing}`, "2.md": "gyle: 2\nbeer: B"})
	got := b.Gyle(1).Tasted
	if got.Tastings != 6 || got.Tasters != 4 || got.Scored != 3 {
		t.Errorf("got %+v, want 6 tastings by 4 tasters, 3 of them scored: a score above the most is none", got)
	}
	// 0.6, 0.8 and 0.7: standard deviation 0.1, of their mean 0.1/√3.
	if math.Abs(got.Score-0.7) > 1e-9 || math.Abs(got.PlusMinus-0.2/math.Sqrt(3)) > 1e-9 {
		t.Errorf("mean score %v ± %v, want 0.7 ± %v", got.Score, got.PlusMinus, 0.2/math.Sqrt(3))
	}
	if words, want := fmt.Sprint(got.Words), "[{flat 3} {sweet 2} {dry 1}]"; words != want {
		t.Errorf("words %s, want %s", words, want)
	}
	if none := b.Gyle(2).Tasted; none.Tastings != 0 || !math.IsNaN(none.Score) || !math.IsNaN(none.PlusMinus) {
		t.Errorf("nothing tasted gives %+v", none)
	}
}
