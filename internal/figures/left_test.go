package figures

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// One imperial pint is 0.56826125 L: 16 pints are 9.09218 L.
const (
	litresInPint = 0.56826125
	pencil       = 1e-4 // pints or litres, what four places on paper are good for
)

// aCellar is a gyle of 21 L in the fermenter with more lines to its entry, worked
// out at noon of 1 June; taken is what other gyles say that they drew from it.
func aCellar(t *testing.T, lines string, taken ...journal.Drawn) *Sheet {
	t.Helper()
	text := "---\ngyle: 1\nbeer: Any\nbrewed: 2026-05-01\nyeast: [{yeast: any, pitched: 2026-05-01 14:00}]\n" +
		"copper: {after: {volume: 23 L, gravity: 1.040}}\nfermenter: {volume: 21 L, gravity: 1.040}\n" + lines + "\n---\n"
	d := journal.ReadFile("gyles/1.md", []byte(text), nil)
	if d.Gyle == nil || len(d.Errors) > 0 {
		t.Fatalf("%s does not read: %v", lines, d.Errors)
	}
	c := plainContext()
	c.Now = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	c.Taken = taken
	return Work(d.Gyle, c)
}

// drew is what a gyle says that it drew on a day.
func drew(t *testing.T, litres float64, on string) journal.Drawn {
	t.Helper()
	text := fmt.Sprintf("---\ngyle: 2\nbeer: Split\ndrawn_from: [{gyle: 1, volume: %g L, on: %s}]\n---\n", litres, on)
	d := journal.ReadFile("gyles/2.md", []byte(text), nil)
	if len(d.Errors) > 0 {
		t.Fatal(d.Errors)
	}
	return d.Gyle.DrawnFrom[0]
}

// TestLeftByHand: what can still be drawn, by pencil.
func TestLeftByHand(t *testing.T) {
	const barrel = "racked: {on: 2026-05-10, volume: 20 L}\npackages: [{vessel: pressure barrel 25 L, fill: 20 L}]\n"
	const bags = "racked: {on: 2026-05-10, volume: 20 L}\npackages:\n  - {vessel: soft bag 10 L, fill: 9 L, broached: 2026-05-20%s}\n  - {vessel: soft bag 10 L, fill: 9 L}\n"
	for _, c := range []struct {
		name   string
		lines  string
		taken  []journal.Drawn
		litres []float64 // the course: what can be drawn after each event
	}{
		{
			// 20 L less 0.5 L of sediment are 19.5; less the 5 drawn off, 14.5; less the
			// 0.5 dumped, 14.0; ten pints more are 5.6826, leaving 8.3174, and six, 3.4096, leaving 4.9078.
			name:   "sediment, dumped, drawn off and sixteen pints",
			lines:  barrel + "done: [{when: 2026-05-16, did: dumped, volume: 0.5 L}]\npoured: [{when: 2026-05-20, volume: 10 pt-uk}, {when: 2026-05-21, volume: 6 pt-uk}]",
			taken:  []journal.Drawn{drew(t, 5, "2026-05-14")},
			litres: []float64{19.5, 14.5, 14.0, 8.3174, 4.9078},
		},
		{
			name:   "nothing has left",
			lines:  barrel,
			litres: []float64{19.5},
		},
		{
			// What left on the day of racking or before was never in the barrel; what is
			// dated to come is still in it.
			name:   "before it was filled, and after today",
			lines:  barrel + "done: [{when: 2026-05-10, did: dumped, volume: 0.5 L}, {when: 2026-06-09, did: dumped, volume: 1 L}]\npoured: [{when: 2026-06-08, volume: 10 pt-uk}]",
			taken:  []journal.Drawn{drew(t, 5, "2026-05-10"), drew(t, 2, "2026-06-10")},
			litres: []float64{19.5},
		},
		{
			// Two bags of 9 L less 0.5 of sediment each are 17. Of the pints no line says
			// from which bag; only the first stood open: 17 − 5.6826 = 11.3174. It is
			// emptied with 2.8174 L in it, which are not for drinking: the second has 8.5.
			name:   "what stood open alone was poured from, and goes with it",
			lines:  fmt.Sprintf(bags, ", emptied: 2026-05-24") + "poured: [{when: 2026-05-20, volume: 10 pt-uk}]",
			litres: []float64{17, 11.3174, 8.5},
		},
		{
			name:   "a container that is named",
			lines:  fmt.Sprintf(bags, ", emptied: 2026-05-24") + "poured: [{when: 2026-05-20, volume: 10 pt-uk, package: 1}]",
			litres: []float64{17, 11.3174, 2.8174},
		},
		{
			// More than there was: nothing is left, and never less than that.
			name:   "poured dry",
			lines:  barrel + "poured: [{when: 2026-05-20, volume: 40 pt-uk}, {when: 2026-05-21, volume: 1 pt-uk}]",
			litres: []float64{19.5, 0, 0},
		},
		{
			// Nobody wrote what it stands in: the 20 L racked, and no sediment is reckoned.
			name:   "no containers",
			lines:  "racked: {on: 2026-05-10, volume: 20 L}\npoured: [{when: 2026-05-20, volume: 10 pt-uk}]",
			litres: []float64{20, 14.3174},
		},
		{
			name:   "all emptied",
			lines:  barrel + "served: {broached: 2026-05-20, emptied: 2026-05-30}\npoured: [{when: 2026-05-20, volume: 10 pt-uk}]",
			litres: []float64{19.5, 13.8174, 0},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := aCellar(t, c.lines, c.taken...)
			f, ok := s.Find("pints-left", "")
			if want := c.litres[len(c.litres)-1] / litresInPint; !ok || math.Abs(f.Value-want) > 2*pencil {
				t.Errorf("%.4f pints left, want %.4f", f.Value, want)
			}
			course := s.LeftOverTime()
			if len(course) != len(c.litres) {
				t.Fatalf("%d points of the course, want %d: %+v", len(course), len(c.litres), course)
			}
			for i, want := range c.litres {
				if math.Abs(course[i].Volume.Litres()-want) > pencil {
					t.Errorf("point %d, %s on %s: %.4f L, want %.4f", i, course[i].What, course[i].When.Format(time.DateOnly), course[i].Volume.Litres(), want)
				}
			}
		})
	}
}

