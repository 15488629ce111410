package journal

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"gylebook/internal/notice"
	"gylebook/internal/parallel"
)

// Options is what Read may be told.
type Options struct {
	// Workers bounds how many files are read at once; GOMAXPROCS if 0.
	Workers int
}

// Read reads the journal in fsys. It does not fail: what cannot be read is
// among the Errors, and the rest of the journal stands. The same files give
// the same journal, whatever the number of workers.
func Read(fsys fs.FS, opts Options) *Journal {
	first := ReadOne(fsys, settingsFile, nil)
	settings := first.Settings
	if settings == nil {
		settings = defaultSettings()
	}
	w := folderWalk{settings: settings}
	w.folder(fsys)
	documents := make([]*Document, len(w.names))
	parallel.Each(len(w.names), opts.Workers, func(i int) {
		if w.names[i] == settingsFile {
			documents[i] = first
			return
		}
		documents[i] = ReadOne(fsys, w.names[i], settings)
	})
	return assemble(documents, w.files, w.errors, nil)
}

// ReadOne reads the one Markdown file name of fsys, and the logger's file that it
// names.
func ReadOne(fsys fs.FS, name string, settings *Settings) *Document {
	return ReadAgain(fsys, name, settings, nil)
}

// ReadAgain is ReadOne for a file that was read before (nil for none): a logger's
// file that is surely the same is not read again.
func ReadAgain(fsys fs.FS, name string, settings *Settings, before *Document) *Document {
	raw, err := readBounded(fsys, name)
	if err != nil {
		return &Document{File: name, Errors: []notice.Notice{unreadable(name, err)}}
	}
	d := ReadFile(name, raw, settings)
	var log *Log
	if before != nil && before.Gyle != nil {
		log = before.Gyle.Log
	}
	d.ReadLogOf(fsys, settings, log)
	return d
}

// readBounded reads a file, and of one that is too big only so much that this
// shows.
func readBounded(fsys fs.FS, name string) ([]byte, error) {
	file, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	stat, err := file.Stat()
	switch {
	case err != nil:
		return nil, err
	case !stat.Mode().IsRegular():
		return nil, errNoOrdinaryFile
	}
	raw := make([]byte, 0, min(max(stat.Size(), 0), maxFile)+512)
	return readInto(raw, io.LimitReader(file, maxFile+1))
}

// readInto is io.ReadAll into a buffer of about the right size.
func readInto(raw []byte, from io.Reader) ([]byte, error) {
	for {
		n, err := from.Read(raw[len(raw):cap(raw)])
		raw = raw[:len(raw)+n]
		switch {
		case errors.Is(err, io.EOF):
			return raw, nil
		case err != nil:
			return raw, err
		case len(raw) == cap(raw):
			raw = slices.Grow(raw, 512)
		}
	}
}

func unreadable(name string, err error) notice.Notice {
	var pathError *fs.PathError
	if errors.As(err, &pathError) {
		err = pathError.Err
	}
	n := notice.Notice{
		Place: notice.Place{File: name}, Severity: notice.Unreadable, ID: UnreadableID,
		Says: "it cannot be read: " + err.Error(), Why: "The journal is worked out without it.",
		Do: "Look at its permissions, or take it out of the journal.",
	}
	if errors.Is(err, errNoOrdinaryFile) || errors.Is(err, errALink) {
		n.ID, n.Do = idNoFile, "Put a file in its place, or take it out of the journal."
	}
	return n
}

var errALink = errors.New("it is a link, and links are not followed")

// folderWalk is what is found in the journal's folder.
type folderWalk struct {
	settings *Settings
	names    []string // Markdown files
	files    []File
	errors   []notice.Notice
}

// folder goes through the whole journal in the order of names.
func (w *folderWalk) folder(fsys fs.FS) {
	_ = fs.WalkDir(fsys, ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			w.errors = append(w.errors, unreadable(name, err))
		case name != "." && Ignored(name, w.settings):
			if entry.IsDir() {
				return fs.SkipDir
			}
		case entry.IsDir():
		default:
			w.file(name, entry)
		}
		return nil // an error of one place never ends the walk
	})
	slices.SortFunc(w.files, func(a, b File) int { return strings.Compare(a.Name, b.Name) })
}

// file notes one file. Links are reported and never followed: where one leads
// is not part of the journal.
func (w *folderWalk) file(name string, entry fs.DirEntry) {
	switch {
	case entry.Type()&fs.ModeSymlink != 0:
		w.errors = append(w.errors, unreadable(name, errALink))
	case !entry.Type().IsRegular():
		w.errors = append(w.errors, unreadable(name, errNoOrdinaryFile))
	case IsMarkdown(name):
		w.names = append(w.names, name)
	default:
		stat, err := entry.Info()
		if err != nil {
			w.errors = append(w.errors, unreadable(name, err))
			return
		}
		w.files = append(w.files, File{Name: name, Size: stat.Size(), Saved: stat.ModTime()})
	}
}

// IsMarkdown tells whether a file is read as a document.
func IsMarkdown(name string) bool { return strings.EqualFold(path.Ext(name), ".md") }

// Ignored tells whether a path is passed over: dot-files, what editors leave
// behind while they save, and what the settings say, in a folder of which it is
// true as well.
func Ignored(name string, settings *Settings) bool {
	for at := name; at != "." && at != "/" && at != ""; at = path.Dir(at) {
		if isDropping(path.Base(at)) || settings != nil && settings.passesOver(at) {
			return true
		}
	}
	return false
}

// isDropping tells whether a name is a dot-file or an editor's.
func isDropping(base string) bool {
	switch {
	case strings.HasPrefix(base, "."), strings.HasSuffix(base, "~"):
		return true
	case strings.HasPrefix(base, "#") && strings.HasSuffix(base, "#"):
		return true
	}
	return slices.Contains([]string{".swp", ".tmp", ".bak"}, strings.ToLower(path.Ext(base)))
}
