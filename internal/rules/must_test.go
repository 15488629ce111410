package rules_test

import (
	"strings"
	"testing"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

// dryCider is bottled as a careful brewer would: level for six days, and dry.
const dryCider = `---
gyle: 1
beer: A must without malt
brewed: 2026-10-03
added: [{juice: apple juice, volume: 20 L}]
yeast: [{yeast: champagne yeast, pitched: 2026-10-03 15:00}]
fermenter: {vessel: bucket, volume: 20 L, gravity: 1.048}
readings:
  - {when: 2026-10-24 09:00, gravity: 0.998, temp: 16 C}
  - {when: 2026-10-30 09:00, gravity: 0.998, temp: 16 C}
racked: {on: 2026-10-31, volume: 19 L, temp: 15 C}
packages: [{vessel: swing top bottle 1 L, count: 19}]
cellared: {at: 12 C, warmest: 16 C}
---
`

// TestMustsWithoutMalt: cider, mead and wine that are dry and stand still are no danger,
// however the must is written; bottled sweet, or sweetened, they are one.
func TestMustsWithoutMalt(t *testing.T) {
	const juice = "added: [{juice: apple juice, volume: 20 L}]"
	for _, c := range []struct {
		name    string
		changes []string // from, to
		danger  bool
	}{
		{"cider", nil, false},
		{"cider of brew day", []string{"20 L}]", "20 L, when: 2026-10-03}]"}, false},
		{"cider, into the fermenter", []string{"20 L}]", "20 L, into: fermenter}]"}, false},
		{"dry mead", []string{juice, "grist: [{sugar: honey, weight: 6 kg}]", "1.048", "1.090"}, false},
		{"dry mead of added honey", []string{juice, "added: [{other: honey, weight: 6 kg}, {liquor: spring water, volume: 16 L}]", "1.048", "1.090"}, false},
		{"cider primed as one does", []string{"packages:", "priming: {sugar: sucrose, weight: 60 g}\npackages:"}, false},
		{"bottled sweet", []string{"0.998", "1.010"}, true},
		{"mead that stopped", []string{juice, "grist: [{sugar: honey, weight: 6 kg}]", "1.048", "1.090", "0.998", "1.020"}, true},
		{"sweetened after it was dry", []string{"20 L}]", "20 L}, {juice: apple juice, volume: 2 L, when: 2026-10-31}]"}, true},
		{"sweetened with honey", []string{"20 L}]", "20 L}, {other: honey, weight: 400 g, when: 2026-10-31}]"}, true},
		{"primed with too much", []string{"packages:", "priming: {sugar: sucrose, weight: 300 g}\npackages:"}, true},
		{"not seen to stand still", []string{"2026-10-30 09:00, gravity: 0.998", "2026-10-24 20:00, gravity: 1.004", "2026-10-24 09:00, gravity: 0.998", "2026-10-20 09:00, gravity: 1.020"}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := journal.ReadFile("1.md", []byte(strings.NewReplacer(c.changes...).Replace(dryCider)), nil)
			for _, e := range d.Errors {
				t.Fatal(e)
			}
			now := time.Date(2026, 11, 20, 12, 0, 0, 0, time.UTC)
			s := figures.Work(d.Gyle, figures.Context{Larder: journal.NewLarder(nil), Now: now})
			var dangers []string
			for _, n := range rules.Examine(s) {
				if n.Severity == notice.Danger {
					dangers = append(dangers, n.ID+": "+n.Says)
				}
			}
			if c.danger != (len(dangers) > 0) {
				t.Errorf("dangers: %q", dangers)
			}
		})
	}
}