// TestLeftOfASplit: 5 L drawn from another gyle, of which nobody says that they were
// racked; a third gyle drew 2 L of them, half a litre was dumped and two pints
// (1.1365 L) poured: 5, 3, 2.5, 1.3635.
func TestLeftOfASplit(t *testing.T) {
	d := journal.ReadFile("gyles/2.md", []byte("---\ngyle: 2\nbeer: Split\ndrawn_from: [{gyle: 1, volume: 5 L, on: 2026-05-10}]\n"+
		"done: [{when: 2026-05-13, did: dumped, volume: 0.5 L}]\npoured: [{when: 2026-05-14, volume: 2 pt-uk}]\n---\n"), nil)
	if len(d.Errors) > 0 {
		t.Fatal(d.Errors)
	}
	c := plainContext()
	c.Now = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	c.Taken = []journal.Drawn{drew(t, 2, "2026-05-12")}
	s := Work(d.Gyle, c)
	var got []string
	for _, l := range s.LeftOverTime() {
		got = append(got, fmt.Sprintf("%s %.4f", l.When.Format(time.DateOnly), l.Volume.Litres()))
	}
	const want = "2026-05-10 5.0000, 2026-05-12 3.0000, 2026-05-13 2.5000, 2026-05-14 1.3635"
	if strings.Join(got, ", ") != want {
		t.Errorf("%v, want %s", got, want)
	}
	if f, ok := s.Find("pints-left", ""); !ok || math.Abs(f.Value-1.3635/litresInPint) > 2*pencil {
		t.Errorf("%.4f pints left", f.Value)
	}
}

// TestLeftOfWhatNobodyMeasured: nothing is made up for a volume that is not there.
func TestLeftOfWhatNobodyMeasured(t *testing.T) {
	const racked = "racked: {on: 2026-05-10, volume: 20 L}\n"
	poured := aCellar(t, racked+"poured: [{when: 2026-05-20}]")
	if f, ok := poured.Find("pints-left", ""); ok || len(poured.LeftOverTime()) > 0 {
		t.Errorf("a pour without a volume leaves %g pints, by %v", f.Value, poured.LeftOverTime())
	}
	// Two kegs without a fill: what was in them nobody knows, and that they are empty
	// is known all the same.
	kegs := aCellar(t, racked+"packages: [{vessel: keg 19 L}, {vessel: keg 10 L}]\nserved: {emptied: 2026-05-30}\npoured: [{when: 2026-05-20, volume: 10 pt-uk}]")
	f, ok := kegs.Find("pints-left", "")
	course := kegs.LeftOverTime()
	if !ok || f.Value != 0 || len(course) != 1 || course[0].What != "emptied" || course[0].Volume != 0 {
		t.Errorf("%g pints are left in what was emptied, by %v", f.Value, course)
	}
}

// TestLastPointIsTheFigure: whatever an entry of the demonstration says, the course
// of what is left ends at the figure, never rises, and is in order of time.
func TestLastPointIsTheFigure(t *testing.T) {
	forDemonstration(t, func(t *testing.T, s *Sheet) int {
		f, ok := s.Find("pints-left", "")
		course := s.LeftOverTime()
		if !ok || len(course) == 0 {
			return 0
		}
		if got := course[len(course)-1].Volume.UKPints(); math.Abs(got-f.Value) > 1e-9 {
			t.Errorf("the course of gyle %d ends at %g pints, and %g are left", s.Gyle.Number.N, got, f.Value)
		}
		for i := range course[1:] {
			if course[i+1].When.Before(course[i].When) || course[i+1].Volume > course[i].Volume+1e-12 {
				t.Errorf("gyle %d: from %+v to %+v", s.Gyle.Number.N, course[i], course[i+1])
			}
		}
		return 1
	}, 8)
}

