package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/agnivade/levenshtein"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// locate is the journal that arguments speak of, and the entries among them, as
// paths in the journal or as typed. An argument is the journal's folder, a
// folder or file in it, or the number of a gyle.
func (c *call) locate(args []string) (dir string, names []string, err error) {
	dir = c.Journal
	for _, arg := range args {
		around, name, err := place(arg)
		switch {
		case err != nil:
			return "", nil, err
		case around != "" && dir == "":
			dir = around
		case around != "" && !sameFolder(dir, around):
			return "", nil, fmt.Errorf("finding the entries: %s is in another journal than %s", arg, dir)
		}
		if name != "" {
			names = append(names, name)
		}
	}
	if dir == "" || dir == c.Journal {
		dir, err = c.findJournal("")
	}
	return dir, names, err
}

// place is the journal around what an argument names on disk, and its path in
// there. A number, or what is not there, is a name to look up in the journal.
func place(arg string) (dir, name string, err error) {
	if _, err := strconv.Atoi(arg); err == nil {
		return "", arg, nil
	}
	found, err := os.Stat(arg)
	if err != nil {
		return "", filepath.ToSlash(arg), nil
	}
	full, err := filepath.Abs(arg)
	if err != nil {
		return "", "", fmt.Errorf("finding %s: %w", arg, err)
	}
	if found.IsDir() && isJournal(full) {
		return arg, "", nil
	}
	around := journalAround(filepath.Dir(full))
	if around == "" {
		return "", "", notAJournal(arg)
	}
	rel, err := filepath.Rel(around, full)
	if err != nil {
		return "", "", fmt.Errorf("finding %s: %w", arg, err)
	}
	name = filepath.ToSlash(rel)
	if found.IsDir() {
		name += "/"
	}
	return around, name, nil
}

func sameFolder(a, b string) bool {
	left, err := os.Stat(a)
	if err != nil {
		return false
	}
	right, err := os.Stat(b)
	return err == nil && os.SameFile(left, right)
}

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

// only is the notices of the named entries: those that stand in their files, and
// for a gyle those that belong to it wherever they point.
func only(o *opened, b *book.Book, all []notice.Notice, names []string) ([]notice.Notice, error) {
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
	return some, nil
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
