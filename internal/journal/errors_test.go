package journal

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gylebook/internal/notice"
)

var update = flag.Bool("update", false, "rewrite the expected parts of the cases")

// TestErrors holds every message to its case: one txtar each, with the file as
// a brewer might write it, the errors it must have, and what is read of it all
// the same.
func TestErrors(t *testing.T) {
	for _, path := range errorCases(t) {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) {
			archive := readArchive(t, path)
			in := archive.files[0]
			d := ReadFile(in.name, in.data, nil)
			got := []archived{in, {"errors", []byte(listing(d.Errors))}, {"read", []byte(summary(d))}}
			if *update {
				archive.files = got
				writeArchive(t, path, archive)
				return
			}
			if len(archive.files) != len(got) {
				t.Fatal("no expected parts: run with -update and read what it wrote")
			}
			for i, want := range archive.files {
				if diff := cmp.Diff(string(want.data), string(got[i].data)); diff != "" {
					t.Errorf("%s (-want +got):\n%s", want.name, diff)
				}
			}
		})
	}
}

func errorCases(t testing.TB) []string {
	paths, err := filepath.Glob("testdata/errors/*.txtar")
	if err != nil || len(paths) == 0 {
		t.Fatal("no cases", err)
	}
	return paths
}

// listing prints notices as the command does, each with its line and its
// advice.
func listing(all []notice.Notice) string {
	var b strings.Builder
	for _, n := range all {
		fmt.Fprintf(&b, "%s\n", n)
		if n.Line != "" {
			fmt.Fprintf(&b, "  | %s\n", n.Line)
		}
		if n.Do != "" {
			fmt.Fprintf(&b, "  > %s\n", n.Do)
		}
	}
	return b.String()
}

// summary prints what a document is and every value that was read.
func summary(d *Document) string {
	var b strings.Builder
	switch {
	case d.Gyle != nil:
		b.WriteString("gyle\n")
		writeValues(&b, d.Gyle)
	case d.Card != nil:
		b.WriteString("card\n")
		writeValues(&b, d.Card)
	case d.Note != nil:
		b.WriteString("note\n")
		writeValues(&b, d.Note)
	case d.Settings != nil:
		b.WriteString("settings\n")
		writeValues(&b, d.Settings)
	default:
		return "withheld\n"
	}
	if e := d.Entry(); e.Unread {
		b.WriteString("unread\n")
	}
	return b.String()
}

// TestEveryErrorIsShown demands a case for every id that one file can have.
func TestEveryErrorIsShown(t *testing.T) {
	elsewhere := map[string]string{
		idNumberTaken: "TestTwoGylesOfOneNumber", idNameTaken: "TestTwoCardsOfOneName",
		idNoSettings:   "TestSettingsMissing",
		idMoreSettings: "TestSettingsDoubled", idTooBig: "TestTooBig", UnreadableID: "TestUnreadableFile",
		idNoFile: "TestOddFilesHoldNobodyUp", idOurFault: "TestOurFault", idBadSet: "TestBadSets",
		idNoLog: "TestLogRefused", idBrokenRow: "TestReadLog",
	}
	shown := map[string]bool{}
	for _, path := range errorCases(t) {
		raw, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, id := range ErrorIDs() {
			shown[id] = shown[id] || strings.Contains(string(raw), "["+id+"]\n")
		}
	}
	for _, id := range ErrorIDs() {
		if !shown[id] && elsewhere[id] == "" {
			t.Errorf("no case shows %s", id)
		}
		if shown[id] && elsewhere[id] != "" {
			t.Errorf("%s is shown by a case and said to be in %s", id, elsewhere[id])
		}
	}
}

// archive is a case in the txtar form: a comment, then files, each under a line
// of -- name --.
type archive struct {
	comment []byte
	files   []archived
}

type archived struct {
	name string
	data []byte
}

var archiveMark = regexp.MustCompile(`(?m)^-- (\S.*?) --\n`)

func readArchive(t testing.TB, path string) archive {
	t.Helper()
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	marks := archiveMark.FindAllSubmatchIndex(raw, -1)
	if len(marks) == 0 {
		t.Fatalf("%s: no files in it", path)
	}
	a := archive{comment: raw[:marks[0][0]]}
	for i, m := range marks {
		end := len(raw)
		if i+1 < len(marks) {
			end = marks[i+1][0]
		}
		a.files = append(a.files, archived{string(raw[m[2]:m[3]]), raw[m[1]:end]})
	}
	return a
}

func writeArchive(t testing.TB, path string, a archive) {
	t.Helper()
	out := bytes.NewBuffer(bytes.Clone(a.comment))
	for _, f := range a.files {
		out.WriteString("-- " + f.name + " --\n")
		out.Write(f.data)
	}
	if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}
