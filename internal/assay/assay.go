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

// No: the figure is on the good side even with its ±. Perhaps: its ± reaches
// over. Probably: the figure is over, its ± reaches back. Surely: it is over
// with all of its ±.
const (
	No Certainty = iota
	Perhaps
	Probably
	Surely
)

// Verb is "is" or "will" where a finding is sure, and "may be" or "may" where
// the readings cannot tell.
func (c Certainty) Verb(sure, unsure string) string {
	if c == Surely {
		return sure
	}
	return unsure
}
