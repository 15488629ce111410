package planning

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
)

// planned says a timetable in a line: each step with its day, * where it is done.
func (t Timetable) planned() string {
	var out []string
	for _, s := range t.Steps {
		mark := ""
		if s.Done {
			mark = "*"
		}
		out = append(out, fmt.Sprintf("%s%s %s", s.ID, mark, s.By.Format("01-02")))
	}
	return strings.Join(out, ", ")
}

// TestTimetables counts back from a Saturday, 2026-05-09, by hand. Bag or cask: line
// clean 1 day before, in its place 2, fined 3, vented 4, chilled 7, racked 14, level
// twice 16 and 18, brewed 25. Bottles: upright 2, to the cool 14, bottled 28, level 30
// and 32, brewed 39. Barrel: chilled 14, racked 21, brewed 32. Keg: chilled 11, racked
// 12, brewed 23.
func TestTimetables(t *testing.T) {
	for _, c := range []struct {
		name, in, day string
		sets          []string
		want          []string
		late, hurried int
	}{
		{
			name: "on paper, no container: both ways", in: "planned", day: "2026-03-20", sets: []string{"brewed=", "party.on=2026-05-09"},
			want: []string{
				"brew 04-14, level 04-21, stable 04-23, rack 04-25, cool 05-02, vent 05-05, fine 05-06, place 05-07, clean 05-08, party 05-09",
				"brew 03-31, level 04-07, stable 04-09, rack 04-11, cool 04-25, place 05-07, party 05-09",
			},
		},
		{
			name: "a strong beer takes a fortnight more", in: "planned", day: "2026-03-20",
			sets: []string{"brewed=", "party.on=2026-05-09", "aim.og=1.065", "grist[0].weight=6.5 kg", "packages[+].vessel=pin"},
			want: []string{"brew 03-31, level 04-21, stable 04-23, rack 04-25, cool 05-02, vent 05-05, fine 05-06, place 05-07, clean 05-08, party 05-09"},
		},
		{
			name: "a barrel", in: "planned", day: "2026-03-20", sets: []string{"brewed=", "party.on=2026-05-09", "packages[+].vessel=pressure barrel 25 L"},
			want: []string{"brew 04-07, level 04-14, stable 04-16, rack 04-18, cool 04-25, place 05-07, clean 05-08, party 05-09"},
		},
		{
			name: "a cool room takes twice the time for the priming", in: "planned", day: "2026-03-20",
			sets: []string{"brewed=", "party.on=2026-05-09", "packages[+].vessel=pressure barrel 25 L", "conditioned.at=8 C", "conditioned.warmest="},
			want: []string{"brew 03-31, level 04-07, stable 04-09, rack 04-11, cool 04-25, place 05-07, clean 05-08, party 05-09"},
		},
		{
			name: "a keg", in: "planned", day: "2026-03-20", sets: []string{"brewed=", "party.on=2026-05-09", "packages[+].vessel=keg 19 L"},
			want: []string{"brew 04-16, level 04-23, stable 04-25, rack 04-27, cool 04-28, place 05-07, clean 05-08, party 05-09"},
		},
		{
			name: "to be brewed on the 18th, four days late: hurried", in: "planned", day: "2026-03-20",
			sets: []string{"brewed=2026-04-18", "party.on=2026-05-09", "packages[+].vessel=soft bag 20 L"},
			want: []string{"brew 04-18, level 04-23, stable 04-25, rack 04-25, cool 05-02, vent 05-05, fine 05-06, place 05-07, clean 05-08, party 05-09"}, hurried: 4,
		},
		{
			// 13 days at the least: 5 to the first level gravity, 2 to the second, 4 warm, 1
			// to chill, 1 to stand. Brewed on the 30th it is ready on the 13th.
			name: "to be brewed on the 30th: too late", in: "planned", day: "2026-03-20",
			sets: []string{"brewed=2026-04-30", "party.on=2026-05-09", "packages[+].vessel=soft bag 20 L"},
			want: []string{"brew 04-30, level 05-05, stable 05-07, rack 05-07, cool 05-11, vent 05-12, fine 05-12, place 05-12, clean 05-13, party 05-13"}, late: 4,
		},
		{
			// Level on the 8th and 10th of March, racked on the 11th, for the 28th.
			name: "in a bag since the 11th", in: "bagged", day: "2026-03-14", sets: []string{"party.on=2026-03-28"},
			want: []string{"brew* 03-01, level* 03-08, stable* 03-10, rack* 03-11, cool 03-21, vent 03-24, fine 03-25, place 03-26, clean 03-27, party 03-28"},
		},
		{
			name: "vented on the 16th: what comes before it is done", in: "casked", day: "2026-03-18", sets: []string{"party.on=2026-03-28"},
			want: []string{"brew* 03-01, level* 03-08, stable* 03-10, rack* 03-11, cool* 03-11, vent* 03-16, fine 03-25, place 03-26, clean 03-27, party 03-28"},
		},
		{
			// Read at 1.010 on the 8th alone: that may be its end, and the second reading
			// is due.
			name: "working, once at its end", in: "working", day: "2026-03-09", sets: []string{"party.on=2026-04-11", "readings[2].gravity=", "packages[+].vessel=pin"},
			want: []string{"brew* 03-01, level* 03-08, stable 03-26, rack 03-28, cool 04-04, vent 04-07, fine 04-08, place 04-09, clean 04-10, party 04-11"},
		},
		{
			name: "working, and nobody wrote when it was brewed", in: "working", day: "2026-03-20", sets: []string{"party.on=2026-04-11", "brewed=", "packages[+].vessel=pin"},
			want: []string{"brew* 01-01, level* 03-08, stable* 03-10, rack 03-28, cool 04-04, vent 04-07, fine 04-08, place 04-09, clean 04-10, party 04-11"},
		},
		{
			name: "a bag and bottles", in: "planned", day: "2026-03-20", sets: []string{"brewed=", "party.on=2026-05-09", "packages[+].vessel=soft bag 10 L", "packages[+].vessel=bottle 500 mL", "packages[1].count=20"},
			want: []string{
				"brew 04-14, level 04-21, stable 04-23, rack 04-25, cool 05-02, vent 05-05, fine 05-06, place 05-07, clean 05-08, party 05-09",
				"brew 03-31, level 04-07, stable 04-09, rack 04-11, cool 04-25, place 05-07, party 05-09",
			},
		},
		{name: "the party is over", in: "bagged", day: "2026-05-11", sets: []string{"party.on=2026-05-09"}},
		{name: "no party", in: "bagged", day: "2026-03-20"},
	} {
		t.Run(c.name, func(t *testing.T) {
			all := Timetables(healthy.Sheet(t, c.in, c.day, c.sets...))
			if len(all) != len(c.want) {
				t.Fatalf("%d ways, want %d", len(all), len(c.want))
			}
			for i, way := range all {
				// What cannot be met is given as early as it can be; the party then stands
				// where it could be.
				if got := way.planned(); got != c.want[i] {
					t.Errorf("%s:\n got  %s\n want %s", way.Name, got, c.want[i])
				}
			}
			if len(all) > 0 && (all[0].Late != c.late || all[0].Hurried != c.hurried) {
				t.Errorf("late %d, hurried %d; want %d, %d", all[0].Late, all[0].Hurried, c.late, c.hurried)
			}
		})
	}
}