// TestLossesByHand: beer that went somewhere is not lost, and no litre is told
// of twice.
func TestLossesByHand(t *testing.T) {
	const all = "copper to fermenter, fermenter to container, filling, dumped"
	for _, c := range []struct {
		name   string
		lines  string
		taken  []journal.Drawn
		litres [4]float64 // as in all
	}{
		{
			// 23 − 21 = 2; 21 − 20 = 1; 20 − 19.5 = 0.5.
			name:   "nothing went elsewhere",
			lines:  "racked: {on: 2026-05-10, volume: 20 L}\npackages: [{vessel: pressure barrel 25 L, fill: 19.5 L}]",
			litres: [4]float64{2, 1, 0.5},
		},
		{
			// 21 − 5 − 15 = 1.
			name:   "a split at racking",
			lines:  "racked: {on: 2026-05-10, volume: 15 L}\npackages: [{vessel: pressure barrel 25 L, fill: 14.5 L}]",
			taken:  []journal.Drawn{drew(t, 5, "2026-05-10")},
			litres: [4]float64{2, 1, 0.5},
		},
		{
			// 20 L were racked of 21, so the 5 came out of what was racked: 20 − 5 − 14.5 = 0.5.
			name:   "a split of what was racked",
			lines:  "racked: {on: 2026-05-10, volume: 20 L}\npackages: [{vessel: pressure barrel 25 L, fill: 14.5 L}]",
			taken:  []journal.Drawn{drew(t, 5, "2026-05-10")},
			litres: [4]float64{2, 1, 0.5},
		},
		{
			// Wort let off before the yeast was in: 23 − 1.5 − 21 = 0.5.
			name:   "a split before pitching",
			lines:  "racked: {on: 2026-05-10, volume: 20 L}\npackages: [{vessel: pressure barrel 25 L, fill: 19.5 L}]",
			taken:  []journal.Drawn{drew(t, 1.5, "2026-05-01 12:00")},
			litres: [4]float64{0.5, 1, 0.5},
		},
		{
			// 1 L of sludge let out on the fifth day: 21 − 1 − 19 = 1, and 1 dumped.
			name:   "dumped from the fermenter",
			lines:  "racked: {on: 2026-05-10, volume: 19 L}\npackages: [{vessel: pressure barrel 25 L, fill: 18.5 L}]\ndone: [{when: 2026-05-05, did: dumped, volume: 1 L}]",
			litres: [4]float64{2, 1, 0.5, 1},
		},
		{
			// Out of the barrel: it was filled before.
			name:   "dumped and drawn later",
			lines:  "racked: {on: 2026-05-10, volume: 20 L}\npackages: [{vessel: pressure barrel 25 L, fill: 19.5 L}]\ndone: [{when: 2026-05-15, did: dumped, volume: 1 L}]",
			taken:  []journal.Drawn{drew(t, 5, "2026-05-16")},
			litres: [4]float64{2, 1, 0.5, 1},
		},
		{
			// 21 − 20 − 5 = −4: these volumes do not close, and that is said, not hidden.
			name:   "more drawn than there is room for",
			lines:  "racked: {on: 2026-05-10, volume: 20 L}\npackages: [{vessel: pressure barrel 25 L, fill: 19.5 L}]",
			taken:  []journal.Drawn{drew(t, 5, "2026-05-10")},
			litres: [4]float64{2, -4, 0.5},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := aCellar(t, c.lines, c.taken...)
			for i, step := range strings.Split(all, ", ") {
				f, ok := s.Find("losses", step)
				if step == "dumped" && c.litres[i] == 0 {
					if ok {
						t.Errorf("%g L dumped, where nothing was", f.Value)
					}
					continue
				}
				if !ok || math.Abs(f.Value-c.litres[i]) > pencil {
					t.Errorf("%s: %.4f L, want %.4f", step, f.Value, c.litres[i])
				}
			}
		})
	}
}

// TestDrawnOffIsToldApart: a loss that something was taken off says so.
func TestDrawnOffIsToldApart(t *testing.T) {
	const lines = "racked: {on: 2026-05-10, volume: 15 L}"
	if f, _ := aCellar(t, lines, drew(t, 5, "2026-05-10")).Find("losses", "fermenter to container"); !strings.Contains(f.Note, "drawn off") {
		t.Errorf("the note is %q", f.Note)
	}
	if f, _ := aCellar(t, lines).Find("losses", "fermenter to container"); f.Note != "" {
		t.Errorf("the note is %q where nothing was drawn off", f.Note)
	}
	s := aCellar(t, lines, drew(t, 5, "2026-05-10"))
	if f, _ := s.Find("losses", "fermenter to container"); !strings.Contains(f.Working(), "(21.0 − 5.0) − 15.0") {
		t.Errorf("the working is %q", f.Working())
	}
}
