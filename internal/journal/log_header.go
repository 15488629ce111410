package journal

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"gylebook/internal/quantity"
)

// logColumn is one column of a logger's file: a part of the time, or a kind of
// reading and the unit that its numbers are in. A column that says nothing to us
// has neither.
type logColumn struct {
	time timePart
	kind int                   // one of the log kinds
	unit func(float64) float64 // from the column's unit to the kind's own
}

// timePart is what a column has of the time.
type timePart int

const (
	noTime  timePart = iota
	asDate           // the date, or date and time
	asClock          // the time of day, where the date has a column of its own
)

// logWord is what a column may be called, and what it then holds.
type logWord struct {
	names []string
	name  string // as in Columns
	of    *quantity.Kind
	kind  int
	unit  string // taken where the header names none
}

var logWords = []logWord{
	{[]string{"gravity", "sg", "specific gravity", "density"}, "gravity", quantity.KindOf[quantity.Gravity](),
		logGravity, "SG"},
	{[]string{"plato", "extract"}, "gravity", quantity.KindOf[quantity.Gravity](), logGravity, "°P"},
	{[]string{"brix"}, "brix", quantity.KindOf[quantity.Brix](), logBrix, "°Bx"},
	{[]string{"temp", "temperature", "heat"}, "temp", quantity.KindOf[quantity.Temperature](), logTemp, "°C"},
	{[]string{"ph"}, "ph", quantity.KindOf[quantity.Acidity](), logPH, "pH"},
	{[]string{"pressure"}, "pressure", quantity.KindOf[quantity.Pressure](), logPressure, "bar"},
}

var timeWords = []string{"when", "time", "date", "timestamp", "date time", "datetime", "date and time"}

// header makes the columns of the first row; false after reporting that it is no
// header.
func (r *logReader) header(fields [][]byte) bool {
	timed, read := false, false
	columns := make([]logColumn, len(fields))
	names := make([]string, len(fields))
	for i, field := range fields {
		names[i] = headerWords(string(field))
		if slices.Contains(timeWords, names[i]) {
			if !timed {
				columns[i].time, timed = asDate, true
			}
			continue // another is left alone, but for a date and a time apart
		}
		w, unit, ok := r.column(string(field), names[i])
		if !ok || r.log.Has(w.name) {
			continue // the first of two columns of one kind is used
		}
		columns[i].kind, columns[i].unit, read = w.kind, unit, true
		r.log.Columns = append(r.log.Columns, w.name)
		r.log.kinds[w.kind] = []float32{}
	}
	date, clock := slices.Index(names, "date"), slices.Index(names, "time")
	if date >= 0 && clock >= 0 {
		columns[date].time, columns[clock].time = asDate, asClock
	}
	if timed && read {
		r.columns = columns
		return true
	}
	r.report(r.line, idNoLog, fmt.Sprintf("no header names a time and a reading: %s",
		quote(string(bytes.Join(fields, []byte{r.separator})))),
		"Its first row must name the columns, as when,gravity,temp (F).")
	return false
}

// column is what a header's field says: the kind of reading, then its unit.
func (r *logReader) column(field, words string) (w logWord, unit func(float64) float64, ok bool) {
	for _, w := range logWords {
		for _, known := range w.names {
			rest, found := strings.CutPrefix(words, known)
			if !found || rest != "" && !strings.HasPrefix(rest, " ") {
				continue
			}
			name := strings.TrimSpace(rest)
			if name == "" {
				name = w.unit
			}
			if u := unitNamed(w.of, name); u != nil {
				return w, u.In, true
			}
			r.report(r.line, idWrongUnit,
				fmt.Sprintf("the column %s has a unit that is not known, and it is left out", quote(field)),
				"Name the unit in the header, as temp (F) or pressure (psi).")
			return w, nil, false
		}
	}
	return w, nil, false
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
		if strings.EqualFold(u.Symbol, word) ||
			slices.ContainsFunc(u.Also, func(also string) bool { return strings.EqualFold(also, word) }) {
			return &k.Units[i]
		}
	}
	return nil
}
