package figures

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"gylebook/internal/notice"
)

// keysInOrder are an object's keys as they stand in the text.
func keysInOrder(t *testing.T, raw json.RawMessage) []string {
	t.Helper()
	decoder := json.NewDecoder(bytes.NewReader(raw))
	if token, err := decoder.Token(); err != nil || token != json.Delim('{') {
		t.Fatalf("no object: %.60s", raw)
	}
	var keys []string
	for decoder.More() {
		key, err := decoder.Token()
		if err != nil {
			t.Fatal(err)
		}
		keys = append(keys, key.(string))
		var skipped json.RawMessage
		if err := decoder.Decode(&skipped); err != nil {
			t.Fatal(err)
		}
	}
	return keys
}

// published is the form that figures.json promises.
type published struct {
	Gyle     int
	Beer     string
	File     string
	Stage    string
	Figures  []json.RawMessage
	Findings []json.RawMessage
	Missing  []json.RawMessage
}

// promised are the keys of each kind of object, in order; those after a | may be
// left out.
var promised = map[string]string{
	"sheet":   "gyle beer file stage figures findings missing",
	"figure":  "id of label value plus_minus upper |lower unit provisional |note working source from",
	"from":    "key |file line",
	"finding": "id |of severity |file line |column says why do source |accepted",
	"missing": "figure |of needs |because",
}

func holdKeys(t *testing.T, kind string, raw json.RawMessage) {
	t.Helper()
	got := keysInOrder(t, raw)
	var want []string
	for _, key := range strings.Fields(promised[kind]) {
		name, optional := strings.CutPrefix(key, "|")
		if !optional || slices.Contains(got, name) {
			want = append(want, name)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("a %s has the keys %v, promised are %v", kind, got, want)
	}
}

func TestJSONShape(t *testing.T) {
	j := opened(t, demo)
	for _, gyle := range []string{"34", "40", "44"} {
		g := j.Find(gyle)
		s := Work(g, contextOf(j, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)))
		found := []notice.Notice{{
			Place: notice.Place{File: g.File, Line: 52, Column: 3}, ID: "some-finding", Severity: notice.Mend,
			Says: "Says.", Why: "Why.", Do: "Do.", Source: "a source",
		}}
		raw, err := JSON(s, found)
		if err != nil {
			t.Fatal(err)
		}
		var out published
		if err := json.Unmarshal(raw, &out); err != nil {
			t.Fatal(err)
		}
		holdKeys(t, "sheet", raw)
		if out.Gyle != g.Number.N || out.Beer != g.Beer.Text || out.File != g.File || out.Stage != s.Stage.String() {
			t.Errorf("it is headed %+v", out)
		}
		if len(out.Figures) != len(s.Figures) || len(out.Missing) != len(s.Missing) || len(out.Findings) != 1 {
			t.Errorf("%d figures of %d, %d missing of %d, %d findings", len(out.Figures), len(s.Figures), len(out.Missing), len(s.Missing), len(out.Findings))
		}
		for i, f := range out.Figures {
			holdFigure(t, s, s.Figures[i], f)
		}
		for _, m := range out.Missing {
			holdKeys(t, "missing", m)
			if bytes.Contains(m, []byte(`"needs": null`)) {
				t.Errorf("needs is null: %s", m)
			}
		}
		holdKeys(t, "finding", out.Findings[0])
		if !bytes.Contains(out.Findings[0], []byte(`"severity": "mend"`)) {
			t.Errorf("the severity is no word: %s", out.Findings[0])
		}
	}
}

// holdFigure holds one figure's object to the figure: unrounded, dates as RFC
// 3339, null where a ± makes no sense, a file only where it is another.
func holdFigure(t *testing.T, s *Sheet, f Figure, raw json.RawMessage) {
	t.Helper()
	holdKeys(t, "figure", raw)
	var out struct {
		ID        string
		Value     any
		PlusMinus *float64 `json:"plus_minus"`
		Upper     *float64
		Lower     *float64
		From      []struct {
			Key  string
			File *string
			Line int
		}
	}
	if err := json.Unmarshal(raw, &out); err != nil {
		t.Fatal(err)
	}
	if f.Unit == dateUnit {
		text, _ := out.Value.(string)
		if when, err := time.Parse(time.RFC3339, text); err != nil || !when.Equal(f.Date) {
			t.Errorf("%s is %v, want the date %s", partOf(f), out.Value, f.Date)
		}
	} else if number, ok := out.Value.(float64); !ok || number != f.Value {
		t.Errorf("%s is %v, want %v unrounded", partOf(f), out.Value, f.Value)
	}
	if (out.PlusMinus == nil) != math.IsNaN(f.PlusMinus) {
		t.Errorf("%s has plus_minus %v for %v", partOf(f), out.PlusMinus, f.PlusMinus)
	}
	holdBound(t, partOf(f), "upper", out.Upper, f.Upper, f.HasUpper())
	holdBound(t, partOf(f), "lower", out.Lower, f.Lower, f.HasLower())
	if len(out.From) != len(f.From()) {
		t.Fatalf("%s rests on %d lines, want %d", partOf(f), len(out.From), len(f.From()))
	}
	for i, from := range out.From {
		where := f.From()[i]
		if from.Key != where.Key || from.Line != where.Line || (from.File == nil) != (where.File == s.Gyle.File) {
			t.Errorf("%s rests on %+v, want %+v", partOf(f), from, where)
		}
	}
}

// holdBound holds a bound in the object to the figure's: null, or left out, where it
// has none.
func holdBound(t *testing.T, p part, name string, got *float64, want float64, has bool) {
	t.Helper()
	if (got != nil) != has || has && *got != want {
		t.Errorf("%s has %s %v, want %v (%v)", p, name, got, want, has)
	}
}

// TestSameBytes: the same entry and clock give the same bytes, and so do several
// sheets worked at once.
func TestSameBytes(t *testing.T) {
	j := opened(t, demo)
	c := contextOf(j, longAfter)
	for _, g := range j.Gyles {
		first, err := JSON(Work(g, c), nil)
		if err != nil {
			t.Fatal(err)
		}
		const atOnce = 4
		others := make(chan []byte, atOnce)
		for range atOnce {
			go func() {
				raw, _ := JSON(Work(g, c), nil)
				others <- raw
			}()
		}
		for range atOnce {
			if !bytes.Equal(first, <-others) {
				t.Errorf("gyle %d gives other bytes the second time", g.Number.N)
			}
		}
	}
}
