package publish

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// A survey is what Begin found in the old site.
type survey struct {
	listed    list   // all that its list names and that is not kept now
	present   list   // those of them that are there, with the listed bytes
	listBytes []byte // the list as it stands

	kept        []string // what is there and kept, the outermost name of each
	keptFolders []string // folders of ours into which something kept may yet come
}

// A StrangersError says that the site holds what we did not write.
type StrangersError struct {
	Unlisted []string // files, and folders with a final slash, that our list does not name
	Edited   []string // files that it names, whose bytes are no longer ours
}

// Error names the first few strangers and tells the ways out.
func (e *StrangersError) Error() string {
	var says []string
	if len(e.Unlisted) > 0 {
		says = append(says, fmt.Sprintf("it holds what was not published here: %s; "+
			"name another folder, move them away, or list them under keep to leave them alone", few(e.Unlisted)))
	}
	if len(e.Edited) > 0 {
		says = append(says, fmt.Sprintf("it holds files that were edited after they were published: %s; "+
			"move the edits into the journal and delete these files, or list them under keep to leave them alone", few(e.Edited)))
	}
	return strings.Join(says, "; and ")
}

// few names at most five of the paths.
func few(paths []string) string {
	const most = 5
	if len(paths) <= most {
		return strings.Join(paths, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(paths[:most], ", "), len(paths)-most)
}

// survey looks the site over before an edition begins. It fails with a
// StrangersError where the site is not all ours or kept.
func (g *ground) survey(c *claims) (*survey, error) {
	s := &survey{listed: list{}, present: list{}}
	if !g.there {
		return s, nil
	}
	if err := s.readList(g, c); err != nil {
		return nil, err
	}
	site, err := g.root.OpenRoot(g.site)
	if err != nil {
		return nil, err
	}
	defer site.Close()
	w := &walk{ground: g, site: site, claims: c, folders: s.listed.folders(), survey: s}
	if err := each([]string{"."}, w.folder); err != nil {
		return nil, err
	}
	if len(w.strangers) > 0 || len(w.edited) > 0 {
		slices.Sort(w.strangers)
		slices.Sort(w.edited)
		return nil, &StrangersError{w.strangers, w.edited}
	}
	return s, nil
}

// readList takes the site's list, without what is kept now.
func (s *survey) readList(g *ground, c *claims) error {
	l, text, err := g.readList(g.inSite(listName))
	if err != nil {
		return fmt.Errorf("%w; if nothing but pages is in that folder, delete it whole", err)
	}
	s.listBytes = text
	for p, sum := range l {
		if !c.covers(p) {
			s.listed[p] = sum
		}
	}
	return nil
}

// readList reads a list; where there is none, it is empty.
func (g *ground) readList(name string) (list, []byte, error) {
	text, err := g.root.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return list{}, nil, nil
	}
	if err != nil {
		return nil, nil, err
	}
	l, err := parseList(text)
	if err != nil {
		return nil, nil, fmt.Errorf("reading the list %s: %w", g.full(name), err)
	}
	return l, text, nil
}

// covers tells whether p or a folder around it is kept.
func (c *claims) covers(p string) bool {
	for ; p != "."; p = path.Dir(p) {
		if use, ok := c.of(p); ok && use == kept {
			return true
		}
	}
	return false
}

// folders gives the folders around the listed files.
func (l list) folders() map[string]bool {
	folders := map[string]bool{".": true}
	for p := range l {
		for d := path.Dir(p); !folders[d]; d = path.Dir(d) {
			folders[d] = true
		}
	}
	return folders
}
