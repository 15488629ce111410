package live

import (
	"fmt"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/site"
)

// build reads the journal and makes an edition of it, which takes from the last
// one (nil for none) the stories that have not changed. No page is rendered yet.
func build(name string, o Options, photos *album, last *edition) (*edition, error) {
	files, err := journal.Root(o.Journal)
	if err != nil {
		return nil, fmt.Errorf("opening the journal: %w", err)
	}
	j := journal.Read(files, journal.Options{})
	zone := j.Settings.Zone
	if zone == nil {
		zone = time.UTC
	}
	b := book.Open(j, o.Now().In(zone))
	wanted := site.Options{Templates: o.Templates, Version: o.Version, Live: true, Files: files, Photos: photos}
	if last != nil {
		wanted.Previous = last.site
	}
	s, err := site.Build(b, wanted)
	if err != nil {
		return nil, fmt.Errorf("building the site: %w", err)
	}
	return &edition{name: name, book: b, site: s, pages: map[string]*page{}}, nil
}
