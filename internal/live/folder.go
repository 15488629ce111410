package live

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"slices"
	"strings"
	"time"

	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// folder is the journal's folder as it is shown: read once, and after that only
// what was saved.
//
// A file that is half written, or that an editor has just moved aside, must not
// be shown broken or missing. So a single file that comes to say less than it
// said is doubted: it stays as it was and is looked at again a moment later. What
// is still broken then is held: its errors are shown, over the last version
// without them.
type folder struct {
	ctx     context.Context // once it has ended nothing more is read
	dir     string
	files   fs.FS
	root    fs.FileInfo // of the folder that files reads
	journal *journal.Journal
	seen    map[string]fileStamp         // every file of the journal when it was last read
	held    map[string]*journal.Document // the broken version of what is shown without its errors
	doubted map[string]suspicion
}

// fileStamp tells two versions of a file apart without reading it.
type fileStamp struct {
	size  int64
	saved time.Time
	mode  fs.FileMode
}

func fileStampOf(info fs.FileInfo) fileStamp {
	return fileStamp{info.Size(), info.ModTime(), info.Mode()}
}

// changes is what came of reading again.
type changes struct {
	any   bool     // the journal is another
	names []string // of all that changed, by path
}

func openFolder(ctx context.Context, dir string) (*folder, error) {
	f := &folder{ctx: ctx, dir: dir, held: map[string]*journal.Document{}, doubted: map[string]suspicion{}}
	if err := f.open(); err != nil {
		return nil, err
	}
	f.journal = journal.Read(f.files, journal.Options{})
	f.seen = f.stamps(f.listed())
	return f, nil
}

// open opens the folder, again where another has come in its place.
func (f *folder) open() error {
	info, err := os.Stat(f.dir)
	if err != nil {
		return err
	}
	if f.root != nil && os.SameFile(info, f.root) {
		return nil
	}
	files, err := journal.RootUntil(f.ctx, f.dir)
	if err != nil {
		return err
	}
	f.files, f.root = files, info
	return nil
}

// listed is every file that the journal knows.
func (f *folder) listed() []string {
	var names []string
	for _, d := range f.journal.Documents() {
		names = append(names, d.File)
	}
	for _, other := range f.journal.Files {
		names = append(names, other.Name)
	}
	return names
}

func (f *folder) stamps(names []string) map[string]fileStamp {
	all := make(map[string]fileStamp, len(names))
	for _, name := range names {
		if info, err := fs.Lstat(f.files, name); err == nil {
			all[name] = fileStampOf(info)
		}
	}
	return all
}

// read looks at what was saved, by path in the journal; a name "" stands for
// anything.
func (f *folder) read(names []string, now time.Time) (changes, error) {
	for name, s := range f.doubted {
		if s.over(now) {
			names = append(names, name)
		}
	}
	if slices.ContainsFunc(names, f.unclear) {
		return f.readAll(now)
	}
	slices.Sort(names)
	return f.readSome(slices.Compact(names), nil, now), nil
}

// unclear tells a name that says too little of what was saved: a folder, a link,
// a name that a known file has in other letters, which some disks take for the
// same.
func (f *folder) unclear(name string) bool {
	if name == "" {
		return true
	}
	if journal.Ignored(name, f.journal.Settings) {
		return false
	}
	info, err := fs.Lstat(f.files, name)
	if err != nil {
		if !errors.Is(err, fs.ErrNotExist) {
			return true
		}
		return f.anyBelow(name)
	}
	_, known := f.seen[name]
	return !info.Mode().IsRegular() || !known && f.inOtherLetters(name)
}

// anyBelow tells that a name that is gone was a folder with files of the journal.
func (f *folder) anyBelow(name string) bool {
	if _, file := f.seen[name]; file {
		return false
	}
	for known := range f.seen {
		if strings.HasPrefix(known, name+"/") {
			return true
		}
	}
	return false
}

func (f *folder) inOtherLetters(name string) bool {
	for known := range f.seen {
		if len(known) == len(name) && strings.EqualFold(known, name) {
			return true
		}
	}
	return false
}

// readAll looks at every file, and reads those that are others.
func (f *folder) readAll(now time.Time) (changes, error) {
	if err := f.open(); err != nil {
		return changes{}, err
	}
	listing := journal.Look(f.files, f.journal.Settings)
	present := map[string]bool{}
	var names []string
	look := func(name string) {
		present[name] = true
		info, err := fs.Lstat(f.files, name)
		if old, known := f.seen[name]; err != nil || !known || fileStampOf(info) != old {
			names = append(names, name)
		}
	}
	for _, name := range listing.Documents {
		look(name)
	}
	for _, other := range listing.Files {
		look(other.Name)
	}
	for name := range f.seen {
		if !present[name] {
			names = append(names, name)
		}
	}
	for name := range f.doubted {
		names = append(names, name)
	}
	slices.Sort(names)
	return f.readSome(slices.Compact(names), &listing, now), nil
}

