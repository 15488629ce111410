package figures

import (
	"flag"
	"os"
	"testing"
)

// TestMain gives random inputs a known seed where CI=true, so that a red run
// there means that something changed. Elsewhere each run draws its own.
func TestMain(m *testing.M) {
	flag.Parse()
	if os.Getenv("CI") == "true" {
		if err := flag.Set("rapid.seed", "20260601"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
