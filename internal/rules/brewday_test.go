package rules

import (
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/notice"
)

// TestMashOffItsAim: a heat that makes beer, and not the one that was meant.
func TestMashOffItsAim(t *testing.T) {
	cases := []struct {
		at, aimed, on string
		want          notice.Severity
		says          string
	}{
		{"66 C", "66 C", "2026-03-01 09:40", -1, ""},
		{"67 C", "66 C", "2026-03-01 09:40", -1, ""},
		{"68 C", "66 C", "2026-03-01 09:40", notice.Look, "2.0 °C too hot"},
		{"64 C", "66 C", "2026-03-01 09:40", notice.Look, "2.0 °C too cold"},
		{"68 C", "66 C", "2026-03-04", notice.Note, "2.0 °C too hot"},
		{"75 C", "66 C", "2026-03-01 09:40", notice.Mend, "62 to 70"},
	}
	for _, c := range cases {
		in := "mashing"
		if c.want == notice.Note {
			in = "bottled"
		}
		found := healthy.WithID(examined(t, in, c.on, "mash.rests[0].at="+c.at, "mash.rests[0].aimed="+c.aimed), "mash-off")
		if got := healthy.Gravest(found); got != c.want {
			t.Errorf("%s for %s: %v, want %v", c.at, c.aimed, got, c.want)
		}
		if len(found) > 0 && !strings.Contains(found[0].Says, c.says) {
			t.Errorf("%s for %s: %q, want %q in it", c.at, c.aimed, found[0].Says, c.says)
		}
	}
}

// TestCylinderInASmallRoom: only where the room is known to be small, and a
// danger only where its air is known not to move.
func TestCylinderInASmallRoom(t *testing.T) {
	for _, c := range []struct {
		sets []string
		want notice.Severity
	}{
		{nil, -1},
		{[]string{"packages[0].gas.room=10 m3", "packages[0].gas.aired=false"}, notice.Danger},
		{[]string{"packages[0].gas.room=10 m3"}, notice.Look},
		{[]string{"packages[0].gas.room=10 m3", "packages[0].gas.aired=true"}, -1},
		{[]string{"packages[0].gas.room=40 m3", "packages[0].gas.aired=false"}, -1},
	} {
		if got := healthy.Gravest(healthy.WithID(examined(t, "kegged", "", c.sets...), "co2-space")); got != c.want {
			t.Errorf("%v: %v, want %v", c.sets, got, c.want)
		}
	}
}
