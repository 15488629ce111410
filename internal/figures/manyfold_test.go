package figures

import (
	"math"
	"testing"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// TestEvaluateManyWithoutDoubt: an argument whose inputs turn out to do nothing to it
// leaves every number as sure as one that is exact.
func TestEvaluateManyWithoutDoubt(t *testing.T) {
	b := newBench(&journal.Gyle{}, Context{})
	doubted := customary(b, q.Number(3), 1, "", "something", "invented")
	nought := times[q.Number](b, doubted, 0)
	many, lack := b.evaluateMany(func(x, y []float64) error {
		y[0], y[1] = x[0]+x[1], x[1]
		return nil
	}, []argument{arg(nought), arg(exactly(q.Number(2)))}, 2)
	if lack != nil {
		t.Fatal(lack)
	}
	for i, v := range many {
		if v.value != 2 || v.u != 0 || math.IsNaN(v.u) {
			t.Errorf("number %d: %g, u = %g", i, v.value, v.u)
		}
	}
}
