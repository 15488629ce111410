package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/agnivade/levenshtein"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// filesOf is the files that a name stands for: a folder's, a document's own, or
// those of every gyle of that number.
func (o *opened) filesOf(name string) ([]string, error) {
	var files []string
	if n, err := strconv.Atoi(name); err == nil {
		for _, g := range o.Gyles {
			if g.Number.N == n {
				files = append(files, g.File)
			}
		}
	} else if folder, is := strings.CutSuffix(name, "/"); is {
		for _, file := range o.documents() {
			if strings.HasPrefix(file, folder+"/") {
				files = append(files, file)
			}
		}
	} else if o.Document(name) != nil || o.hasFile(name) {
		files = []string{name}
	} else if g := o.Find(name); g != nil {
		files = []string{g.File}
	}
	if files == nil {
		return nil, o.noSuch(name)
	}
	return files, nil
}

// hasFile tells whether the journal has a file of that path that is no document:
// a picture, a table of readings.
func (o *opened) hasFile(name string) bool {
	return slices.ContainsFunc(o.Files, func(f journal.File) bool { return f.Name == name })
}

// documents is the path of every document in the journal.
func (o *opened) documents() []string {
	var files []string
	for _, g := range o.Gyles {
		files = append(files, g.File)
	}
	for _, card := range o.Cards {
		files = append(files, card.File)
	}
	for _, note := range o.Notes {
		files = append(files, note.File)
	}
	return append(files, o.Withheld...)
}

// noSuch says that there is no such entry, and what there is.
func (o *opened) noSuch(name string) error {
	if _, err := strconv.Atoi(name); err == nil {
		return fmt.Errorf("finding gyle %s: %s has none of that number%s", name, o.dir, o.numbers())
	}
	says := fmt.Sprintf("finding %s: it is no entry of the journal %s", name, o.dir)
	if near := nearestPath(name, o.documents()); near != "" {
		says += fmt.Sprintf("; did you mean %s?", near)
	}
	return fmt.Errorf("%s", says)
}

// numbers tells which gyles there are.
func (o *opened) numbers() string {
	if len(o.Gyles) == 0 {
		return "; it has no gyles yet"
	}
	var all []string
	for _, g := range o.Gyles {
		all = append(all, strconv.Itoa(g.Number.N))
	}
	if len(all) > 12 {
		return fmt.Sprintf("; it has %s, from %s to %s", count(len(all), "gyle", "gyles"), all[0], all[len(all)-1])
	}
	return "; it has " + strings.Join(all, ", ")
}

// nearestPath is the path whose file is named most like name, "" where none is
// close.
func nearestPath(name string, paths []string) string {
	base := stem(name)
	best, least := "", max(2, len(base)/3)+1
	for _, path := range paths {
		other := stem(path)
		if len(base) > 60 || len(other) > 60 {
			continue
		}
		if d := levenshtein.ComputeDistance(base, other); d < least {
			best, least = path, d
		}
	}
	return best
}

func stem(name string) string {
	name = filepath.Base(filepath.FromSlash(name))
	return strings.ToLower(strings.TrimSuffix(name, filepath.Ext(name)))
}

// wanted is the files that names stand for.
func (o *opened) wanted(names []string) (map[string]bool, error) {
	wanted := map[string]bool{}
	for _, name := range names {
		files, err := o.filesOf(name)
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			wanted[file] = true
		}
	}
	return wanted, nil
}

// only is the notices of the wanted files: those that stand in them, and for a
// gyle those that belong to it wherever they point.
func only(b *book.Book, all []notice.Notice, wanted map[string]bool) []notice.Notice {
	var some []notice.Notice
	for _, n := range all {
		if wanted[n.Place.File] {
			some = append(some, n)
		}
	}
	for _, g := range b.Gyles {
		for _, n := range g.Notices {
			if wanted[g.File] && !wanted[n.Place.File] {
				some = append(some, n)
			}
		}
	}
	slices.SortStableFunc(some, notice.Compare)
	return some
}

// theGyle is the one gyle that a name stands for.
func (o *opened) theGyle(name string) (*journal.Gyle, error) {
	files, err := o.filesOf(name)
	if err != nil {
		return nil, err
	}
	if len(files) > 1 {
		return nil, fmt.Errorf("finding %s: several files are meant: %s; name one of them", name, strings.Join(files, ", "))
	}
	d := o.Document(files[0])
	if d == nil || d.Gyle == nil {
		return nil, fmt.Errorf("finding %s: it is not the entry of a gyle", name)
	}
	return d.Gyle, nil
}
