package journal

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"gylebook/internal/quantity"
)

// logColumn is one column of a logger's file: where its numbers go, and in what
// unit they are. A column that says nothing to us has neither.
type logColumn struct {
	time bool
	into func(*LogRow) *float64
	unit func(float64) float64
}

// logWords are the names that a column may have, by what it holds.
var logWords = []struct {
	names []string
	name  string // as in Columns
	kind  *quantity.Kind
	into  func(*LogRow) *float64
	unit  string // taken where the header names none
}{
	{[]string{"gravity", "sg", "specific gravity", "density"}, "gravity", quantity.KindOf[quantity.Gravity](), func(r *LogRow) *float64 { return &r.Gravity }, "SG"},
	{[]string{"plato", "extract"}, "gravity", quantity.KindOf[quantity.Gravity](), func(r *LogRow) *float64 { return &r.Gravity }, "°P"},
	{[]string{"brix"}, "brix", quantity.KindOf[quantity.Brix](), func(r *LogRow) *float64 { return &r.Brix }, "°Bx"},
	{[]string{"temp", "temperature", "heat"}, "temp", quantity.KindOf[quantity.Temperature](), func(r *LogRow) *float64 { return &r.Temp }, "°C"},
	{[]string{"ph"}, "ph", quantity.KindOf[quantity.Acidity](), func(r *LogRow) *float64 { return &r.PH }, "pH"},
	{[]string{"pressure"}, "pressure", quantity.KindOf[quantity.Pressure](), func(r *LogRow) *float64 { return &r.Pressure }, "bar"},
}

var timeWords = []string{"when", "time", "date", "timestamp", "date time", "datetime", "date and time"}

// header makes the columns of the first row; false after reporting that it is no
// header.
func (r *logReader) header(fields []string) bool {
	timed, read := false, false
	r.columns = make([]logColumn, len(fields))
	for i, field := range fields {
		words := headerWords(field)
		if slices.Contains(timeWords, words) {
			r.columns[i].time, timed = !timed, true // a second time column is left alone
			continue
		}
		c, name, ok := r.column(field, words)
		if !ok {
			continue
		}
		if slices.Contains(r.log.Columns, name) {
			continue // the first of two columns of one kind is used
		}
		r.columns[i], read = c, true
		r.log.Columns = append(r.log.Columns, name)
	}
	if timed && read {
		return true
	}
	r.report(1, idNoLog, fmt.Sprintf("has no header that names a time and a reading: %s", quote(shorten(strings.Join(fields, ","), 40))), "Its first row must name the columns, as when,gravity,temp (F).")
	return false
}

// column is what a header's field says: the kind of reading, then its unit.
func (r *logReader) column(field, words string) (c logColumn, name string, ok bool) {
	for _, w := range logWords {
		for _, known := range w.names {
			rest, found := strings.CutPrefix(words, known)
			if !found || rest != "" && !strings.HasPrefix(rest, " ") {
				continue
			}
			unit := strings.TrimSpace(rest)
			if unit == "" {
				unit = w.unit
			}
			if u := unitNamed(w.kind, unit); u != nil {
				return logColumn{into: w.into, unit: u.In}, w.name, true
			}
			r.report(1, idWrongUnit, fmt.Sprintf("has a column %s whose unit is not known, and it is left out", quote(shorten(field, longestWord))), "Name the unit in the header, as temp (F) or pressure (psi).")
			return c, "", false
		}
	}
	return c, "", false
}

// headerWords is a header's field in small letters, its brackets and underscores
// turned to spaces.
func headerWords(field string) string {
	plain := strings.Map(func(r rune) rune {
		if strings.ContainsRune("()[]_,:/-", r) {
			return ' '
		}
		return unicode.ToLower(r)
	}, field)
	return strings.Join(strings.Fields(plain), " ")
}

// unitNamed is a kind's unit by any of its spellings, in any case.
func unitNamed(k *quantity.Kind, word string) *quantity.Unit {
	for i, u := range k.Units {
		if strings.EqualFold(u.Symbol, word) || slices.ContainsFunc(u.Also, func(also string) bool { return strings.EqualFold(also, word) }) {
			return &k.Units[i]
		}
	}
	return nil
}
