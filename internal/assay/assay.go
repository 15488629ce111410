package assay

import (
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Case is one gyle under examination.
type Case struct {
	*figures.Sheet
	*figures.Inquiry
	Gyle *journal.Gyle
	Now  time.Time
	// units is how what is said of the gyle is written: see units.go.
	Units q.Spelling
	// limits are those of habit and taste: see limits.go.
	Habits Habits
}

// Certainty is how sure a comparison of a figure with a limit is.
type Certainty int

// No: the figure is on the good side even with its upper bound. Perhaps: its bound
// reaches over. Probably: the figure is over, its ± reaches back. Surely: it is over
// with all of its ±.
const (
	No Certainty = iota
	Perhaps
	Probably
	Surely
)

// Over compares a figure with an upper limit.
func Over(f figures.Figure, limit float64) Certainty {
	doubt := 0.0
	if f.HasPlusMinus() {
		doubt = f.PlusMinus
	}
	switch {
	case f.Value-doubt > limit:
		return Surely
	case f.Value > limit:
		return Probably
	case f.UpperBound() > limit:
		return Perhaps
	}
	return No
}

// Under compares a figure with a lower limit.
func Under(f figures.Figure, limit float64) Certainty {
	return Over(f.Mirrored(), -limit)
}

// Verb is "is" or "will" where a finding is sure, and "may be" or "may" where
// the readings cannot tell.
func (c Certainty) Verb(sure, unsure string) string {
	if c == Surely {
		return sure
	}
	return unsure
}
