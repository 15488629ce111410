package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"gylebook/internal/notice"
)

// fileStamp tells whether a file is still the one that was read.
type fileStamp struct {
	size     int64
	modified time.Time
	read     time.Time
}

// settledAfter is how old a file's date must have been when it was read, for the
// date to prove that it is the same: some disks keep it to two seconds only.
const settledAfter = 3 * time.Second

// isUnchanged tells whether a file of this size and date is surely the one that was read.
func (s fileStamp) isUnchanged(now fs.FileInfo) bool {
	return now.Size() == s.size && !s.modified.IsZero() && now.ModTime().Equal(s.modified) &&
		s.read.Sub(s.modified) >= settledAfter
}

// LogFiles are the paths in the journal at which a gyle's readings_from may stand,
// in the order in which they are looked at: beside the entry, then from the top of
// the journal, as a photo's. None where it names no file of the journal.
func (g *Gyle) LogFiles() []string {
	text := strings.ReplaceAll(g.Logger.Text, "\\", "/")
	if text == "" || strings.HasPrefix(text, "/") || len(text) > 1 && text[1] == ':' {
		return nil
	}
	var names []string
	for _, name := range []string{path.Join(path.Dir(g.File), text), path.Clean(text)} {
		if fs.ValidPath(name) && name != "." && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// ReadersOf are the files of the entries that read, or would read if it were there,
// the logger's file of a path: those to read anew when it comes, changes or goes.
func (j *Journal) ReadersOf(file string) []string {
	var readers []string
	for _, g := range j.Gyles {
		if g.Logger.Text != "" && slices.Contains(g.LogFiles(), file) {
			readers = append(readers, g.File)
		}
	}
	return readers
}

// ReadLogOf reads the file that a gyle's readings_from names, if it names one, and
// hangs it on the gyle. What cannot be read of it joins the document's errors: at
// the key where the file itself is at fault, else at the file's own line. A log
// that was read before (nil for none) is used again where the file is surely the
// same. Nothing outside the journal is opened, nor what a link leads to.
func (d *Document) ReadLogOf(fsys fs.FS, settings *Settings, before *Log) {
	if d.Gyle == nil || !d.Gyle.Logger.Written() || d.Gyle.Logger.Text == "" {
		return
	}
	name, stat, fault := findLog(fsys, d.Gyle.LogFiles(), settings)
	if fault != nil {
		d.refuseLog(fault)
		return
	}
	if before != nil && before.File == name && before.seen.isUnchanged(stat) && before.sound &&
		before.zone == zoneOf(settings) {
		d.Gyle.Log = before
		return
	}
	file, err := fsys.Open(name)
	if err != nil {
		d.refuseLog(&logFault{idNoLog, "cannot be opened: " + pathless(err).Error(), "Look at its permissions."})
		return
	}
	defer file.Close()
	defer func() {
		if thrown := recover(); thrown != nil {
			d.Gyle.Log = nil
			d.addErrors(ourFault(name, thrown))
		}
	}()
	log, errors := ReadLog(name, file, zoneOf(settings))
	log.seen, log.sound = fileStamp{stat.Size(), stat.ModTime(), time.Now()}, len(errors) == 0
	d.Gyle.Log = log
	d.addErrors(errors...)
}

func zoneOf(settings *Settings) *time.Location {
	if settings == nil || settings.Zone == nil {
		return time.UTC
	}
	return settings.Zone
}

func (d *Document) addErrors(errors ...notice.Notice) {
	d.Errors = append(d.Errors, errors...)
	slices.SortStableFunc(d.Errors, func(a, b notice.Notice) int { return a.Place.Compare(b.Place) })
}

// logFault is why a file is not read at all.
type logFault struct{ id, says, do string }

func (d *Document) refuseLog(fault *logFault) {
	key := d.Gyle.Logger
	d.addErrors(notice.Notice{
		Place: key.Place, Severity: notice.Unreadable, ID: fault.id, Of: key.Key,
		Says: quote(key.Text) + " " + fault.says, Why: "The gyle is worked out without the logger's readings.",
		Do:   fault.do,
		Line: "readings_from: " + shorten(key.Text, maxLine),
	})
}

// findLog is the first of these files that is there.
func findLog(fsys fs.FS, names []string, settings *Settings) (string, fs.FileInfo, *logFault) {
	if len(names) == 0 {
		return "", nil, &logFault{idNoLog, "leads out of the journal: expected a CSV file in it",
			"Copy the file beside the entry, and name it without a folder."}
	}
	for _, name := range names {
		stat, err := lookAt(fsys, name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue
		case err != nil:
			return "", nil, &logFault{idNoLog, "cannot be opened: " + pathless(err).Error(),
				"Copy the file itself beside the entry."}
		}
		if fault := unfit(name, stat, settings); fault != nil {
			return "", nil, fault
		}
		return name, stat, nil
	}
	return "", nil, &logFault{idNoLog, "is not there: expected a CSV file at " + strings.Join(names, " or "),
		"Copy it there, or put the name right."}
}

// unfit tells why something that is there is no logger's file; nil if it may be.
func unfit(name string, stat fs.FileInfo, settings *Settings) *logFault {
	switch {
	case stat.IsDir():
		return &logFault{idNoLog, "is a folder: expected a CSV file", "Name the file in it."}
	case !stat.Mode().IsRegular():
		return &logFault{idNoLog, "is no ordinary file: expected a CSV file", "Copy the file itself beside the entry."}
	case IsMarkdown(name):
		return &logFault{idNoLog, "is an entry: expected a CSV file", "Name the file that the logger wrote."}
	case Ignored(name, settings):
		return &logFault{idNoLog,
			"is one of the files that are passed over: dot-files, what editors leave, and what ignore names",
			"Rename it, or take it out of ignore."}
	case stat.Size() > maxLog:
		return &logFault{idTooBig, fmt.Sprintf("has %d MiB: expected at most %d", stat.Size()>>20, maxLog>>20),
			"Thin it to a row a minute."}
	}
	return nil
}

var errLink = errors.New("it is a link, and links are not followed")

// lookAt is what stands at a path, none of whose parts may be a link.
func lookAt(fsys fs.FS, name string) (stat fs.FileInfo, err error) {
	for at := range len(name) + 1 {
		if at < len(name) && name[at] != '/' {
			continue
		}
		if stat, err = fs.Lstat(fsys, name[:at]); err != nil {
			return nil, err
		}
		if stat.Mode()&fs.ModeSymlink != 0 {
			return nil, errLink
		}
	}
	return stat, nil
}

// pathless is an error without the path that it already stands beside.
func pathless(err error) error {
	var wrong *fs.PathError
	if errors.As(err, &wrong) {
		return wrong.Err
	}
	return err
}
