package journal

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"gylebook/internal/notice"
)

// The ids of reading errors: a closed set, each documented by an example in
// testdata/journal/errors.
const (
	idUnknownKey    = "unknown-key"     // a key that the vocabulary does not have there
	idDoubledKey    = "doubled-key"     // one key twice in one map
	idMissingKey    = "missing-key"     // a key that the file cannot be without
	idWrongUnit     = "wrong-unit"      // a number without its unit, or with none of its kind
	idNotANumber    = "not-a-number"    // no number where one is wanted, or not written plainly
	idNotADate      = "not-a-date"      // no date or time where one is wanted
	idNotAFlag      = "not-a-flag"      // neither true nor false
	idUnknownWord   = "unknown-word"    // a word outside a closed list
	idWrongShape    = "wrong-shape"     // a list, a map or a single value where another is wanted
	idNotText       = "not-text"        // bytes or characters that are no text
	idNotAnAddress  = "not-an-address"  // no web address
	idNotAZone      = "not-a-zone"      // no time zone
	idNotAPattern   = "not-a-pattern"   // no pattern of file names
	idNotYAML       = "not-yaml"        // front matter that is not YAML, or is more than this book reads of it
	idAlias         = "anchor-or-alias" // YAML's shorthand for saying a thing twice
	idUnclosed      = "unclosed"        // front matter that never ends
	idFence         = "indented-fence"  // a --- that ends the front matter where it was not meant to
	idNoDecidingKey = "no-deciding-key" // front matter that does not say what the file is
	idNumberTaken   = "number-taken"    // two gyles of one number
	idNameTaken     = "name-taken"      // two cards of one kind and name
	idNoSettings    = "no-settings"     // a journal whose index.md has no settings
	idMoreSettings  = "doubled-settings"
	idTooBig        = "too-big"         // more than the reader takes
	idTooMany       = "too-many-errors" // the rest of a file's errors are left out
	idNoFile        = "no-file"         // a link, or what is no ordinary file
	idOurFault      = notice.FaultID    // this program broke down over the file
	idBadSet        = "bad-set"         // a what-if that names no value
	idTooShort      = "too-short"       // a limit of the settings that would leave a danger unseen
	idNoLog         = "no-log"          // a logger's file that is not there, or is none
	idBrokenRow     = "broken-row"      // a row of a logger's file that cannot be read
)

// UnreadableID is the id of what is in the journal and cannot be read now: its permissions
// forbid it, or the disk failed. What it says, nobody knows, and it is not gone.
const UnreadableID = "unreadable-file"

// ErrorIDs is every id that a reading error may have.
func ErrorIDs() []string {
	return []string{
		idUnknownKey, idDoubledKey, idMissingKey, idWrongUnit, idNotANumber, idNotADate, idNotAFlag, idUnknownWord,
		idWrongShape, idNotText, idNotAnAddress, idNotAZone, idNotAPattern, idNotYAML, idAlias, idUnclosed, idFence,
		idNoDecidingKey, idNumberTaken, idNameTaken, idNoSettings, idMoreSettings, idTooBig, idTooMany, UnreadableID, idNoFile, idOurFault,
		idBadSet, idTooShort, idNoLog, idBrokenRow,
	}
}

// Bounds, so that no input stalls the reader or fills its memory. The YAML
// reader's time grows with the square of one flow collection; at the bound for
// the front matter the worst that was found takes some tens of milliseconds.
const (
	maxFile   = 1 << 20 // bytes of a file
	maxFront  = 1 << 16 // bytes of front matter, fifteen times a long entry
	maxDepth  = 16      // nesting; the vocabulary needs six
	maxItems  = 1000    // parts of a list; a year of daily readings has 365
	maxErrors = 100     // errors of one file
	maxLine   = 300     // characters of a line shown with an error
)

// countsAsNotWritten is what an unreadable value costs, the same for all of them.
const countsAsNotWritten = "Until it can be read, it counts as not written."

// reading is the reading of one file.
type reading struct {
	file     string
	source   []byte   // the file as cleaned, to show lines of it
	offset   int      // lines of the file before the first of its YAML
	sets     []string // what-ifs; a node of the nth has line -n
	settings *Settings
	zone     *time.Location // of moments without an offset
	errors   []notice.Notice
	brewed   string  // the day of brewing as written, "" for none that can be read
	missed   []Where // keys that were surely meant by others that are none
	asides   []Text
}

// report adds an error of the file.
func (r *reading) report(place notice.Place, id, of, says, do string) {
	switch n := len(r.errors); {
	case n > maxErrors:
		return
	case n == maxErrors:
		id, of, says, do = idTooMany, "", fmt.Sprintf("more than %d errors: the rest are left out", maxErrors),
			"Put the first ones right, then look again."
	}
	r.errors = append(r.errors, notice.Notice{
		Place: place, Severity: notice.Unreadable, ID: id, Of: of,
		Says: says, Why: countsAsNotWritten, Do: do, Line: r.line(place),
	})
}

// line is the line of the source at a place, shortened.
func (r *reading) line(place notice.Place) string {
	if place.File == setFile {
		return r.sets[place.Line-1]
	}
	if place.Line < 1 {
		return ""
	}
	rest := r.source
	for range place.Line - 1 {
		_, after, found := bytes.Cut(rest, []byte("\n"))
		if !found {
			return ""
		}
		rest = after
	}
	line, _, _ := bytes.Cut(rest, []byte("\n"))
	return shorten(string(line), maxLine)
}

// shorten cuts text to so many characters.
func shorten(text string, limit int) string {
	if utf8.RuneCountInString(text) <= limit {
		return text
	}
	return string([]rune(text)[:limit]) + "…"
}

// quote shows what was typed, on one line and shortened.
func quote(text string) string {
	return fmt.Sprintf("%q", shorten(strings.TrimSpace(text), 40))
}

// writeIfMeant turns a likely meaning into something to do.
func writeIfMeant(fix string) string {
	if fix == "" {
		return ""
	}
	return "Write " + fix + ", if that is meant."
}

// notRead is the keys that were written and could not be read: those with an
// error, and those that were surely meant by a key that is none.
func (r *reading) notRead() []Where {
	var all []Where
	for _, e := range r.errors {
		if e.Of != "" && e.ID != idUnknownKey && e.ID != idDoubledKey && e.ID != idMissingKey {
			all = append(all, Where{Place: e.Place, Key: e.Of})
		}
	}
	all = append(all, r.missed...)
	slices.SortStableFunc(all, func(a, b Where) int { return notice.Place.Compare(a.Place, b.Place) })
	return all
}

// Unreadable is where a key was written that could not be read, itself or with
// the map or list that it stands in; not Written where that is not so. A path
// with [] in it is any part of that list: readings[].gravity. What could not be
// read counts as not written, and yet it is not missing: it is to be put right,
// not to be measured again.
func (g *Gyle) Unreadable(key string) Where {
	for _, w := range g.NotRead {
		written := w.Key
		if strings.Contains(key, "[]") {
			written = unnumbered(written)
		}
		if key == written || strings.HasPrefix(key, written+".") || strings.HasPrefix(key, written+"[") {
			return w
		}
	}
	return Where{}
}
