package causes

import (
	"fmt"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/tasting"
)

// heardIn reads an entry's tastings, as a list of YAML.
func heardIn(t testing.TB, tastings string) (*journal.Gyle, Heard) {
	t.Helper()
	d := journal.ReadFileSet("a.md", []byte("---\ngyle: 1\nbeer: A\nbrewed: 2026-03-01\nyeast: [{yeast: house ale, pitched: 2026-03-01 12:00}]\npackages: [{vessel: pin}, {vessel: bottle 500 mL}]\nserved: {through: hand pump}\ntastings:\n"+tastings+"\n---\n"), healthy.Journal().Settings, nil)
	if len(d.Errors) > 0 {
		t.Fatal(d.Errors)
	}
	return d.Gyle, Hear(d.Gyle)
}

func TestHear(t *testing.T) {
	_, v := heardIn(t, `  - {by: Wren, found: [thin, " Watery ", flat]}
  - {by: wren, found: [THIN]}
  - {by: Sallow, found: [a bit watry, wibbly  wobbly]}
  - {found: [wibbly wobbly]}
  - {found: ["", "-"], text: nothing to say}
  - {by: Teal}`)
	if v.Tasters != 5 {
		t.Errorf("%d tasters, want 5: Wren twice, and two without a name", v.Tasters)
	}
	var got []string
	for _, s := range v.Sayings {
		got = append(got, fmt.Sprintf("%s %d at %v known %v as %v", s.Word, s.Tasters, s.Tastings, s.Known, s.Spelt))
	}
	want := []string{
		"thin 2 at [0 1 2] known true as [watery a bit watry]",
		"wibbly wobbly 2 at [2 3] known false as []",
		"- 1 at [4] known false as []",
		"flat 1 at [0] known true as []",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("heard:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if v.Sayings[0].Agreed() == false || v.Sayings[3].Agreed() {
		t.Error("two tasters agree, one does not")
	}
}

// TestGroups counts who found a word by container and by sparkler: only where the
// tastings differ in it, each taster once.
func TestGroups(t *testing.T) {
	g, v := heardIn(t, `  - {by: Wren, package: 0, sparkler: true, found: [flat], when: 2026-04-01}
  - {by: Wren, package: 0, sparkler: true, found: [flat], when: 2026-04-02}
  - {by: Sallow, package: 0, sparkler: true, found: [nutty], when: 2026-04-03}
  - {by: Sallow, package: 1, found: [nutty], when: 2026-04-03}
  - {by: Teal, package: 0, sparkler: false, found: [], when: 2026-04-05}`)
	s := figures.Work(g, figures.Context{Larder: journal.NewLarder(nil), Settings: healthy.Journal().Settings, Now: healthy.Clock(t, "2026-05-01")})
	d := Diagnose(s, v)
	if len(d) != 1 {
		t.Fatalf("%d diagnoses, want one: nutty is no fault", len(d))
	}
	got := fmt.Sprint(d[0].Glass.Groups)
	if want := "[{0  false 1 3} {1  false 0 1} {-1  true 1 2} {-1  false 0 1}]"; got != want {
		t.Errorf("groups %s, want %s", got, want)
	}
	// Where one glass was drawn otherwise than the gyle is served, that is counted too.
	g, v = heardIn(t, `  - {by: Wren, found: [flat], when: 2026-04-01}
  - {by: Sallow, found: [flat], when: 2026-04-01}
  - {by: Teal, through: poured, found: [nutty], when: 2026-04-01}`)
	through := Diagnose(figures.Work(g, figures.Context{Larder: journal.NewLarder(nil), Settings: healthy.Journal().Settings, Now: healthy.Clock(t, "2026-05-01")}), v)[0].Glass.Groups
	if got, want := fmt.Sprint(through), "[{-1 hand pump false 2 2} {-1 poured false 0 1}]"; got != want {
		t.Errorf("groups %s, want %s", got, want)
	}
	if age := d[0].Glass.Age; !age.Known || age.Low != 31 || age.High != 32 {
		t.Errorf("age %+v, want 31 to 32 days", age)
	}
}

// FuzzDiagnose: whatever is typed as found, nothing fails, every saying has its
// tasters, and nothing is asserted of an entry that has no readings.
func FuzzDiagnose(f *testing.F) {
	for _, w := range tasting.Words() {
		f.Add(w.Word, "Wren", "thin")
	}
	f.Add("", "", "\x00")
	f.Add("not sweet", "a", "too too")
	f.Add(strings.Repeat("sour ", 500), "b", "'’")
	f.Fuzz(func(t *testing.T, one, by, other string) {
		text := func(s string) journal.Text { return journal.Text{Text: s} }
		g := &journal.Gyle{Tastings: []journal.Tasting{
			{By: journal.Name{Name: by}, Found: []journal.Text{text(one), text(other)}},
			{Found: []journal.Text{text(other)}},
		}}
		v := Hear(g)
		s := figures.Work(g, figures.Context{Larder: journal.NewLarder(nil), Settings: healthy.Journal().Settings, Now: healthy.Clock(t, "2026-05-01")})
		for _, said := range v.Sayings {
			if said.Word == "" || said.Tasters < 1 || said.Tasters > v.Tasters || len(said.Tastings) < said.Tasters {
				t.Errorf("%+v of %d tasters", said, v.Tasters)
			}
		}
		for _, d := range Diagnose(s, v) {
			for _, suspect := range d.Suspects {
				if suspect.Has(For) || suspect.Has(Against) {
					t.Errorf("%s: %s is spoken of: %+v", d.Word, suspect.ID, suspect.Signs)
				}
			}
		}
	})
}
