package brewing

import (
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	q "gylebook/internal/quantity"
)

// row is one line of a published table, by the names of its columns.
type row map[string]string

// table reads a file of testdata/reference, whose README says where each comes
// from. It fails where the file is gone or empty: a table with no rows would
// prove anything.
func table(t *testing.T, file string) []row {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(lines) < 2 {
		t.Fatalf("%s has no rows", file)
	}
	rows := make([]row, 0, len(lines)-1)
	for _, line := range lines[1:] {
		r := row{}
		for i, name := range lines[0] {
			r[name] = line[i]
		}
		rows = append(rows, r)
	}
	return rows
}

// number is a cell that must hold a number.
func (r row) number(t *testing.T, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("column %s of %v: %v", column, r, err)
	}
	return x
}

// has tells whether a cell is filled.
func (r row) has(column string) bool { return r[column] != "" }

// cell is the number in the first row whose columns hold the given texts.
func cell(t *testing.T, rows []row, column string, where ...string) float64 {
	t.Helper()
	for _, r := range rows {
		if r.matches(where) {
			return r.number(t, column)
		}
	}
	t.Fatalf("no row with %v", where)
	return 0
}

// matches looks for pairs of column and beginning of its text.
func (r row) matches(where []string) bool {
	for i := 0; i < len(where); i += 2 {
		if !strings.HasPrefix(r[where[i]], where[i+1]) {
			return false
		}
	}
	return true
}

// near reports a value further from the published one than the tolerance.
func near[A, B ~float64](t *testing.T, what string, got A, want B, tolerance float64) {
	t.Helper()
	if off := math.Abs(float64(got) - float64(want)); !(off <= tolerance) {
		t.Errorf("%s = %v, published %v: off by %.3g, allowed %v", what, got, want, off, tolerance)
	}
}

// good unwraps a result that must not be an error.
func good[Q any](t testing.TB) func(Q, error) Q {
	return func(x Q, err error) Q {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// refused reports a result where a RangeError is due.
func refused[Q ~float64](t *testing.T, what string, got Q, err error) {
	t.Helper()
	var outside *RangeError
	if !errors.As(err, &outside) || got != 0 {
		t.Errorf("%s = %v, %v; want nought and a RangeError", what, got, err)
	}
}

// gravityAt60F is the gravity at 20/20 °C of one measured at 60/60 °F: beer and
// wort are taken to expand like water, so it is the same number.
func gravityAt60F(sg float64) q.Gravity { return q.SG(sg) }

// cutaiaMeans reads alcohol and real extract out of the name of a worked example,
// such as "beer alcohol 4.72 % w/w, RE 5.28 P (RPB-I mean)".
func cutaiaMeans(t *testing.T, name string) (alcohol, extract float64) {
	t.Helper()
	if _, err := fmt.Sscanf(name, "beer alcohol %f %% w/w, RE %f P", &alcohol, &extract); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return alcohol, extract
}
