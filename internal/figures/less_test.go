package figures

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"gylebook/internal/figures/histories"
)

// notes are the keys that tell of the beer and do nothing to it. Without an amount a usual
// one is taken, and said to be; without a day a filling may have been after the last reading;
// without a place the beer stands in those that are named, or in a warm room; and what was
// read together makes another fall, or another stand, without one of them.
var notes = []string{"at", "gravity", "share"}

// TestSayingLessIsNeverSafer leaves out one thing that an entry tells. What it came to
// with it must then still lie within the bound.
func TestSayingLessIsNeverSafer(t *testing.T) {
	law{
		change: func(c histories.Chance, h histories.History) *change {
			var all []change
			for _, l := range h.Lines {
				for _, k := range l.Keys {
					if l.In != histories.Subject || !tellsOnly(l, k.Name) {
						continue
					}
					all = append(all, change{says: fmt.Sprintf("without %s of %s", k.Name, l), do: func(h histories.History) histories.History {
						return h.Changed(l.ID, func(l histories.Line) histories.Line { return l.Without(k.Name) })
					}})
				}
			}
			if len(all) == 0 {
				return nil
			}
			return &all[c.IntN(len(all))]
		},
		broken: func(before, after *Sheet, _ *change) string { return surerToBeLess(before, after) },
	}.keep(t)
}

// tellsOnly says whether a line does the same things to the beer without one of its keys.
func tellsOnly(l histories.Line, key string) bool {
	under, name, deep := strings.Cut(key, ".")
	if !deep {
		name = key
	}
	place := slices.Contains([]string{"readings", "racked", "cellared", "conditioned", "served"}, l.Of) || under == "cellared" || under == "conditioned"
	return slices.Contains(notes, name) && len(l.Keys) > 1 && !place && !slices.Contains([]string{"chilled", "vented", "burped"}, l.Value("did")) && (under != "gas" || name == "share")
}

// surerToBeLess tells which bound has fallen below what the entry came to, though nothing
// says what is not known any more.
func surerToBeLess(before, after *Sheet) string {
	for _, f := range before.Figures {
		if f.Kind == kindPressureCellar || f.Kind == kindCondition || !slices.Contains(pressing, f.Kind) && !slices.Contains(sparing, f.Kind) {
			continue
		}
		now, there := after.Find(f.ID, f.Of)
		if !there || len(after.Missing) > len(before.Missing) {
			continue
		}
		if boundsOf(now) < pressingValue(f)-max(slight(f), f.PlusMinus/10) {
			return fmt.Sprintf("%s was %s and is %s", partOf(f), shown(f), shown(now))
		}
	}
	return ""
}
