package journal

import (
	"bytes"
	"fmt"
	"os"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"
	"time"
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
		files[fmt.Sprintf("gyles/%04d.md", i+1)] = text(strings.Replace(raw, "gyle: 14", fmt.Sprintf("gyle: %d", i+1),
			1))
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

// season is a log of so many rows, one a minute.
func season(rows int) []byte {
	var text bytes.Buffer
	text.WriteString("when,gravity,temp\n")
	at := time.Date(2026, 3, 7, 14, 0, 0, 0, time.UTC)
	for i := range rows {
		fmt.Fprintf(&text, "%s,%.4f,%.1f\n", at.Add(time.Duration(i)*time.Minute).Format("2006-01-02 15:04:05"),
			1.045-float64(i%40)/1000, 18.5)
	}
	return text.Bytes()
}

// BenchmarkReadLog reads a hundred thousand rows and a million, nearly two years at
// a row a minute, and reports the rows of a second and how far the heap grew while
// it read.
func BenchmarkReadLog(b *testing.B) {
	for _, rows := range []int{100_000, 1_000_000} {
		b.Run(fmt.Sprint(rows), func(b *testing.B) {
			text := season(rows)
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			var most uint64
			for b.Loop() {
				runtime.GC()
				var before, after runtime.MemStats
				runtime.ReadMemStats(&before)
				if log, _ := ReadLog("f.csv", bytes.NewReader(text), time.UTC); log.Rows() != rows {
					b.Fatal(log.Rows())
				}
				runtime.ReadMemStats(&after)
				most = max(most, after.TotalAlloc-before.TotalAlloc) // an upper bound of the peak
			}
			b.ReportMetric(float64(rows)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
			b.ReportMetric(float64(most)/1e6, "peak-MB")
		})
	}
}