// TestTimetableOrder: whatever stands in the entry and whenever the party is, the
// days go forward, what is never shortened is not, and a later party makes no step
// earlier.
func TestTimetableOrder(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		entry := rapid.SampledFrom([]string{"planned", "mashing", "pitching", "working", "bagged", "casked", "bottled", "kegged", "barrelled"}).Draw(r, "entry")
		today := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC).AddDate(0, 0, rapid.IntRange(0, 40).Draw(r, "today"))
		inDays := rapid.IntRange(0, 90).Draw(r, "party")
		sets := []string{}
		if entry == "planned" && rapid.Bool().Draw(r, "container") {
			sets = append(sets, "packages[+].vessel="+rapid.SampledFrom([]string{"pin", "soft bag 10 L", "bottle 500 mL", "keg 19 L", "pressure barrel 25 L", "bucket"}).Draw(r, "vessel"))
		}
		on := func(days int) []Timetable {
			party := today.AddDate(0, 0, days).Format(time.DateOnly)
			return Timetables(healthy.Sheet(t, entry, today.Format("2006-01-02 15:04"), append(sets, "party.on="+party)...))
		}
		now, later := on(inDays), on(inDays+rapid.IntRange(1, 30).Draw(r, "later"))
		if len(now) != len(later) {
			r.Fatalf("%d ways and %d", len(now), len(later))
		}
		for i := range now {
			forward(r, now[i])
			for j, s := range now[i].Steps {
				if l := later[i].Steps[j]; l.By.Before(s.By) {
					r.Fatalf("%s: %s on %s, and with a later party on %s", now[i].Name, s.ID, s.By, l.By)
				}
			}
		}
	})
}

