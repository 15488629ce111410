package book

import (
	"math"

	"gylebook/internal/figures"
)

// lossSteps are the steps of loss in the order of the work, as figures names
// them.
var lossSteps = []string{"copper to fermenter", "fermenter to container", "filling", "dumped"}

// lossesToContainers is what was lost between the fermenter and the containers:
// in racking, and in filling where that is known apart.
func lossesToContainers(s *figures.Sheet) taught {
	racking, filling := teaches(s, "losses", "fermenter to container"), teaches(s, "losses", "filling")
	if racking.known && filling.known {
		racking.value += filling.value
		racking.doubt = math.Hypot(racking.doubt, filling.doubt)
	}
	return racking
}
