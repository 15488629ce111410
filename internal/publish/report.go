package publish

import "slices"

// A Report counts what a Commit did to the site.
type Report struct {
	Written   int // pages new or changed
	Unchanged int // pages that were there with the same bytes
	Removed   int // files deleted because the edition lacks them
	Kept      int // pages left out because Options.Keep covers them

	WrittenPaths, RemovedPaths, KeptPaths []string // sorted
}

func (e *Edition) report() Report {
	r := Report{
		WrittenPaths: e.changed.paths(),
		RemovedPaths: e.removed(),
		KeptPaths:    slices.Sorted(slices.Values(e.kept)),
	}
	r.Written, r.Removed, r.Kept = len(r.WrittenPaths), len(r.RemovedPaths), len(r.KeptPaths)
	r.Unchanged = len(e.pages) - r.Written
	return r
}

// removed gives the files of the old site that the edition lacks, sorted.
func (e *Edition) removed() []string {
	var paths []string
	for p := range e.old.present {
		if _, stays := e.pages[p]; !stays {
			paths = append(paths, p)
		}
	}
	slices.Sort(paths)
	return paths
}
