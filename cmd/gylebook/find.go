package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"gylebook/internal/journal"
)

// howToStart tells somebody without a journal what one is.
const howToStart = `A journal is a folder with an index.md that begins:

    ---
    journal: My brewing book
    ---

and an entry for each brewing, such as gyles/1-first-bitter.md:

    ---
    gyle: 1
    beer: First Bitter
    ---
    What I mean to brew, and why.

Make these two files, then call gylebook from that folder; or let gylebook begin
make them, in the folder journal`

// findJournal is the journal's folder: --journal, else the named one, else the
// nearest folder upward that is one, else ./journal.
func (c *call) findJournal(named string) (string, error) {
	if c.Journal != "" && named != "" {
		return "", fmt.Errorf("finding the journal: --journal names %s, and %s is named besides; leave one out", c.Journal, named)
	}
	if named == "" {
		named = c.Journal
	}
	if named != "" {
		if !isJournal(named) {
			return "", notAJournal(named)
		}
		return named, nil
	}
	here, err := os.Getwd()
	if err != nil {
		return "", fmt.Errorf("finding the journal: %w", err)
	}
	if dir := journalAround(here); dir != "" {
		return dir, nil
	}
	if isJournal("journal") {
		return "journal", nil
	}
	return "", errors.New("finding the journal: there is none in this folder, in any above it, or in ./journal\n\n" + howToStart)
}

func notAJournal(dir string) error {
	if _, err := os.Stat(dir); err != nil {
		return fmt.Errorf("finding the journal: %w\n\n%s", err, howToStart)
	}
	return fmt.Errorf("finding the journal: %s is none, since it has no index.md with journal: in it\n\n%s", dir, howToStart)
}

// journalAround is the nearest folder that is a journal: dir or one around it,
// "" where none is.
func journalAround(dir string) string {
	for {
		if isJournal(dir) {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			return ""
		}
		dir = up
	}
}

var journalKey = regexp.MustCompile(`^["']?journal["']?\s*:`)

// isJournal tells whether the front matter of the folder's index.md has a line
// that begins with journal: . It does not ask whether the rest can be read, so
// that a slip in the settings is reported as one.
func isJournal(dir string) bool {
	files, err := journal.Root(dir)
	if err != nil {
		return false
	}
	file, err := files.Open("index.md")
	if err != nil {
		return false
	}
	defer file.Close()
	lines := bufio.NewScanner(io.LimitReader(file, 1<<20))
	opened := false
	for lines.Scan() {
		line := strings.TrimRight(string(bytes.TrimPrefix(lines.Bytes(), []byte("\ufeff"))), " \t\r")
		switch {
		case !opened && line == "":
		case !opened && line != "---":
			return false
		case !opened:
			opened = true
		case line == "---":
			return false
		case journalKey.MatchString(line):
			return true
		}
	}
	return false
}
