package live

import (
	"fmt"
	"path/filepath"
	"strings"
	"sync/atomic"
	"time"
)

// desk is where the book lies open: the last good build, and who is to be told
// of the next one.
type desk struct {
	options Options
	begun   time.Time // so that editions of another run have other names
	builds  int
	last    atomic.Pointer[edition]
	news    *news
	photos  *album
}

// rebuild makes an edition, puts it in the place of the last one and tells the
// open pages. An edition that cannot be made leaves the last one standing.
func (d *desk) rebuild(changed []string) error {
	start := time.Now()
	old := d.last.Load()
	d.builds++
	made, err := build(fmt.Sprintf("%x-%d", d.begun.UnixNano(), d.builds), d.options, d.photos, old)
	report := Rebuild{Changed: changed, Err: err, First: old == nil}
	if err == nil {
		d.last.Store(made)
		d.news.tell(made.name)
		report.Took = time.Since(start)
		report.compare(old, made)
	}
	d.options.Report(report)
	return err
}

// relative names what was saved as the journal does; what lies outside it keeps
// its full name.
func (d *desk) relative(names []string) []string {
	short := make([]string, 0, len(names))
	for _, name := range names {
		if rel, err := filepath.Rel(d.options.Journal, name); err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
			name = filepath.ToSlash(rel)
		}
		short = append(short, name)
	}
	return short
}
