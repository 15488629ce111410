package book

import (
	"fmt"
	"math"
	"testing"
	"testing/fstest"

	"gylebook/internal/journal"
)

// TestWhatAnotherGyleTookIsNotLeft: beer drawn out of a container for a blend is
// gone from it; what was split off before it was filled was never in it.
func TestWhatAnotherGyleTookIsNotLeft(t *testing.T) {
	const first = `---
gyle: 1
beer: Drawn from
brewed: 2026-03-01
yeast: [{yeast: any, pitched: 2026-03-01 14:00}]
fermenter: {volume: 21 L, gravity: 1.042, sample_at: 20 C}
racked: {on: 2026-03-11, volume: 20 L, temp: 18 C}
packages: [{vessel: keg 19 L, fill: 18 L}]
---
`
	left := func(drawn string) float64 {
		files := fstest.MapFS{"index.md": {Data: []byte("---\njournal: Any\n---\n")}, "1.md": {Data: []byte(first)}}
		if drawn != "" {
			files["2.md"] = &fstest.MapFile{Data: []byte("---\ngyle: 2\nbeer: Drawn\ndrawn_from: [" + drawn + "]\n---\n")}
		}
		j := journal.Read(files, journal.Options{})
		for _, e := range j.Errors {
			t.Fatal(e)
		}
		f, ok := Open(j, noon).Gyle(1).Sheet.Find("pints-left", "")
		if !ok {
			t.Fatal("nobody knows how many pints are left")
		}
		return f.Value
	}
	whole := left("")
	for _, c := range []struct {
		drawn string
		less  float64 // L
	}{
		{"{gyle: 1, volume: 5 L, on: 2026-03-14}", 5},
		{"{gyle: 1, volume: 5 L, on: 2026-03-11}", 0}, // as it was racked
		{"{gyle: 1, volume: 5 L, on: 2036-03-14}", 0}, // is only planned
	} {
		if got := whole - left(c.drawn); math.Abs(got-c.less/0.56826125) > 1e-6 {
			t.Errorf("%s: %.4f pints fewer, want %.4f", c.drawn, got, c.less/0.56826125)
		}
	}
}

// TestWhatAnotherGyleTookTeachesNoLoss: beer that goes into another gyle at racking
// is not what this brewer loses, and the gyles after it are not planned so.
func TestWhatAnotherGyleTookTeachesNoLoss(t *testing.T) {
	files := fstest.MapFS{"index.md": {Data: []byte("---\njournal: Any\n---\n")}}
	for i := range 4 {
		files[fmt.Sprintf("%d.md", i)] = &fstest.MapFile{Data: fmt.Appendf(nil, `---
gyle: %d
beer: Split
brewed: 2026-01-0%d
yeast: [{yeast: any, pitched: 2026-01-0%d 14:00}]
fermenter: {volume: 21 L, gravity: 1.042, sample_at: 20 C}
racked: {on: 2026-01-1%d, volume: 15 L, temp: 18 C}
---
`, i+1, i+1, i+1, i+1)}
		files[fmt.Sprintf("drawn-%d.md", i)] = &fstest.MapFile{Data: fmt.Appendf(nil, "---\ngyle: %d\nbeer: Fruited\ndrawn_from: [{gyle: %d, volume: 5 L, on: 2026-01-1%d}]\n---\n", 11+i, i+1, i+1)}
	}
	j := journal.Read(files, journal.Options{})
	for _, e := range j.Errors {
		t.Fatal(e)
	}
	if got := Open(j, noon).Gyle(4).Sheet.Past.Losses; got.Gyles != 3 || math.Abs(got.Median-1) > 1e-6 {
		t.Errorf("three gyles of 21 L gave 15 and 5: learned a loss of %+v, want 1 L", got)
	}
}
