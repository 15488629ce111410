package causes

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// TestDiagnosisCases holds the diagnoses to cases written from the brewing: each
// an entry as a brewer would keep it, with the cards it names, the day on which it
// is looked at, and what a brewer who knows the fault would answer. The story is
// in the archive's comment. A case says, for each word, who agrees and where each
// cause stands; and which sign speaks for, may speak for, speaks against, or is
// missing, by a part of its words. It does not have to name every sign.
func TestDiagnosisCases(t *testing.T) {
	paths, err := filepath.Glob("testdata/diagnosis/*.txtar")
	if err != nil {
		t.Fatal(err)
	}
	if len(paths) < 18 {
		t.Errorf("only %d cases", len(paths))
	}
	for _, path := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) { runCase(t, path) })
	}
}

func runCase(t *testing.T, path string) {
	a, err := txtar.ParseFile(path)
	if err != nil {
		t.Fatal(err)
	}
	files, want := fstest.MapFS{"index.md": {Data: []byte("---\njournal: A case\n---\n")}}, ""
	for _, f := range a.Files {
		if f.Name == "want" {
			want = string(f.Data)
			continue
		}
		files[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	j := journal.Read(files, journal.Options{})
	for _, e := range j.Errors {
		t.Errorf("the case's entry has an error: %s", e)
	}
	if len(j.Gyles) != 1 || want == "" {
		t.Fatalf("%d entries, and %d bytes wanted", len(j.Gyles), len(want))
	}
	day, blocks, _ := strings.Cut(want, "\n")
	s := figures.Work(j.Gyles[0], figures.Context{Larder: j.Larder, Settings: j.Settings, Now: healthy.Clock(t, strings.TrimPrefix(day, "on "))})
	got := Diagnose(s, Hear(s.Gyle))
	said := strings.Split(strings.TrimSpace(blocks), "\n\n")
	if len(got) != len(said) {
		t.Errorf("%d words are diagnosed, want %d", len(got), len(said))
	}
	for i, block := range said {
		if i < len(got) {
			holds(t, got[i], strings.Split(block, "\n"))
		}
	}
	if t.Failed() {
		for _, d := range got {
			t.Logf("\n%s", told(d))
		}
	}
}

// expectation is a line of a case about one sign: fermented-far may be for: 1.008.
var expectation = regexp.MustCompile(`^(\S+) (may be |not )?(for|against|unknown): (.+)$`)

// holds compares one diagnosis with its block.
func holds(t *testing.T, d Diagnosis, lines []string) {
	t.Helper()
	if head := headOf(d); head != lines[0] {
		t.Errorf("%q, want %q", head, lines[0])
	}
	standings := standingsOf(d)
	for _, line := range lines[1:] {
		name, rest, _ := strings.Cut(line, ":")
		if got, ok := standings[name]; ok {
			if got != strings.TrimSpace(rest) {
				t.Errorf("%s: %s: %q, want %q", d.Word, name, got, strings.TrimSpace(rest))
			}
			continue
		}
		if name == "remark" {
			if !slices.ContainsFunc(d.Remarks, func(r string) bool { return strings.Contains(r, strings.TrimSpace(rest)) }) {
				t.Errorf("%s: no remark has %q: %q", d.Word, rest, d.Remarks)
			}
			continue
		}
		m := expectation.FindStringSubmatch(line)
		if m == nil {
			t.Errorf("a line of the case cannot be read: %q", line)
			continue
		}
		if has(d, m) == (m[2] == "not ") {
			t.Errorf("%s: it is not so: %s", d.Word, line)
		}
	}
}

// has tells whether a diagnosis has the sign that a line of a case is about.
func has(d Diagnosis, m []string) bool {
	voices := map[string]Voice{"for": For, "against": Against, "unknown": Unknown}
	s, _ := suspected(d, m[1])
	return slices.ContainsFunc(s.Signs, func(sign Sign) bool {
		text := sign.Says
		if sign.Voice == Unknown {
			text = sign.Needs
		}
		may := m[2] == "may be "
		return sign.Voice == voices[m[3]] && (m[2] == "not " || sign.May == may) && strings.Contains(text, m[4])
	})
}

func headOf(d Diagnosis) string {
	if !d.Known {
		return d.Word + " by " + counts(d) + ", not known"
	}
	return d.Word + " by " + counts(d)
}

func counts(d Diagnosis) string { return fmt.Sprint(d.Tasters) }

func standingsOf(d Diagnosis) map[string]string {
	ids := func(all []Suspect) string {
		var names []string
		for _, s := range all {
			names = append(names, s.ID)
		}
		return strings.Join(names, ", ")
	}
	return map[string]string{"likely": ids(d.Standing(Likely)), "possible": ids(d.Standing(Possible)), "open": ids(d.Standing(Open)), "unlikely": ids(d.Standing(Unlikely))}
}

// told is a diagnosis in full, for whoever mends a case.
func told(d Diagnosis) string {
	var b strings.Builder
	fmt.Fprintln(&b, headOf(d))
	for _, r := range d.Remarks {
		fmt.Fprintln(&b, "  remark:", r)
	}
	for _, s := range d.Suspects {
		fmt.Fprintf(&b, "  %s %+.1f\n", s.ID, s.Weight)
		for _, sign := range s.Signs {
			fmt.Fprintf(&b, "    %s%s: %s%s [%s]\n", map[bool]string{true: "may be "}[sign.May], [...]string{"silent", "for", "against", "unknown"}[sign.Voice], sign.Says, sign.Needs, sign.Where.Place)
		}
	}
	return b.String()
}
