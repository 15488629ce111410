package publish

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// locate gives the site's absolute path without symbolic links, and whether it
// is there yet. It makes the folder around it, but not the site itself.
func locate(dir string) (site string, there bool, err error) {
	if dir == "" {
		return "", false, errors.New("no folder is named")
	}
	site, err = filepath.Abs(dir)
	if err != nil {
		return "", false, err
	}
	_, err = os.Lstat(site)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		site, err = makeAround(site)
		return site, false, err
	case err != nil:
		return "", false, err
	}
	real, err := filepath.EvalSymlinks(site)
	if err != nil {
		return "", false, fmt.Errorf("it is a link that leads nowhere: %w", err)
	}
	entry, err := os.Stat(real)
	if err != nil {
		return "", false, err
	}
	if !entry.IsDir() {
		return "", false, errors.New("it is a file, and a site is a folder; name another, or move the file away")
	}
	return real, true, checkSite(real)
}

// makeAround makes the folder that a new site is to lie in, and gives the
// site's path without symbolic links.
func makeAround(site string) (string, error) {
	around, name := filepath.Split(site)
	if err := os.MkdirAll(around, 0o755); err != nil {
		return "", fmt.Errorf("making the folder around it: %w", err)
	}
	around, err := filepath.EvalSymlinks(around)
	return filepath.Join(around, name), err
}

// checkSite refuses folders that must not be exchanged under whoever uses them.
func checkSite(site string) error {
	if filepath.Dir(site) == site {
		return errors.New("it is the root folder; name a folder of its own for the site")
	}
	if home, err := os.UserHomeDir(); err == nil && within(home, site) {
		return errors.New("it is the home folder or lies around it; name a folder of its own for the site")
	}
	here, err := os.Getwd()
	if err != nil {
		return fmt.Errorf("finding the working folder: %w", err)
	}
	if within(here, site) {
		return errors.New("it is the working folder or lies around it; name a folder below, such as site, or go elsewhere first")
	}
	return nil
}

// within tells whether dir is outer or lies in it, on whatever paths.
func within(dir, outer string) bool {
	want, err := os.Stat(outer)
	if err != nil {
		return false
	}
	dir, err = filepath.EvalSymlinks(dir)
	if err != nil {
		return false
	}
	for {
		if is, err := os.Stat(dir); err == nil && os.SameFile(is, want) {
			return true
		}
		up := filepath.Dir(dir)
		if up == dir {
			return false
		}
		dir = up
	}
}
