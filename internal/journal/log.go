package journal

import (
	"cmp"
	"crypto/sha256"
	"io"
	"math"
	"slices"
	"time"

	"gylebook/internal/notice"
)

// Log is a logger's file: what a floating hydrometer or a probe wrote by itself.
// It may have two million rows, so it is held in columns of small numbers: twelve
// bytes a row for a time and a gravity. It is never changed once read.
type Log struct {
	File string   // slash path relative to the journal
	Hash [32]byte // of the file's bytes: two logs with one hash hold the same rows
	// Columns are the kinds of reading that it has, in the file's order: gravity,
	// brix, temp, ph, pressure.
	Columns []string

	when  []int64             // Unix seconds, rising
	kinds [logKinds][]float32 // by kind, nil where the file has no such column
	zone  *time.Location      // of the moments that At gives
	seen  fileStamp           // of the file when it was read
	sound bool                // read without an error
}

// LogRow is one row. A reading that the row does not have is NaN. Readings are
// held to seven digits, which is finer than any logger measures, and times to the
// second.
type LogRow struct {
	When     time.Time
	Gravity  float64 // SG, as the logger gave it
	Brix     float64 // °Bx
	Temp     float64 // °C
	PH       float64
	Pressure float64 // bar gauge
}

// The kinds of reading that a column may hold, and their names in Columns.
const (
	logGravity = iota
	logBrix
	logTemp
	logPH
	logPressure
	logKinds
)

// The most that is read of one logger's file: 256 MiB, or two million rows, a row
// a minute for nearly four years.
const (
	maxLog     = 256 << 20
	maxLogRows = 2_000_000
	// maxLogLine is the longest row.
	maxLogLine = 1 << 14
	// maxLogErrors is how many broken rows are named one by one.
	maxLogErrors = 20
)

// Rows is how many rows the log has.
func (l *Log) Rows() int { return len(l.when) }

// Has tells whether the file has a column of a kind, by its name in Columns.
func (l *Log) Has(kind string) bool { return slices.Contains(l.Columns, kind) }

// At is the row of a number below Rows, in order of time.
func (l *Log) At(i int) LogRow {
	return LogRow{
		When: time.Unix(l.when[i], 0).In(l.zone), Gravity: l.cell(logGravity, i), Brix: l.cell(logBrix, i),
		Temp: l.cell(logTemp, i), PH: l.cell(logPH, i), Pressure: l.cell(logPressure, i),
	}
}

// Second is when a row was written, in Unix seconds; Gravity and Temp are two of
// its readings. They are for those who go through all of a long log.
func (l *Log) Second(i int) int64 { return l.when[i] }

// Gravity is a row's gravity in SG, NaN where it has none.
func (l *Log) Gravity(i int) float64 { return l.cell(logGravity, i) }

// Temp is a row's heat in °C, NaN where it has none.
func (l *Log) Temp(i int) float64 { return l.cell(logTemp, i) }

func (l *Log) cell(kind, row int) float64 {
	if l.kinds[kind] == nil {
		return math.NaN()
	}
	return float64(l.kinds[kind][row])
}

// From is the number of the first row at or after a moment, Rows where none is.
func (l *Log) From(t time.Time) int {
	at, _ := slices.BinarySearch(l.when, t.Unix())
	return at
}

// ReadLog reads a logger's file as a stream. The header names the columns, in any
// order and case, with units if wished: temp (F), gravity, plato, brix, pressure
// (psi), ph, and when (or time, date, timestamp, or a date and a time apart).
// Fields are parted by commas, semicolons or tabs; where it is not a comma,
// numbers may have decimal commas. Times without an offset are in the zone; where
// the clock is put back, the hour that comes twice is taken to follow the row
// before it.
//
// Rows are sorted by time, and exact doubles dropped. A broken row is a notice at
// its line, and the others are used; after twenty, broken rows are only counted.
// The file is never held in memory as a whole.
func ReadLog(name string, from io.Reader, zone *time.Location) (*Log, []notice.Notice) {
	if zone == nil {
		zone = time.UTC
	}
	r := &logReader{log: &Log{File: name, zone: zone}, clock: logClock{zone: zone}}
	limited, sum := &io.LimitedReader{R: from, N: maxLog + 1}, sha256.New()
	r.read(io.TeeReader(limited, sum))
	if limited.N <= 0 {
		r.report(0, idTooBig, "it is larger than 256 MiB, and the rest of it is left out", "Thin it to a row a minute.")
	}
	sum.Sum(r.log.Hash[:0])
	r.settle()
	return r.log, r.notices
}

// settle sorts the rows, drops exact doubles and sums up what was broken.
func (r *logReader) settle() {
	r.sumUp()
	l := r.log
	if !slices.IsSorted(l.when) {
		l.sort()
	}
	l.dropDoubles()
}

// sort puts the rows in order of time, those of one second as they stood.
func (l *Log) sort() {
	order := make([]int32, len(l.when))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(a, b int32) int { return cmp.Or(cmp.Compare(l.when[a], l.when[b]), cmp.Compare(a, b)) })
	l.when = picked(l.when, order)
	for k, column := range l.kinds {
		if column != nil {
			l.kinds[k] = picked(column, order)
		}
	}
}

func picked[T any](from []T, order []int32) []T {
	out := make([]T, len(order))
	for i, at := range order {
		out[i] = from[at]
	}
	return out
}

// dropDoubles keeps the first of rows that say the same of the same second.
func (l *Log) dropDoubles() {
	kept := 0
	for i := range l.when {
		if kept > 0 && l.same(kept-1, i) {
			continue
		}
		if kept != i {
			l.when[kept] = l.when[i]
			for k := range l.kinds {
				if l.kinds[k] != nil {
					l.kinds[k][kept] = l.kinds[k][i]
				}
			}
		}
		kept++
	}
	l.when = l.when[:kept]
	for k := range l.kinds {
		if l.kinds[k] != nil {
			l.kinds[k] = l.kinds[k][:kept]
		}
	}
}

func (l *Log) same(a, b int) bool {
	if l.when[a] != l.when[b] {
		return false
	}
	for _, column := range l.kinds {
		if column != nil && math.Float32bits(column[a]) != math.Float32bits(column[b]) {
			return false
		}
	}
	return true
}
