package journal

import (
	"strings"
	"testing"

	"gylebook/internal/notice"
)

// FuzzReadFile: any bytes give a document, errors with a place in the file, and
// the same twice over.
func FuzzReadFile(f *testing.F) {
	for _, path := range errorCases(f) {
		f.Add(readArchive(f, path).files[0].data)
	}
	for _, file := range everyKey(f) {
		f.Add(file.data)
	}
	f.Add([]byte(setEntry))
	f.Add([]byte("\uFEFF---\r\n? [a]\r\n: |2-\r\n   x\r\n---\r\n"))
	f.Add([]byte("---\ngyle: 1\n{}\nbeer: [\n---\n"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := ReadFile("x.md", raw, nil)
		lines := strings.Count(strings.ReplaceAll(string(raw), "\r", "\n"), "\n") + 1
		for _, e := range d.Errors {
			if e.ID == idOurFault {
				t.Errorf("it broke down: %s", e.Says)
			}
			if e.Severity != notice.Unreadable || e.ID == "" || e.Says == "" || e.Place.File != "x.md" ||
				e.Place.Line < 0 || e.Place.Line > lines+1 {
				t.Errorf("%+v", e)
			}
		}
		if len(d.Errors) > maxErrors+2 {
			t.Errorf("%d errors", len(d.Errors))
		}
		if listing(d.Errors)+summary(d) != listing(ReadFile("x.md", raw, nil).Errors)+summary(d) {
			t.Error("not the same twice over")
		}
		redactHolds(t, raw)
	})
}

// FuzzSets: any set gives a document too.
func FuzzSets(f *testing.F) {
	for _, set := range []string{"racked.volume=20L", "hops[+].hop=x", "hops[0]=", "tags=[a, b]", "a[0][1].b={c: d}",
		"yeast[0].at=1 C", "yeast[0]=", "yeast[0]={yeast: x}"} {
		f.Add(set, set)
	}
	f.Fuzz(func(t *testing.T, a, b string) {
		d := ReadFileSet("x.md", []byte(setEntry), nil, []string{a, b})
		for _, e := range d.Errors {
			if e.Place.File == setFile && (e.Place.Line < 1 || e.Place.Line > 2) {
				t.Errorf("%+v", e)
			}
		}
	})
}
