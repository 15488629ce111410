package journal

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
)

func TestReadLog(t *testing.T) {
	for _, c := range []struct {
		name, text string
		rows       string // when gravity temp, a line a row
		wrong      []string
	}{
		{"plain", "when,gravity,temp\n2026-03-07 14:00,1.0451,18.2\n", "2026-03-07T14:00 1.0451 18.2", nil},
		{"any order and case, with units", "Temperature (F),TIMESTAMP,Plato\n68,2026-03-07T14:00,10\n", "2026-03-07T14:00 1.0400 20.0", nil},
		{"semicolons and decimal commas", "when;gravity;temp [C]\n2026-03-07 14:00;1,0451;18,2\n", "2026-03-07T14:00 1.0451 18.2", nil},
		{"tabs and a mark", "\ufeffwhen\tSG\n2026-03-07 14:00\t1.045\n", "2026-03-07T14:00 1.0450 NaN", nil},
		{"an offset", "when,gravity\n2026-03-07T14:00:30+02:00,1.045\n", "2026-03-07T12:00 1.0450 NaN", nil},
		{"out of order and double", "when,gravity\n2026-03-07 15:00,1.044\n2026-03-07 14:00,1.045\n2026-03-07 15:00,1.044\n", "2026-03-07T14:00 1.0450 NaN\n2026-03-07T15:00 1.0440 NaN", nil},
		{"blank and broken rows", "when,gravity\n\n2026-03-07 14:00,\n2026-13-45 14:00,1.044\n2026-03-07 15:00,foam\n2026-03-07 16:00,1.043\n,1.042\n", "2026-03-07T16:00 1.0430 NaN",
			[]string{"float.csv:4:1: error: float.csv has a row that names no time", "float.csv:5:1: error: float.csv has a row that has \"foam\" where a number is wanted", "float.csv:7:1: error: float.csv has a row that has no time"}},
		{"columns that say nothing", "when,battery,gravity,name\n2026-03-07 14:00,97,1.045,left float\n", "2026-03-07T14:00 1.0450 NaN", nil},
		{"a unit nobody knows", "when,gravity,temp (R)\n2026-03-07 14:00,1.045,500\n", "2026-03-07T14:00 1.0450 NaN", []string{`float.csv:1:1: error: float.csv has a column "temp (R)" whose unit is not known`}},
		{"a picture", "\x89PNG\r\n\x1a\n\x00\x00", "", []string{"float.csv:1:1: error: float.csv has no header"}},
		{"nothing", "", "", []string{"float.csv:1:1: error: float.csv is empty"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			log, notices := ReadLog("float.csv", strings.NewReader(c.text), time.UTC)
			var rows []string
			for _, r := range log.Rows {
				rows = append(rows, fmt.Sprintf("%s %.4f %.1f", r.When.UTC().Format("2006-01-02T15:04"), r.Gravity, r.Temp))
			}
			if got := strings.Join(rows, "\n"); got != c.rows {
				t.Errorf("rows:\n%s\nwant:\n%s", got, c.rows)
			}
			if len(notices) != len(c.wrong) {
				t.Fatalf("notices %v, want %d", notices, len(c.wrong))
			}
			for i, n := range notices {
				if !strings.HasPrefix(n.String(), c.wrong[i]) {
					t.Errorf("notice %q, want %q", n, c.wrong[i])
				}
			}
		})
	}
}

// TestBrokenRowsDoNotDrownTheRest: a file of nothing but broken rows names the
// first few and counts the others.
func TestBrokenRowsDoNotDrownTheRest(t *testing.T) {
	log, notices := ReadLog("float.csv", strings.NewReader("when,gravity\n"+strings.Repeat("soon,1.040\n", 500)), time.UTC)
	if len(log.Rows) != 0 || len(notices) != maxLogErrors+1 || !strings.Contains(notices[maxLogErrors].Says, "480 more rows") {
		t.Errorf("%d rows, %d notices, the last: %v", len(log.Rows), len(notices), notices[len(notices)-1])
	}
}

func FuzzReadLog(f *testing.F) {
	f.Add([]byte("when,gravity,temp (F)\n2026-03-07 14:00,1.045,66\n"))
	f.Add([]byte("\xef\xbb\xbfTime;SG\n2026-03-07T14:00Z;1,045\n"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		log, _ := ReadLog("f.csv", bytes.NewReader(raw), time.UTC)
		for _, r := range log.Rows {
			if r.When.IsZero() || math.IsInf(r.Gravity, 0) || math.IsInf(r.Temp, 0) {
				t.Fatalf("a row that cannot be: %+v", r)
			}
		}
	})
}

// BenchmarkReadLog reads a hundred thousand rows, seventy days at a row a minute.
func BenchmarkReadLog(b *testing.B) {
	var text bytes.Buffer
	text.WriteString("when,gravity,temp\n")
	at := time.Date(2026, 3, 7, 14, 0, 0, 0, time.UTC)
	for i := range 100_000 {
		fmt.Fprintf(&text, "%s,%.4f,%.1f\n", at.Add(time.Duration(i)*time.Minute).Format("2006-01-02 15:04:05"), 1.045-float64(i%40)/1000, 18.5)
	}
	b.SetBytes(int64(text.Len()))
	b.ReportAllocs()
	for b.Loop() {
		if log, _ := ReadLog("f.csv", bytes.NewReader(text.Bytes()), time.UTC); len(log.Rows) != 100_000 {
			b.Fatal(len(log.Rows))
		}
	}
}
