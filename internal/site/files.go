package site

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"gylebook/internal/site/markdown"
)

// plainFiles are the extensions of files that are copied into the site where an
// entry links to them. A browser shows or saves them and runs nothing; a web
// page, a script or an SVG would run in the reader's browser as if it were the
// site, and a picture of another kind keeps its metadata.
var plainFiles = []string{
	".csv", ".tsv", ".txt", ".log", ".json", ".yaml", ".yml", ".toml", ".pdf", ".ods", ".odt", ".xlsx", ".docx", ".gpx",
	".ics", ".zip", ".gz", ".mp3", ".ogg", ".mp4", ".webm",
}

// largestFile is the most that is copied.
const largestFile = 100 << 20

// toFile is a link to a file of the journal, copied into the site.
func (r *resolver) toFile(name, destination string, size int64) markdown.Target {
	switch {
	case !slices.Contains(plainFiles, strings.ToLower(path.Ext(name))):
		return refused(
			destination, "files of the kind "+path.Ext(name)+" are not published",
			"It could run something in a reader's browser, or tell more than it shows.",
		)
	case size > largestFile:
		return refused(
			destination, fmt.Sprintf("%s has more than %d MB and is not published", name, largestFile>>20), "",
		)
	case r.site.options.Files == nil:
		return refused(destination, "the journal's files are not at hand", "")
	}
	return r.within(r.site.filePath(name), "", path.Base(name))
}

func refused(destination, says, why string) markdown.Target {
	return markdown.Target{
		Text:  destination,
		Fault: markdown.Fault{ID: "file-not-published", Says: says, Why: why, Do: "Link to a copy in another form."},
	}
}

var _ = declare(pageKind{path: "files/*", unlisted: true, pages: (*Site).filePages})

// filePages are the copies of all files that stories link to.
func (s *Site) filePages(string) []Page {
	escaped := make(map[string]string, len(s.files))
	for name := range s.files {
		escaped[markdown.Root+escapePath(s.filePath(name))] = name
	}
	linked := map[string]bool{}
	for _, st := range s.byFile {
		for _, l := range s.render(st).links {
			if name, ok := escaped[l.Href]; ok {
				linked[name] = true
			}
		}
	}
	var pages []Page
	for name := range linked {
		pages = append(pages, Page{s.filePath(name), func() ([]byte, error) {
			data, err := fs.ReadFile(s.options.Files, name)
			if err != nil {
				return nil, fmt.Errorf("copying a file of the journal: %w", err)
			}
			return data, nil
		}})
	}
	return pages
}
