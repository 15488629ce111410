package journal

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"gylebook/internal/notice"
)

// Journal is a whole journal, read. It is never changed once made: With and
// Without make another, which shares what did not change.
type Journal struct {
	// Settings is never nil: a journal without any has the defaults.
	Settings *Settings
	Gyles    []*Gyle // by number, then by file
	Cards    []*Card // the brewer's own, by file
	Notes    []*Note // by file
	// Withheld is the Markdown files that must not be published, by path.
	Withheld []string
	// Files is everything else in the folder, so that links and pictures can be
	// checked, by path.
	Files []File
	// Errors is all that could not be read, in the order of place.
	Errors []notice.Notice
	// Larder answers for every card, the brewer's own and the built-in ones.
	Larder *Larder

	documents []*Document     // by path
	walking   []notice.Notice // errors of the folder itself
}

// File is a file of the journal that is not Markdown.
type File struct {
	Name  string // slash path relative to the journal
	Size  int64  // in bytes
	Saved time.Time
}

// settingsFile is where the settings stand, and nowhere else: what they say
// decides how all the other files are read.
const settingsFile = "index.md"

// assemble makes a journal of its documents, which it sorts.
func assemble(documents []*Document, files []File, walking []notice.Notice, larder *Larder) *Journal {
	j := &Journal{Settings: defaultSettings(), Files: files, documents: documents, walking: walking}
	slices.SortFunc(j.documents, func(a, b *Document) int { return strings.Compare(a.File, b.File) })
	j.Errors = slices.Clone(walking)
	for _, d := range j.documents {
		j.admit(d)
	}
	if j.Settings.File == "" {
		j.Errors = append(j.Errors, noSettings())
	}
	slices.SortStableFunc(j.Gyles, func(a, b *Gyle) int { return cmp.Compare(a.Number.N, b.Number.N) })
	j.Errors = append(j.Errors, takenNumbers(j.Gyles)...)
	if j.Larder = larder; larder == nil {
		j.Larder = NewLarder(j.Cards)
	}
	j.Errors = append(j.Errors, j.Larder.taken...)
	slices.SortStableFunc(j.Errors, notice.Compare)
	j.Errors = slices.Compact(j.Errors) // two entries may name one logger's file
	return j
}

// admit puts a document into its list.
func (j *Journal) admit(d *Document) {
	j.Errors = append(j.Errors, d.Errors...)
	switch {
	case d.Gyle != nil:
		j.Gyles = append(j.Gyles, d.Gyle)
	case d.Card != nil:
		j.Cards = append(j.Cards, d.Card)
	case d.Note != nil:
		j.Notes = append(j.Notes, d.Note)
	case d.Settings != nil && d.File == settingsFile:
		j.Settings = d.Settings
	case d.Settings != nil:
		j.Withheld = append(j.Withheld, d.File)
		j.Errors = append(j.Errors, moreSettings(d.Settings))
	default:
		j.Withheld = append(j.Withheld, d.File)
	}
}

func noSettings() notice.Notice {
	return notice.Notice{
		Place: notice.Place{File: settingsFile}, Severity: notice.Unreadable, ID: idNoSettings,
		Says: "the journal has no settings: expected " + settingsFile + " with a journal key",
		Why:  "Times are taken as UTC, and the site has no title.",
		Do:   "Write " + settingsFile + " with journal: and its title between two lines of ---.",
	}
}

func moreSettings(s *Settings) notice.Notice {
	return notice.Notice{
		Place: s.Title.Place, Severity: notice.Unreadable, ID: idMoreSettings, Of: "journal",
		Says: "settings outside " + settingsFile + ": expected all of them there",
		Why:  "This file is not used.", Do: "Move them to " + settingsFile + ", and leave the journal key out here.",
	}
}

// takenNumbers reports gyles, sorted by number, that share one.
func takenNumbers(gyles []*Gyle) []notice.Notice {
	var errors []notice.Notice
	for i, g := range gyles {
		other := (*Gyle)(nil)
		switch {
		case g.Number.N == 0:
		case i > 0 && gyles[i-1].Number.N == g.Number.N:
			other = gyles[i-1]
		case i+1 < len(gyles) && gyles[i+1].Number.N == g.Number.N:
			other = gyles[i+1]
		}
		if other == nil {
			continue
		}
		errors = append(errors, notice.Notice{
			Place: g.Number.Place, Severity: notice.Unreadable, ID: idNumberTaken, Of: "gyle",
			Says: fmt.Sprintf("gyle %d is also in %s: expected a number of its own", g.Number.N, other.File),
			Why:  "What refers to the number cannot tell which is meant.", Do: "Give one of them another number.",
			Line: fmt.Sprintf("gyle: %d", g.Number.N),
		})
	}
	return errors
}

// Document is the document of a path, nil for none.
func (j *Journal) Document(file string) *Document {
	if i, ok := j.index(file); ok {
		return j.documents[i]
	}
	return nil
}

func (j *Journal) index(file string) (int, bool) {
	return slices.BinarySearchFunc(j.documents, file,
		func(d *Document, file string) int { return strings.Compare(d.File, file) })
}

// Find is the gyle of a number ("14") or a file ("gyles/14-mild.md",
// "14-mild.md", "14-mild"), nil for none and for a short name that several
// files have.
func (j *Journal) Find(nameOrNumber string) *Gyle {
	if n, err := strconv.Atoi(nameOrNumber); err == nil {
		return j.Gyle(n)
	}
	name := strings.TrimPrefix(path.Clean(nameOrNumber), "./")
	if d := j.Document(name); d != nil && d.Gyle != nil {
		return d.Gyle
	}
	var found *Gyle
	for _, g := range j.Gyles {
		base := path.Base(g.File)
		if bare := strings.TrimSuffix(base, path.Ext(base)); name == base || name == bare ||
			name == strings.TrimSuffix(g.File, path.Ext(g.File)) {
			if found != nil {
				return nil
			}
			found = g
		}
	}
	return found
}

// Gyle is the gyle of a number, nil for none; of two with one number, the first
// by file.
func (j *Journal) Gyle(number int) *Gyle {
	i, ok := slices.BinarySearchFunc(j.Gyles, number, func(g *Gyle, n int) int { return cmp.Compare(g.Number.N, n) })
	if !ok || number == 0 {
		return nil
	}
	return j.Gyles[i]
}
