package book

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// planSteps are a gyle's plan steps in the calendar.
func planSteps(b *Book, number int) string {
	var all []string
	for _, e := range b.Events(b.Gyle(number)) {
		if e.What == PlanStep {
			all = append(all, e.At.Format("01-02")+" "+e.Says)
		}
	}
	return strings.Join(all, "\n")
}

func TestPlanInTheCalendar(t *testing.T) {
	for name, test := range map[string]struct{ front, want string }{
		// While no container is chosen the days are those of a bag or cask; the brew day
		// is in the entry and needs no other.
		"on paper": {
			"brewed: 2026-06-20\nparty: {on: 2026-07-25, guests: 12}",
			"07-07 Last day to see the gravity at its end for the first time\n07-09 Last day to see the same gravity again, 48 hours on\n07-11 Last day to rack and prime\n07-18 Last day to chill it\n07-21 Last day to vent it, chilled\n07-22 Last day to fine it, if you do\n07-23 Last day to put it in its serving place\n07-24 Last day to clean the line, connect and taste",
		},
		// Of two containers, what is done once is due when the first of them needs it.
		"a keg and bottles": {
			"party: {on: 2026-07-25}\npackages: [{vessel: keg 19 L}, {vessel: bottle 500 mL, count: 6}]",
			"06-16 Last day to brew\n06-23 Last day to see the gravity at its end for the first time\n06-25 Last day to see the same gravity again, 48 hours on\n06-27 Last day to bottle and prime (bottle)\n07-11 Last day to move the bottles to the cool (bottle)\n07-13 Last day to rack into the keg (keg)\n07-14 Last day to chill it and put the gas on (keg)\n07-23 Last day to put it in its serving place (keg)\n07-23 Last day to stand the bottles upright (bottle)\n07-24 Last day to clean the line, connect and taste (keg)",
		},
		"too late to be met": {"party: {on: 2026-06-05}", ""},
		"no party":           {"brewed: 2026-06-20", ""},
	} {
		b := open(t, entries{"1.md": "gyle: 1\nbeer: A\n" + test.front})
		if got := planSteps(b, 1); got != test.want {
			t.Errorf("%s: got\n%s\nwant\n%s", name, got, test.want)
		}
	}
}

// TestPlanKeepsItsUIDs: a calendar on a phone moves its event when the party moves.
func TestPlanKeepsItsUIDs(t *testing.T) {
	uids := func(party string) map[string]bool {
		b := open(t, entries{"1.md": "gyle: 1\nbeer: A\nparty: {on: " + party + "}\npackages: [{vessel: pin}, {vessel: bottle 500 mL, count: 6}]"})
		all := map[string]bool{}
		for _, e := range b.Events(b.Gyle(1)) {
			if e.What == PlanStep {
				all[e.UID(b)] = true
			}
		}
		return all
	}
	before, after := uids("2026-07-25"), uids("2026-08-08")
	if len(before) == 0 || fmt.Sprint(before) != fmt.Sprint(after) {
		t.Errorf("before %v, after %v", before, after)
	}
}

func TestPlanRows(t *testing.T) {
	b := open(t, entries{"1.md": "gyle: 1\nbeer: A\nparty: {on: 2026-07-25}\npackages: [{vessel: keg 19 L}, {vessel: bottle 500 mL, count: 6}]"})
	p, ok := b.Gyle(1).Plan()
	if !ok || len(p.Ways) != 2 || p.HasRound {
		t.Fatalf("%+v", p)
	}
	var got []string
	for _, r := range p.Rows() {
		got = append(got, r.ID)
		if due := r.Due(); r.ID == "brew" && due.By.Format(time.DateOnly) != "2026-06-16" {
			t.Errorf("to be brewed by %s, and the bottles need it on 16 June", due.By)
		}
	}
	if want := "brew level stable rack cool place clean party"; strings.Join(got, " ") != want {
		t.Errorf("rows %v, want %s", got, want)
	}
}
