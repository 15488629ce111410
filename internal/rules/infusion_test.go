package rules

import (
	"slices"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/notice"
)

// TestInfusionOff: 4.15 kg, 11 L at 55 °C and 4 L at 98 °C, meant for 66 °C.
//
// By the sum: (0.41 × 4.15 + 11) × 55 = 698.58, and 4 × 98 = 392, over 16.70 L:
// 65.3 °C. Read at 62, it takes 16.70 × 4 ÷ 32 = 2.1 L more at 98 °C to reach 66, so
// 6.1 L in all the next time. Read at 64 with 3.2 L let in (15.90 L; 1012.2 ÷ 15.90 =
// 63.7 °C), the sum says that it was too little.
func TestInfusionOff(t *testing.T) {
	const standing, after = "2026-03-01 10:00", "2026-03-04"
	for _, c := range []struct {
		name, on string
		sets     []string
		want     notice.Severity
		says     []string
	}{
		{"where it was meant", standing, []string{"mash.rests[1].at=66 C"}, -1, nil},
		{"within what a mash can be read to", standing, []string{"mash.rests[1].at=65 C"}, -1, nil},
		{"colder than the sum", standing, []string{"mash.rests[1].at=62.5 C", "mash.rests[1].aimed=66.5 C"}, notice.Look, []string{"62.5 ± 1.2 °C", "66.5 °C was meant", "65.3 ± ", "the tun took heat", "Stir in 2.1 ± "}},
		{"too little by the sum", standing, []string{"mash.rests[1].at=64 C", "mash.rests[1].liquor=3.2 L"}, notice.Look, []string{"63.7 ± ", "too little liquor", "Stir in 1.0 ± "}},
		{"too hot", standing, []string{"mash.rests[1].at=69 C"}, notice.Look, []string{"warmer before", "Stir in cold liquor"}},
		{"too hot by the sum", standing, []string{"mash.rests[1].at=68 C", "mash.rests[1].liquor=5 L"}, notice.Look, []string{"too much liquor"}},
		{"nobody weighed or measured", standing, []string{"mash.rests[1].at=64 C", "mash.rests[1].liquor="}, notice.Look, []string{"What a rest makes", "boiling liquor"}},
		{"when it is over", after, []string{"mash.rests[1].at=62.5 C", "mash.rests[1].aimed=66.5 C"}, notice.Note, []string{"Next time: let in 6.1 L instead of 4 L."}},
		{"no infusion", standing, []string{"mash.rests[1].at=64 C", "mash.rests[1].by=heat"}, -1, nil},
		{"told as a mash that makes no beer", standing, []string{"mash.rests[1].at=58 C"}, -1, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			all := examined(t, "mashing", c.on, slices.Concat(stepped, c.sets)...)
			found := healthy.WithID(all, "infusion-off")
			if got := healthy.Gravest(found); got != c.want {
				t.Fatalf("%v, want %v", got, c.want)
			}
			for _, part := range c.says {
				if text := found[0].Says + " " + found[0].Why + " " + found[0].Do; !strings.Contains(text, part) {
					t.Errorf("%q does not say %q", text, part)
				}
			}
			// One reading is told of once.
			if len(found) > 0 && len(healthy.WithID(all, "mash-off")) > 0 {
				t.Error("the same reading is told as a mash off its aim too")
			}
		})
	}
}

// stepped is a mash of two rests, the second by an infusion meant for 66 °C.
var stepped = []string{
	"mash.rests[0].at=55 C", "mash.rests[+].by=infusion", "mash.rests[1].aimed=66 C", "mash.rests[1].for=60 min",
	"mash.rests[1].liquor=4 L", "mash.rests[1].liquor_at=98 C",
}
