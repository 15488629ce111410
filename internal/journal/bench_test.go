package journal

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// ordinary is an entry of 62 lines of front matter, without the rarer keys.
func ordinary(b *testing.B) []byte {
	raw, err := os.ReadFile("testdata/ordinary.md")
	if err != nil {
		b.Fatal(err)
	}
	return raw
}

func BenchmarkReadFile(b *testing.B) {
	raw := ordinary(b)
	b.ReportAllocs()
	b.SetBytes(int64(len(raw)))
	for b.Loop() {
		if d := ReadFile("gyles/14.md", raw, nil); len(d.Errors) > 0 {
			b.Fatal(d.Errors)
		}
	}
}

// BenchmarkParseTree is the floor of BenchmarkReadFile: YAML into nodes, and
// nothing made of them.
func BenchmarkParseTree(b *testing.B) {
	front := []byte(strings.SplitN(string(ordinary(b)), "---\n", 3)[1])
	b.ReportAllocs()
	for b.Loop() {
		if _, err := parseTree(front); err != nil {
			b.Fatal(err)
		}
	}
}

// thousand is a journal of 1,000 such entries.
func thousand(b *testing.B) fstest.MapFS {
	raw := string(ordinary(b))
	files := fstest.MapFS{"index.md": text(book)}
	for i := range 1000 {
		files[fmt.Sprintf("gyles/%04d.md", i+1)] = text(strings.Replace(raw, "gyle: 14", fmt.Sprintf("gyle: %d", i+1), 1))
	}
	return files
}

func BenchmarkRead1000(b *testing.B) {
	files := thousand(b)
	b.ReportAllocs()
	for b.Loop() {
		if j := Read(files, Options{}); len(j.Gyles) != 1000 || len(j.Errors) > 0 {
			b.Fatal(len(j.Gyles), j.Errors)
		}
	}
}

// BenchmarkWith1000 is one save in a journal of 1,000.
func BenchmarkWith1000(b *testing.B) {
	files := thousand(b)
	j := Read(files, Options{})
	b.ReportAllocs()
	for b.Loop() {
		j = j.With(ReadOne(files, "gyles/0500.md", j.Settings))
	}
}

func BenchmarkRedact(b *testing.B) {
	raw := ordinary(b)
	b.ReportAllocs()
	for b.Loop() {
		Redact(raw, Private{Tasters: true, Costs: true})
	}
}
