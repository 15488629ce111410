package publish

import (
	"io/fs"
	"os"
	"path"
	"sync"
)

// walk goes through the site, several folders at a time.
type walk struct {
	ground  *ground
	site    *os.Root
	claims  *claims
	folders map[string]bool // around what is listed

	mu                sync.Mutex // guards what follows
	survey            *survey
	strangers, edited []string
}

// verdict is what is to be done about an entry of the site.
type verdict int

const (
	pass    verdict = iota // it is no business of ours
	enter                  // a folder with something listed or kept in it
	compare                // a listed file
	refuse                 // a stranger
)

// folder looks a folder through and gives the folders in it to go on with.
func (w *walk) folder(dir string) (deeper []string, err error) {
	here, err := w.site.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer here.Close()
	entries, err := fs.ReadDir(here.FS(), ".")
	if err != nil {
		return nil, err
	}
	for _, entry := range entries {
		p := path.Join(dir, entry.Name())
		switch w.judge(p, entry) {
		case enter:
			deeper = append(deeper, p)
		case compare:
			if err := w.compare(here, entry.Name(), p); err != nil {
				return nil, err
			}
		case refuse:
			w.refuse(p, entry)
		}
	}
	return deeper, nil
}

func (w *walk) judge(p string, entry fs.DirEntry) verdict {
	use, claimed := w.claims.of(p)
	_, listed := w.survey.listed[p]
	switch {
	case claimed && use == kept:
		w.keeps(&w.survey.kept, p)
		return pass
	case p == insideName, p == listName && entry.Type().IsRegular():
		return pass
	case entry.IsDir() && w.folders[p]:
		return enter
	case entry.IsDir() && claimed:
		w.keeps(&w.survey.keptFolders, p)
		return enter
	case listed && entry.Type().IsRegular():
		return compare
	default:
		return refuse
	}
}

func (w *walk) keeps(list *[]string, p string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	*list = append(*list, p)
}

// compare tells whether a listed file still has the listed bytes.
func (w *walk) compare(here *os.Root, name, p string) error {
	is, err := w.ground.sumOf(here, name)
	if err != nil {
		return err
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if is == w.survey.listed[p] {
		w.survey.present[p] = is
	} else {
		w.edited = append(w.edited, p)
	}
	return nil
}

func (w *walk) refuse(p string, entry fs.DirEntry) {
	if entry.IsDir() {
		p += "/"
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.strangers = append(w.strangers, p)
}
