package live

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/parallel"
	"gylebook/internal/site"
	"gylebook/internal/store"
)

// bookServer is where the book lies open: the last good build, and who is to be told
// of the next one.
type bookServer struct {
	options  Options
	folder   *folder
	last     atomic.Pointer[edition]
	news     *news
	kept     *store.Store
	outcomes chan buildOutcome // to be reported, in the order of the builds
}

// clockStep is how long a book's clock may stand while nothing that an entry
// dates has come: so that a save works out what was saved, and not all beer in
// hand once more.
const clockStep = 15 * time.Minute

// open makes the first edition.
func (s *bookServer) open(ctx context.Context) error {
	start := time.Now()
	var err error
	if s.folder, err = openFolder(ctx, s.options.Journal); err != nil {
		return fmt.Errorf("opening the journal: %w", err)
	}
	made, err := s.build(nil)
	if err != nil {
		return err
	}
	s.last.Store(made)
	s.outcomes <- buildOutcome{Rebuild{First: true, Took: time.Since(start)}, made}
	return nil
}

// rebuild reads what was saved, makes an edition of it and tells the open pages
// that are others now. An edition that cannot be made leaves the last one
// standing. Where nothing has changed nothing is built.
func (s *bookServer) rebuild(saved []string) {
	start := time.Now()
	names, templates := s.relative(saved)
	changed, err := s.folder.read(names, start)
	if err != nil {
		s.outcomes <- buildOutcome{Rebuild{Err: fmt.Errorf("reading the journal: %w", err)}, nil}
		return
	}
	old := s.last.Load()
	if !changed.any && !templates && !s.clockMoved(old.book) {
		return
	}
	made, err := s.build(old)
	report := Rebuild{Changed: changed.names, Err: err}
	if templates {
		report.Changed = append(report.Changed, "templates")
	}
	if err == nil {
		s.last.Store(made)
		report.Told = s.tell(old, made)
		report.Took = time.Since(start)
	}
	s.outcomes <- buildOutcome{report, made}
}

// buildOutcome is what came of a build, and the edition, nil where it failed.
type buildOutcome struct {
	Rebuild
	made *edition
}

// behind is how many builds may wait to be reported; those before are reported
// together with the next.
const behind = 8

// reporting reports builds until ctx ends. To find out what is new in one may take
// longer than to build it, so nobody waits for that.
func (s *bookServer) reporting(ctx context.Context) {
	var last *edition // the one reported last
	for {
		select {
		case <-ctx.Done():
			return
		case o := <-s.outcomes:
			for o.made != nil && len(s.outcomes) > behind {
				o = o.before(<-s.outcomes)
			}
			if o.made != nil {
				o.compare(last, o.made)
				last = o.made
			}
			if ctx.Err() == nil {
				s.options.Report(o.Rebuild)
			}
		}
	}
}

// before is this buildOutcome and the next one as one.
func (o buildOutcome) before(next buildOutcome) buildOutcome {
	next.Changed = slices.Compact(slices.Sorted(slices.Values(append(o.Changed, next.Changed...))))
	next.Took, next.First = o.Took+next.Took, o.First
	return next
}

// build makes an edition of the journal as it was last read, at the clock of the old
// one (nil for none) while that may stand. No page is rendered yet.
func (s *bookServer) build(old *edition) (made *edition, err error) {
	defer func() {
		if thrown := recover(); thrown != nil {
			made, err = nil, fmt.Errorf("building the site: a fault of this program: %v", thrown)
		}
	}()
	j := s.folder.journal
	zone := j.Settings.Zone
	if zone == nil {
		zone = time.UTC
	}
	s.kept.Turn()
	now := s.options.Now().In(zone)
	made = &edition{pages: map[string]*page{}, broken: s.folder.broken()}
	if old != nil && !s.clockMoved(old.book) {
		made.book = book.OpenWith(s.kept, j, old.book.Now)
	}
	if made.book == nil || !made.book.StillAt(now) {
		made.book = book.OpenWith(s.kept, j, now)
	}
	made.site, err = site.Build(made.book, site.Options{
		Templates: s.options.Templates, Version: s.options.Version, Live: true, Files: s.folder.files, Store: s.kept,
		Broken: made.broken,
	})
	if err != nil {
		return nil, fmt.Errorf("building the site: %w", err)
	}
	made.setDress()
	return made, nil
}

// clockMoved tells that a book's clock must be set anew.
func (s *bookServer) clockMoved(b *book.Book) bool {
	now := s.options.Now()
	return !b.StillAt(now) || now.Sub(b.Now) >= clockStep
}

// tell renders every page that is open somewhere, the quickest first, and tells
// those who show it where it is another. It counts the pages that are.
func (s *bookServer) tell(old, made *edition) int {
	var told atomic.Int64
	paths := old.soonest(s.news.paths())
	parallel.Each(len(paths), 0, func(i int) {
		if s.news.tell(paths[i], made.newsOf(paths[i])) > 0 {
			told.Add(1)
		}
	})
	return int(told.Load())
}

// relative names what was saved as the journal does. Of what lies outside it only
// that something there, a template, was saved is known.
func (s *bookServer) relative(names []string) (inside []string, templates bool) {
	for _, name := range names {
		if name == "" {
			inside, templates = append(inside, ""), templates || s.options.TemplatesDir != ""
			continue
		}
		rel, err := filepath.Rel(s.options.Journal, name)
		switch {
		case err != nil || rel == ".." || strings.HasPrefix(rel, ".."+string(filepath.Separator)):
			templates = true
		case rel == ".":
			inside = append(inside, "")
		default:
			inside = append(inside, filepath.ToSlash(rel))
		}
	}
	return inside, templates
}
