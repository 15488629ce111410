package main

import (
	"fmt"
	"path/filepath"
	"strings"
)

// outside refuses a site in the journal: publishing never writes there.
func outside(journal, site string) error {
	in, err := real(journal)
	if err != nil {
		return fmt.Errorf("finding the journal: %w", err)
	}
	to, err := real(site)
	if err != nil {
		return fmt.Errorf("finding the folder to write: %w", err)
	}
	rel, err := filepath.Rel(in, to)
	if err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
		return fmt.Errorf("publishing into %s: it lies in the journal, and nothing is published into that; name another with --to, such as %s",
			site, filepath.Join(in, "..", "site"))
	}
	return nil
}

// real is a path without links; what is not there yet is taken as it is named.
func real(path string) (string, error) {
	full, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	for there, rest := full, ""; ; there, rest = filepath.Dir(there), filepath.Join(filepath.Base(there), rest) {
		if linkless, err := filepath.EvalSymlinks(there); err == nil {
			return filepath.Join(linkless, rest), nil
		}
		if filepath.Dir(there) == there {
			return full, nil
		}
	}
}
