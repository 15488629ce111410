package rules

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// TestSlips: what each rule says beyond its example, and what it leaves alone.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		id, entry, on string
		sets          []string
		want          int
	}{
		{"package-missing", "pouring", "2026-03-28", []string{"poured[+].package=1", "done[0].package=3", "readings[0].package=0"}, 2},
		{"package-missing", "planned", "", []string{"tastings[+].package=0"}, 1},
		{"poured-too-much", "pouring", "2026-03-28", []string{"poured[+].when=2026-04-30", "poured[0].volume=60 L"}, 0}, // still to come
		{"score-off", "pouring", "2026-03-28", []string{"tastings[0].out_of=5"}, 1},
		{"score-off", "pouring", "2026-03-28", []string{"tastings[0].score=-1"}, 1},
		{"tasting-date", "pouring", "2026-03-28", []string{"tastings[0].when=2026-12-26"}, 1},
		{"tasting-date", "pouring", "2026-03-28", []string{"tastings[0].when=2026-02-01"}, 1},
		{"tasting-date", "pouring", "2026-03-28", []string{"tastings[0].when=2026-03-04"}, 0},
		{"primed-twice", "bottled", "", []string{"priming.wort=1 L", "priming.gravity=1.040"}, 1},
		{"primed-twice", "bottled", "", []string{"packages[0].priming.weight=80 g", "packages[0].priming.each=2 g"}, 1},
		{"hop-times", "planned", "", []string{"hops[0].steeped=20 min"}, 1},
		{"hop-times", "planned", "", []string{"hops[0].boiled=", "hops[0].dry=4 days"}, 0},
		{"alpha-odd", "planned", "", []string{"hops[0].alpha=0.5 %"}, 1},
		{"pitch-tiny", "planned", "", []string{"yeast[0].weight=0.1 g", "yeast[0].sold=slurry"}, 0},
		{"pitch-tiny", "planned", "", []string{"yeast[0].weight=0.1 g", "aim.volume=1 L"}, 0},
		{"accept-unknown", "bottled", "", []string{"accept[+].finding=something of another page"}, 0},
		{"accept-unknown", "bottled", "", []string{"accept[+].finding=bottle-limits"}, 1},
	} {
		if found := healthy.WithID(examined(t, c.entry, c.on, c.sets...), c.id); len(found) != c.want {
			t.Errorf("%s with %v: %v, want %d", c.id, c.sets, found, c.want)
		}
	}
}

// TestAHundredContainersAreNotReadAloud: one warning names a handful of containers that are
// told alike, and counts the rest; all of them are in also.
func TestAHundredContainersAreNotReadAloud(t *testing.T) {
	raw := "---\ngyle: 1\nbeer: Any\nbrewed: 2026-03-01\nyeast: [{yeast: house ale, pitched: 2026-03-01}]\nfermenter: {volume: 20 L, gravity: 1.045}\n" +
		"readings: [{when: 2026-03-10, gravity: 1.010}, {when: 2026-03-14, gravity: 1.010}]\nracked: {on: 2026-03-15, volume: 2000 L}\npriming: {sugar: sucrose, weight: 30 kg}\npackages:\n" +
		strings.Repeat("  - {vessel: pin, fill: 20 L}\n", 100) + "---\n"
	s := figures.Work(journal.ReadFile("1.md", []byte(raw), nil).Gyle, figures.Context{Larder: journal.NewLarder(nil), Now: time.Date(2026, 3, 16, 12, 0, 0, 0, time.UTC)})
	for _, n := range Examine(s) {
		if n.Severity == notice.Danger && len(n.Also) > 50 {
			if len(n.Says) > 1200 || !strings.Contains(n.Says, "more of them") {
				t.Errorf("%s says %d characters: %.300s", n.ID, len(n.Says), n.Says)
			}
			return
		}
	}
	t.Error("no danger of a hundred containers")
}

// TestBleachAndAcid: however it is written that they met, and whatever the acid is called.
func TestBleachAndAcid(t *testing.T) {
	for _, c := range []struct {
		with []string // one deed each
		met  bool
	}{
		{[]string{"bleach", "vinegar"}, true}, {[]string{"household bleach", "limescale remover"}, true},
		{[]string{"bleach and vinegar"}, true}, {[]string{"Citric acid, then bleach"}, true}, {[]string{"bleach + descaler"}, true},
		{[]string{"bleach and hot water"}, false}, {[]string{"vinegar and soap"}, false}, {[]string{"bleach", "caustic soda"}, false},
	} {
		var sets []string
		for i, with := range c.with {
			of := fmt.Sprintf("done[%d].", i)
			sets = append(sets, "done[+].did=cleaned", of+"with="+with, of+"what=bucket", of+"when=2026-03-20 09:00")
		}
		danger := false
		for _, n := range Examine(healthy.Sheet(t, "bottled", "2026-03-20", sets...)) {
			danger = danger || n.ID == "cleaner-mix" && n.Severity == notice.Danger
		}
		if danger != c.met {
			t.Errorf("%v: they met %t, a danger %t", c.with, c.met, danger)
		}
	}
}

// TestARoomNobodyCanRead: of a room whose size could not be read it is said that gas fills it.
func TestARoomNobodyCanRead(t *testing.T) {
	raw := "---\ngyle: 1\nbeer: Any\nbrewed: 2026-03-01\nyeast: [{yeast: house ale, pitched: 2026-03-01}]\nfermenter: {volume: 60 L, gravity: 1.060, room: small cupboard}\n---\n"
	s := figures.Work(journal.ReadFile("1.md", []byte(raw), nil).Gyle, figures.Context{Larder: journal.NewLarder(nil), Now: time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)})
	for _, n := range Examine(s) {
		if n.ID == "co2-space" {
			return
		}
	}
	t.Error("nothing is said of its gas")
}
