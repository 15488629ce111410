package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
)

// locate is the journal that arguments speak of, and the entries among them, as
// paths in the journal or as typed. An argument is the journal's folder, a
// folder or file in it, or the number of a gyle.
func (c *call) locate(args []string) (dir string, names []string, err error) {
	dir = c.Journal
	for _, arg := range args {
		around, name, err := place(arg)
		switch {
		case err != nil:
			return "", nil, err
		case around != "" && dir == "":
			dir = around
		case around != "" && !sameFolder(dir, around):
			return "", nil, fmt.Errorf("finding the entries: %s is in another journal than %s", arg, dir)
		}
		if name != "" {
			names = append(names, name)
		}
	}
	if dir == "" || dir == c.Journal {
		dir, err = c.findJournal("")
	}
	return dir, names, err
}

// place is the journal around what an argument names on disk, and its path in
// there. A number, or what is not there, is a name to look up in the journal.
func place(arg string) (dir, name string, err error) {
	if _, err := strconv.Atoi(arg); err == nil {
		return "", arg, nil
	}
	found, err := os.Stat(arg)
	if err != nil {
		return "", filepath.ToSlash(arg), nil
	}
	full, err := filepath.Abs(arg)
	if err != nil {
		return "", "", fmt.Errorf("finding %s: %w", arg, err)
	}
	if found.IsDir() && isJournal(full) {
		return arg, "", nil
	}
	around := journalAround(filepath.Dir(full))
	if around == "" {
		return "", "", notAJournal(arg)
	}
	rel, err := filepath.Rel(around, full)
	if err != nil {
		return "", "", fmt.Errorf("finding %s: %w", arg, err)
	}
	name = filepath.ToSlash(rel)
	if found.IsDir() {
		name += "/"
	}
	return around, name, nil
}

func sameFolder(a, b string) bool {
	left, err := os.Stat(a)
	if err != nil {
		return false
	}
	right, err := os.Stat(b)
	return err == nil && os.SameFile(left, right)
}
