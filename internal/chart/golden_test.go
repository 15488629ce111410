package chart

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the charts kept in testdata")

// TestGolden holds the drawings to the bytes that were looked at and found good.
func TestGolden(t *testing.T) {
	for name, got := range samples() {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join("testdata", name+".svg")
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), string(got)); diff != "" {
				t.Errorf("the drawing has changed; look at it, then run with -update (-want +got):\n%s", diff)
			}
		})
	}
}
