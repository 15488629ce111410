package journal

import (
	"bytes"
	"os"
	"regexp"
	"testing"
)

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
