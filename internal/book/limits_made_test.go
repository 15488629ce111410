package book_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/proposals"
)

// otherExamples are of limits that no value of an entry comes near to: what is judged
// of a reading above the limit, and of one below it.
var otherExamples = map[string]func(t *testing.T) (above, below func() string){
	"yield-off": func(t *testing.T) (above, below func() string) {
		return byRule("yield-outlier", usualYield(t, 10.5)), byRule("yield-outlier", usualYield(t, 9.5))
	},
	"adult-age": func(t *testing.T) (above, below func() string) {
		taster := func(age int) *figures.Sheet {
			card := fmt.Sprintf("card: taster\nname: young Wren\nage: %d", age)
			return withCard(t, "pouring", "2026-03-28", card, "tastings[0].by=young Wren")
		}
		return byRule("under-age", taster(18)), byRule("under-age", taster(17))
	},
	"water-unbalanced": func(t *testing.T) (above, below func() string) {
		water := func(calcium float64) *figures.Sheet {
			const ions = "card: water\nname: the tap\ncalcium: %g ppm\nmagnesium: 10 ppm\nsodium: 20 ppm\n" +
				"sulphate: 60 ppm\nchloride: 40 ppm\nbicarbonate: 250 ppm"
			return withCard(t, "mashing", "2026-03-01 09:40", fmt.Sprintf(ions, calcium), "liquor.water=the tap")
		}
		// A calcium ion weighs 40.08 and has two charges: 10 mg/L are 0.5 mEq/L.
		lowest := 0.0
		for calcium := 60.0; calcium < 200; calcium += 0.1 {
			if judged(water(calcium), "rule water-unbalanced") == "" {
				lowest = calcium
				break
			}
		}
		return byRule("water-unbalanced", water(lowest-0.1)), byRule("water-unbalanced", water(lowest))
	},
	"logger-jumps": func(t *testing.T) (above, below func() string) {
		jumped := func(points float64) *figures.Sheet {
			return floated(t, func(rows []string) []string {
				for i := 101; i < len(rows); i++ {
					rows[i] = lifted(t, rows[i], points)
				}
				return rows
			})
		}
		most := 0.0
		for points := 3.0; points < 8; points += 0.02 {
			if judged(jumped(points), "rule logger-disagrees") != judged(jumped(0), "rule logger-disagrees") {
				most = points
				break
			}
		}
		return byRule("logger-disagrees", jumped(most)), byRule("logger-disagrees", jumped(most-0.02))
	},
	"logger-stray": func(t *testing.T) (above, below func() string) {
		stray := func(of int) *figures.Sheet { // 11 rows in the air, of so many
			return floated(t, func(rows []string) []string {
				for i := range 11 {
					rows[i+1] = lifted(t, rows[i+1], 900)
				}
				return rows[:of+1]
			})
		}
		return byRule("logger-disagrees", stray(219)), byRule("logger-disagrees", stray(220))
	},
	"halfway": func(t *testing.T) (above, below func() string) {
		dry := healthy.Sheet(t, "bottled", "", "readings[1].gravity=1.006", "readings[2].gravity=1.006")
		followed := func(heat string) func() string {
			next := healthy.Sheet(t, "bottled", "", "mash.rests[0].at="+heat)
			return func() string { // from 66 °C, 68 °C was proposed
				_, made := proposals.Propose(dry)[0].Judge(next)
				return fmt.Sprint(made)
			}
		}
		return followed("67.01 C"), followed("66.99 C")
	},
}

func byRule(id string, s *figures.Sheet) func() string {
	return func() string { return judged(s, "rule "+id) }
}

// usualYield is a healthy gyle of a brewer whose yields lie so much higher.
func usualYield(t *testing.T, by float64) *figures.Sheet {
	t.Helper()
	s := healthy.Sheet(t, "bottled", "")
	f, _ := s.Find("brewhouse-yield", "")
	context := s.Context
	context.Past.Yield = figures.Learned{Median: f.Value + by, HalfWidth: 1, Gyles: 5}
	return figures.Work(s.Gyle, context)
}

// withCard is an entry among one card more.
func withCard(t *testing.T, entry, day, card string, sets ...string) *figures.Sheet {
	t.Helper()
	s := healthy.Sheet(t, entry, day, sets...)
	d := journal.ReadFile("cards/one.md", []byte("---\n"+card+"\n---\n"), nil)
	if len(d.Errors) > 0 {
		t.Fatal(d.Errors)
	}
	context := s.Context
	context.Larder = journal.NewLarder(append(healthy.Journal().Cards, d.Card))
	return figures.Work(s.Gyle, context)
}

// floated is the entry with a float, the rows of its file changed.
func floated(t *testing.T, change func(rows []string) []string) *figures.Sheet {
	t.Helper()
	raw, err := fs.ReadFile(healthy.Entries, "logged-float.csv")
	if err != nil {
		t.Fatal(err)
	}
	s := healthy.Sheet(t, "logged", "2026-03-06")
	rows := change(strings.Split(strings.TrimSpace(string(raw)), "\n"))
	log, errors := journal.ReadLog("logged-float.csv", strings.NewReader(strings.Join(rows, "\n")), s.Settings.Zone)
	if len(errors) > 0 {
		t.Fatal(errors)
	}
	g := *s.Gyle
	g.Log = log
	return figures.Work(&g, s.Context)
}

// lifted is a row of a logger with so many points more.
func lifted(t *testing.T, row string, points float64) string {
	t.Helper()
	fields := strings.Split(row, ",")
	var g float64
	if _, err := fmt.Sscan(fields[1], &g); err != nil {
		t.Fatal(err)
	}
	fields[1] = fmt.Sprintf("%.4f", g+points/1000)
	return strings.Join(fields, ",")
}