// readSome reads the files of these names. The listing, nil where nobody looked,
// is what the folder holds.
func (f *folder) readSome(names []string, listing *journal.Listing, now time.Time) changes {
	before := f.journal
	var touched []string
	documents := map[string]*journal.Document{} // nil for one that is gone
	for _, name := range names {
		if journal.Ignored(name, f.journal.Settings) {
			continue
		}
		if !journal.IsMarkdown(name) {
			if f.touch(name) {
				touched = append(touched, name)
			}
			continue
		}
		f.load(name, documents)
	}
	for _, name := range touched {
		for _, reader := range f.journal.ReadersOf(name) {
			f.load(reader, documents)
		}
	}
	names = append(f.accept(documents, now), touched...)
	if listing != nil {
		f.journal = f.journal.Listed(*listing)
	}
	if f.journal.Settings.Front != before.Settings.Front || f.journal.Settings.File != before.Settings.File {
		f.rereadAll()
	}
	slices.Sort(names)
	other := !slices.Equal(f.journal.Files, before.Files) || !slices.Equal(f.journal.Errors, before.Errors)
	return changes{any: len(names) > 0 || other, names: slices.Compact(names)}
}

// touch notes a file that is not Markdown; it tells whether that changed.
func (f *folder) touch(name string) bool {
	info, err := fs.Lstat(f.files, name)
	old, known := f.seen[name]
	switch {
	case err != nil && (!known || !errors.Is(err, fs.ErrNotExist)):
		return false // came and went, as an editor's own files do, or cannot be seen now
	case err != nil:
		delete(f.seen, name)
		f.journal = f.journal.Without(name)
		return true
	case known && fileStampOf(info) == old:
		return false
	}
	f.seen[name] = fileStampOf(info)
	f.journal = f.journal.WithFile(journal.File{Name: name, Size: info.Size(), Saved: info.ModTime()})
	return true
}

// load reads a document, nil where it is gone, unless it is the one that is
// shown.
func (f *folder) load(name string, into map[string]*journal.Document) {
	info, err := fs.Lstat(f.files, name)
	shown := f.journal.Document(name)
	if errors.Is(err, fs.ErrNotExist) {
		delete(f.seen, name)
		if shown != nil {
			into[name] = nil
		}
		return
	}
	d := journal.ReadAgain(f.files, name, f.journal.Settings, shown)
	if d.Withheld() && !f.isThere(name) { // it went while it was read
		into[name] = nil
		return
	}
	if err == nil {
		f.seen[name] = fileStampOf(info)
	}
	into[name] = d
}

func (f *folder) isThere(name string) bool {
	_, err := fs.Lstat(f.files, name)
	return !errors.Is(err, fs.ErrNotExist)
}

// accept puts into the journal what was read, but for what is doubted or held,
// and names what changed on the pages by that.
func (f *folder) accept(documents map[string]*journal.Document, now time.Time) (changed []string) {
	var with []*journal.Document
	var without []string
	for _, name := range slices.Sorted(maps.Keys(documents)) {
		d, shown := documents[name], f.journal.Document(name)
		switch verdict := f.judge(name, d, shown, documents, now); {
		case verdict == doubtIt:
		case verdict == holdIt:
			if old := f.held[name]; old == nil || old.Hash != d.Hash {
				f.held[name] = d
				changed = append(changed, name)
			}
		case d == nil:
			delete(f.held, name)
			without = append(without, name)
		default:
			mended := f.held[name] != nil
			delete(f.held, name)
			if shown == nil || shown.Hash != d.Hash || !sameLog(shown, d) || !slices.Equal(shown.Errors, d.Errors) {
				with = append(with, d)
			} else if mended {
				changed = append(changed, name)
			}
		}
	}
	for _, d := range with {
		changed = append(changed, d.File)
	}
	if len(with) > 0 {
		f.journal = f.journal.With(with...)
	}
	if len(without) > 0 {
		f.journal = f.journal.Without(without...)
	}
	return append(changed, without...)
}

func sameLog(a, b *journal.Document) bool {
	if a.Gyle == nil || b.Gyle == nil || a.Gyle.Log == nil || b.Gyle.Log == nil {
		return (a.Gyle == nil || a.Gyle.Log == nil) == (b.Gyle == nil || b.Gyle.Log == nil)
	}
	return a.Gyle.Log.Hash == b.Gyle.Log.Hash
}

// rereadAll reads everything by other settings; what is held or doubted stays so.
func (f *folder) rereadAll() {
	fresh := journal.Read(f.files, journal.Options{})
	if len(f.held) > 0 || len(f.doubted) > 0 {
		var keep []*journal.Document
		for name := range f.held {
			if d := f.journal.Document(name); d != nil {
				keep = append(keep, d)
			}
		}
		for name := range f.doubted {
			if d := f.journal.Document(name); d != nil && f.held[name] == nil {
				keep = append(keep, d)
			}
		}
		fresh = fresh.With(keep...)
	}
	f.journal = fresh
	f.seen = f.stamps(f.listed())
}

// broken are the errors of all that is held, by place.
func (f *folder) broken() []notice.Notice {
	var all []notice.Notice
	for _, d := range f.held {
		all = append(all, d.Errors...)
	}
	slices.SortStableFunc(all, notice.Compare)
	return all
}
