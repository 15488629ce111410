package figures

import (
	"fmt"
	"testing"
	"time"

	"gylebook/internal/journal"
)

func TestStages(t *testing.T) {
	const (
		brewed  = "brewed: 2026-03-07\n"
		pitched = brewed + "yeast: [{yeast: any, pitched: 2026-03-07 14:00}]\n"
		racked  = pitched + "racked: {on: 2026-03-16, volume: 20 L}\n"
		two     = racked + "packages:\n  - {vessel: pin, %s}\n  - {vessel: soft bag 10 L, %s}\n"
	)
	for _, c := range []struct {
		name, keys, now string
		want            Stage
	}{
		{"nothing written", "", "2026-03-07 12:00", Paper},
		{"the day before", brewed, "2026-03-06 23:59", Paper},
		{"the day itself begins at midnight", brewed, "2026-03-07 00:00", Copper},
		{"mash started, no brew day", "mash: {started: 2026-03-07 09:00}\n", "2026-03-07 09:00", Copper},
		{"copper started, no brew day", "copper: {started: 2026-03-07 11:00}\n", "2026-03-07 11:30", Copper},
		{"brewed and long silent", brewed, "2027-01-01 00:00", Copper},
		{"pitching to come", pitched, "2026-03-07 13:59", Copper},
		{"pitched", pitched, "2026-03-07 14:00", Working},
		{"a fermenter volume implies pitched", brewed + "fermenter: {volume: 20 L}\n", "2026-03-07 18:00", Working},
		{"a fermenter volume that is planned does not", brewed + "fermenter: {volume: 20 L}\n", "2026-03-06 18:00", Paper},
		{"a fermenter volume before a dated pitching does not", pitched + "fermenter: {volume: 20 L}\n", "2026-03-07 13:00", Copper},
		{"a reading on brew day is of wort", brewed + "readings: [{when: 2026-03-07 16:00, gravity: 1.040}]\n", "2026-03-07 20:00", Copper},
		{"a reading after brew day implies pitched", brewed + "readings: [{when: 2026-03-08 08:00, gravity: 1.030}]\n", "2026-03-08 09:00", Working},
		{"a reading to come does not", brewed + "readings: [{when: 2026-03-08 08:00, gravity: 1.030}]\n", "2026-03-08 07:00", Copper},
		{"racking to come", racked, "2026-03-15 12:00", Working},
		{"racked", racked, "2026-03-16 00:00", Maturing},
		{"packaged without racking", pitched + "packages: [{vessel: pin, on: 2026-03-16}]\n", "2026-03-16 12:00", Maturing},
		{"a package with no date is a plan", pitched + "packages: [{vessel: pin}]\n", "2026-03-16 12:00", Working},
		{"drawn from another gyle", "drawn_from: [{gyle: 9, volume: 5 L, on: 2026-03-16}]\n", "2026-03-16 12:00", Maturing},
		{"to be drawn from another", "drawn_from: [{gyle: 9, volume: 5 L, on: 2026-03-16}]\n", "2026-03-15 12:00", Paper},
		{"broaching to come", racked + "served: {broached: 2026-04-18 12:00}\n", "2026-04-18 11:59", Maturing},
		{"broached", racked + "served: {broached: 2026-04-18 12:00}\n", "2026-04-18 12:00", Pouring},
		{"one of two broached", fmt.Sprintf(two, "broached: 2026-04-01", "count: 1"), "2026-04-02 12:00", Pouring},
		{"something poured", racked + "poured: [{when: 2026-04-18, volume: 1 L}]\n", "2026-04-18 12:00", Pouring},
		{"emptying to come", racked + "served: {broached: 2026-04-18, emptied: 2026-04-20}\n", "2026-04-19 12:00", Pouring},
		{"emptied", racked + "served: {broached: 2026-04-18, emptied: 2026-04-20}\n", "2026-04-20 00:00", Empty},
		{"one of two emptied", fmt.Sprintf(two, "broached: 2026-04-01, emptied: 2026-04-03", "count: 1"), "2026-04-04 12:00", Pouring},
		{"both emptied", fmt.Sprintf(two, "emptied: 2026-04-03", "emptied: 2026-04-05"), "2026-04-06 12:00", Empty},
		{"emptied and nothing else written", "served: {emptied: 2026-04-20}\n", "2026-05-01 12:00", Empty},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, err := time.Parse("2006-01-02 15:04", c.now)
			if err != nil {
				t.Fatal(err)
			}
			d := journal.ReadFile("entry.md", []byte("---\ngyle: 1\nbeer: Any\n"+c.keys+"---\n"), nil)
			if len(d.Errors) > 0 {
				t.Fatalf("it does not read: %v", d.Errors)
			}
			s := Work(d.Gyle, Context{Larder: testLarder, Now: now})
			if s.Stage != c.want {
				t.Errorf("it is on %s, want %s", s.Stage, c.want)
			}
			if len(s.Impossible) > 0 {
				t.Errorf("a plan is taken for a mistake: %+v", s.Impossible)
			}
		})
	}
}

// TestStagesOnlyGoOn: as the clock runs, no stage is ever gone back on.
func TestStagesOnlyGoOn(t *testing.T) {
	for _, dir := range []string{demo, byHand} {
		j := opened(t, dir)
		for _, g := range j.Gyles {
			stage, now := Paper, g.Brewed.Time.AddDate(0, 0, -2)
			for range 24 * 20 {
				next := stageOf(g, now)
				if next < stage {
					t.Errorf("gyle %d goes back from %s to %s at %s", g.Number.N, stage, next, now)
				}
				stage, now = next, now.Add(6*time.Hour)
			}
		}
	}
}

func TestStageWords(t *testing.T) {
	want := []string{"paper", "copper", "working", "maturing", "pouring", "empty"}
	for i, s := range Stages() {
		if s.String() != want[i] {
			t.Errorf("stage %d is %s, want %s", i, s, want[i])
		}
	}
}
