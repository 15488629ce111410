package journal

import (
	"io/fs"
	"slices"
	"strings"

	"gylebook/internal/notice"
)

// A journal that is written in changes by one file at a time, and most often by
// the words of a story. What is in this file makes the next journal of the last
// one, so that only what was saved is read again.

// Listing is what a journal's folder holds, before anything is read.
type Listing struct {
	Documents []string // Markdown files, by path
	Files     []File   // everything else, by path
	Errors    []notice.Notice
}

// Look lists what there is in fsys; the settings (nil for none) say what is
// passed over.
func Look(fsys fs.FS, settings *Settings) Listing {
	w := folderWalk{settings: settings}
	w.folder(fsys)
	return Listing{Documents: w.names, Files: w.files, Errors: w.errors}
}

// Documents are all Markdown files of the journal, by path. They are not to be
// changed.
func (j *Journal) Documents() []*Document { return j.documents }

// With is the journal with these documents in place of those of the same
// files, or added to it. Where the settings themselves changed, Read again:
// what they say decides how every other file is read.
func (j *Journal) With(docs ...*Document) *Journal {
	next, cards, stay := slices.Clone(j.documents), false, true
	for _, d := range docs {
		i, found := slices.BinarySearchFunc(next, d.File,
			func(a *Document, file string) int { return strings.Compare(a.File, file) })
		if found {
			cards = cards || next[i].Card != nil
			stay = stay && standsIn(d, next[i])
			next[i] = d
		} else {
			stay = false
			next = slices.Insert(next, i, d)
		}
		cards = cards || d.Card != nil
	}
	if stay && !cards {
		return j.replaced(next, docs)
	}
	return assemble(next, j.Files, j.walking, j.sameLarder(cards))
}

// standsIn tells that a document takes exactly the place of another in all that
// a journal is assembled from.
func standsIn(d, old *Document) bool {
	switch {
	case !slices.Equal(d.Errors, old.Errors):
		return false
	case d.Gyle != nil:
		return old.Gyle != nil && d.Gyle.Number == old.Gyle.Number
	case d.Note != nil:
		return old.Note != nil
	case d.Settings != nil:
		return old.Settings != nil && d.Settings.Title == old.Settings.Title
	}
	return d.Card == nil && old.Withheld()
}

// replaced is the journal with documents that each stand in for one of it: the
// lists are copied, nothing is sorted or checked anew.
func (j *Journal) replaced(documents, docs []*Document) *Journal {
	next := *j
	next.documents, next.Gyles, next.Notes = documents, slices.Clone(j.Gyles), slices.Clone(j.Notes)
	for _, d := range docs {
		switch old := j.Document(d.File); {
		case d.Gyle != nil:
			next.Gyles[slices.Index(j.Gyles, old.Gyle)] = d.Gyle
		case d.Note != nil:
			next.Notes[slices.Index(j.Notes, old.Note)] = d.Note
		case d.Settings != nil && d.File == settingsFile:
			next.Settings = d.Settings
		}
	}
	return &next
}

// Without is the journal without these files.
func (j *Journal) Without(files ...string) *Journal {
	cards := false
	next := make([]*Document, 0, len(j.documents))
	for _, d := range j.documents {
		if !slices.Contains(files, d.File) {
			next = append(next, d)
		} else if d.Card != nil {
			cards = true
		}
	}
	rest := slices.DeleteFunc(slices.Clone(j.Files), func(f File) bool { return slices.Contains(files, f.Name) })
	return assemble(next, rest, j.walking, j.sameLarder(cards))
}

// WithFile is the journal with a file that is not Markdown added or changed.
func (j *Journal) WithFile(file File) *Journal {
	next := *j
	next.Files = slices.DeleteFunc(slices.Clone(j.Files), func(f File) bool { return f.Name == file.Name })
	i, _ := slices.BinarySearchFunc(next.Files, file.Name,
		func(f File, name string) int { return strings.Compare(f.Name, name) })
	next.Files = slices.Insert(next.Files, i, file)
	return &next
}

// Listed is the journal with the other files and the folder's errors of a
// listing; its documents stay.
func (j *Journal) Listed(l Listing) *Journal {
	if slices.Equal(j.walking, l.Errors) {
		next := *j
		next.Files = l.Files
		return &next
	}
	return assemble(slices.Clone(j.documents), l.Files, l.Errors, j.Larder)
}

// sameLarder is the larder, or nil where cards changed and it must be stocked
// anew.
func (j *Journal) sameLarder(cards bool) *Larder {
	if cards {
		return nil
	}
	return j.Larder
}
