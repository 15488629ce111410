package journal

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"gylebook/internal/notice"
)

// Log is a logger's file: what a floating hydrometer or a probe wrote by itself.
type Log struct {
	File string // slash path relative to the journal
	Rows []LogRow
	// Columns are the kinds of reading that it has, in the file's order: gravity,
	// brix, temp, ph, pressure.
	Columns []string
}

// LogRow is one row. A reading that the row does not have is NaN.
type LogRow struct {
	When     time.Time
	Gravity  float64 // SG
	Brix     float64 // °Bx
	Temp     float64 // °C
	PH       float64
	Pressure float64 // bar gauge
}

// The most that is read of one logger's file: 256 MiB, or two million rows.
const (
	maxLog     = 256 << 20
	maxLogRows = 2_000_000
	// maxLogErrors is how many broken rows are named one by one.
	maxLogErrors = 20
)

const (
	idNoLog    = "no-log"     // a logger's file that is not there, or is none
	idBrokenIn = "broken-row" // a row of a logger's file that cannot be read
)

// ReadLog reads a logger's file as a stream. The header names the columns, in any
// order and case, with units if wished: temp (F), gravity, plato, brix, pressure
// (psi), ph, and when (or time, date, timestamp). Fields are parted by commas,
// semicolons or tabs; where it is not a comma, numbers may have decimal commas.
// Times without an offset are in the zone. Rows are sorted by time and exact
// doubles dropped. A broken row is a notice, and the others are used.
func ReadLog(name string, from io.Reader, zone *time.Location) (*Log, []notice.Notice) {
	r := &logReader{log: &Log{File: name}, zone: zone, line: 1}
	limited := &io.LimitedReader{R: from, N: maxLog + 1}
	r.read(bufio.NewReaderSize(limited, 1<<16))
	if limited.N <= 0 {
		r.report(0, idTooBig, "is larger than 256 MiB, and the rest of it is left out", "Thin it to a row a minute.")
	}
	r.settle()
	return r.log, r.notices
}

// logReader reads one file.
type logReader struct {
	log     *Log
	zone    *time.Location
	columns []logColumn
	comma   bool // numbers may have decimal commas
	line    int
	broken  int
	notices []notice.Notice
}

func (r *logReader) report(line int, id, says, do string) {
	place := notice.Place{File: r.log.File, Line: line}
	if line > 0 {
		place.Column = 1
	}
	r.notices = append(r.notices, notice.Notice{Place: place, Severity: notice.Unreadable, ID: id, Says: r.log.File + " " + says, Do: do})
}

func (r *logReader) read(in *bufio.Reader) {
	if mark, _ := in.Peek(3); bytes.Equal(mark, []byte("\xef\xbb\xbf")) {
		in.Discard(3) //nolint:errcheck // three bytes were just seen
	}
	head, _ := in.Peek(4096)
	rows := csv.NewReader(in)
	rows.Comma = separatorOf(head)
	rows.FieldsPerRecord, rows.ReuseRecord, rows.LazyQuotes, rows.TrimLeadingSpace = -1, true, true, rows.Comma != '\t'
	r.comma = rows.Comma != ','
	for len(r.log.Rows) < maxLogRows {
		fields, err := rows.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		r.line, _ = rows.FieldPos(0)
		var wrong *csv.ParseError
		if errors.As(err, &wrong) {
			r.line = wrong.StartLine
			r.breakRow("is no row")
			continue
		}
		if err != nil {
			r.report(r.line, idUnreadable, "cannot be read further: "+err.Error(), "Copy it again from the logger.")
			return
		}
		if r.columns == nil {
			if !r.header(fields) {
				return
			}
			continue
		}
		r.row(fields)
	}
	if r.columns == nil {
		r.report(1, idNoLog, "is empty", "Its first row must name the columns: when, gravity, temp.")
	}
}

// separatorOf is what parts the fields of the header.
func separatorOf(head []byte) rune {
	line, _, _ := bytes.Cut(head, []byte("\n"))
	for _, separator := range []byte{'\t', ';'} {
		if bytes.IndexByte(line, separator) >= 0 {
			return rune(separator)
		}
	}
	return ','
}

// breakRow reports a row that cannot be read; after so many, only their number.
func (r *logReader) breakRow(why string) {
	r.broken++
	if r.broken <= maxLogErrors {
		r.report(r.line, idBrokenIn, "has a row that "+why, "The other rows are used. Mend it, or take it out.")
	}
}

// row reads one row.
func (r *logReader) row(fields []string) {
	row := LogRow{Gravity: math.NaN(), Brix: math.NaN(), Temp: math.NaN(), PH: math.NaN(), Pressure: math.NaN()}
	some, blank := false, true
	for i, c := range r.columns {
		if i >= len(fields) {
			break
		}
		text := strings.TrimSpace(fields[i])
		if text == "" || c.into == nil && !c.time {
			continue
		}
		blank = false
		if c.time {
			when, _, wrong := ParseMoment(text, r.zone)
			if wrong != nil {
				r.breakRow(fmt.Sprintf("names no time: %s %s", quote(shorten(text, longestWord)), wrong))
				return
			}
			row.When = when
			continue
		}
		x, ok := r.number(text)
		if !ok {
			r.breakRow(fmt.Sprintf("has %s where a number is wanted", quote(shorten(text, longestWord))))
			return
		}
		*c.into(&row) = c.unit(x)
		some = true
	}
	switch {
	case blank:
	case row.When.IsZero():
		r.breakRow("has no time")
	case some:
		r.log.Rows = append(r.log.Rows, row)
	}
}

// number reads a number, with a decimal comma where the fields are parted by
// something else.
func (r *logReader) number(text string) (float64, bool) {
	if r.comma && strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		text = strings.Replace(text, ",", ".", 1)
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && !math.IsNaN(x) && !math.IsInf(x, 0)
}

// settle sorts the rows, drops exact doubles and sums up what was broken.
func (r *logReader) settle() {
	if more := r.broken - maxLogErrors; more > 0 {
		r.report(r.line, idBrokenIn, fmt.Sprintf("has %d more rows that cannot be read", more), "The other rows are used.")
	}
	if len(r.log.Rows) >= maxLogRows {
		r.report(r.line, idTooBig, fmt.Sprintf("has more than %d rows, and the rest of them are left out", maxLogRows), "Thin it to a row a minute.")
	}
	earlier := func(a, b LogRow) int { return a.When.Compare(b.When) }
	if !slices.IsSortedFunc(r.log.Rows, earlier) {
		slices.SortStableFunc(r.log.Rows, earlier)
	}
	r.log.Rows = slices.CompactFunc(r.log.Rows, sameRow)
}

func sameRow(a, b LogRow) bool {
	same := func(x, y float64) bool { return x == y || math.IsNaN(x) && math.IsNaN(y) }
	return a.When.Equal(b.When) && same(a.Gravity, b.Gravity) && same(a.Brix, b.Brix) && same(a.Temp, b.Temp) && same(a.PH, b.PH) && same(a.Pressure, b.Pressure)
}
