package site

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"gylebook/internal/book"
	"gylebook/internal/notice"
)

// A journal goes from one machine to the next, and its site to servers of any kind. Not
// every name can: some systems take two names for one, and some refuse a name.

// folded is a name as the systems see it that tell neither capitals nor compositions apart.
func folded(name string) string { return strings.ToLower(strings.ToUpper(norm.NFC.String(name))) }

// spellings is how every file of the journal, and every folder around one, is spelt, by what
// is the same on some systems.
type spellings map[string][]string

func (s *Site) collectSpellings() spellings {
	all := spellings{}
	add := func(name string) {
		for ; name != "."; name = path.Dir(name) {
			if key := folded(name); !slices.Contains(all[key], name) {
				all[key] = append(all[key], name)
			} else {
				return // and so are those around it
			}
		}
	}
	for _, d := range s.book.Journal.Documents() {
		add(d.File)
	}
	for _, f := range s.book.Journal.Files {
		add(f.Name)
	}
	return all
}

// refusedSigns are those that Windows has in no name.
const refusedSigns = `<>:"|?*\`

// refusedName says why some system refuses the last part of a path, "" where none does.
func refusedName(name string) string {
	base := path.Base(name)
	stem, _, _ := strings.Cut(strings.ToLower(base), ".")
	switch {
	case book.IsDevice(strings.TrimRight(stem, " ")):
		return "Windows keeps that name to itself"
	case strings.HasSuffix(base, ".") || strings.HasSuffix(base, " "):
		return "Windows takes the dot or space at its end away"
	case strings.ContainsAny(base, refusedSigns) || strings.ContainsFunc(base, unicode.IsControl):
		return "Windows has no " + refusedSigns + " or control character in a name"
	}
	return ""
}

// filePath is where a copy of a file of the journal is on the site: under its own name,
// where every system takes that for the name of this one file. A part that is not so is
// told apart by a piece of a hash.
func (s *Site) filePath(name string) string {
	parts := strings.Split(name, "/")
	for i, part := range parts {
		here := strings.Join(parts[:i+1], "/")
		if refusedName(here) == "" && len(s.spelt()[folded(here)]) < 2 && norm.NFC.IsNormalString(part) {
			continue
		}
		extension := path.Ext(part)
		if refusedName(extension) != "" {
			extension = ""
		}
		stem := plainSlug(norm.NFC.String(strings.TrimSuffix(part, extension)))
		parts[i] = fmt.Sprintf("%s-%s%s", stem, book.Digest(here, 6), strings.ToLower(extension))
	}
	return "files/" + strings.Join(parts, "/")
}

// nameNotices are names that would be the same, or refused, on another system.
func (s *Site) nameNotices() []notice.Notice {
	var all []notice.Notice
	add := func(name, id, says, why string) {
		all = append(all, notice.Notice{
			Place: notice.Place{File: name}, Severity: notice.Look, ID: id, Says: says, Why: why,
			Do: "Give it another name.", Source: "common practice, no source",
		})
	}
	for _, names := range s.spelt() {
		slices.Sort(names)
		for _, name := range names[1:] {
			add(name, "name-alike", "its name differs from that of "+names[0]+" only in capitals or in how accents are put together",
				"macOS and Windows take the two for one, and one of them would be lost on the way there.")
		}
		for _, name := range names {
			if why := refusedName(name); why != "" {
				add(name, "name-refused", "its name cannot be had on every system: "+why, "The journal cannot be copied there whole.")
			}
		}
	}
	return all
}