func forward(r *rapid.T, way Timetable) {
	for i := 1; i < len(way.Steps); i++ {
		before, s := way.Steps[i-1], way.Steps[i]
		if s.By.Before(before.By) {
			r.Fatalf("%s: %s", way.Name, way.planned())
		}
		if gap := daysBetween(before.By, s.By); !s.Done && gap < s.least {
			r.Fatalf("%s: %d days from %s to %s, and %d are the least: %s", way.Name, gap, before.ID, s.ID, s.least, way.planned())
		}
		if s.Done && !before.Done {
			r.Fatalf("%s is done and %s before it is not", s.ID, before.ID)
		}
	}
}

// TestPartyRound: twelve guests for three hours are 1 + 2 × ½ = 2 to 1 + 2 × ¾ = 2.5
// pints each; for nine hours four at most. At 4.2 % a pint is 2.39 units.
func TestPartyRound(t *testing.T) {
	r, ok := PartyRound(healthy.Sheet(t, "planned", "", "party.on=2026-05-09", "party.guests=12", "party.hours=3"))
	if !ok || r.Low != 2 || r.High != 2.5 || r.Capped || !r.Known {
		t.Errorf("three hours: %+v", r)
	}
	// 21 L less 1.5 in the fermenter, × 0.87 ÷ 0.56826 = 29.9 pints.
	if r.Have.Value < 29.7 || r.Have.Value > 30 || r.UnitsEach < 2.38 || r.UnitsEach > 2.4 {
		t.Errorf("%g pints of %g units, want 29.9 and 2.39", r.Have.Value, r.UnitsEach)
	}
	// With 3 L left behind by three gyles of one's own, 27.6.
	own := healthy.Sheet(t, "planned", "", "party.on=2026-05-09", "party.guests=12", "party.hours=3")
	own.Past.Losses = figures.Learned{Median: 3, HalfWidth: 0.5, Gyles: 3}
	if less, _ := PartyRound(own); less.Have.Value < 27.4 || less.Have.Value > 27.7 {
		t.Errorf("%g pints with losses of one's own, want 27.6", less.Have.Value)
	}
	r, _ = PartyRound(healthy.Sheet(t, "planned", "", "party.on=2026-05-09", "party.guests=12", "party.hours=9"))
	if r.High != 4 || !r.Capped {
		t.Errorf("nine hours: %+v, want no more than four pints each", r)
	}
	if _, ok := PartyRound(healthy.Sheet(t, "planned", "", "party.on=2026-05-09")); ok {
		t.Error("a round for no guests")
	}
}
