package rules

import (
	"testing"

	"gylebook/internal/assay/healthy"
)

// TestAMistypedGravityIsNotMissing: the slip is named once, where it stands, and
// nobody is sent to read again what was read.
func TestAMistypedGravityIsNotMissing(t *testing.T) {
	found := examined(t, "bottled", "", "fermenter.gravity=1042", "copper.after.gravity=")
	if len(healthy.WithID(found, "gravity-mistyped")) != 1 {
		t.Error("the slip is not named")
	}
	for _, n := range healthy.WithID(found, "reading-missing") {
		t.Errorf("and it is asked for: %s", n.Says)
	}
	found = examined(t, "bottled", "", "fermenter.gravity=", "copper.after.gravity=")
	if len(healthy.WithID(found, "reading-missing")) == 0 {
		t.Error("a gravity that was never written is not asked for")
	}
}
