package publish

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// A change is one step of a roll: what a path holds before and after it. With no
// file before or after, the folders around it are looked at all the same.
type change struct {
	path     string
	from, to *sum // nil: no file
}

const (
	recordFormat = "# gylebook changes 1"
	noFile       = "-" // stands for a sum where there is no file
)

// changes gives the edition's changes in order of path. Among them are the
// listed files that somebody deleted, for the empty folders they may have left.
func (e *Edition) changes() []change {
	var changes []change
	for p, to := range e.changed {
		c := change{path: p, to: &to}
		if from, there := e.old.present[p]; there {
			c.from = &from
		}
		changes = append(changes, c)
	}
	for p := range e.old.listed {
		if _, stays := e.pages[p]; stays {
			continue
		}
		c := change{path: p}
		if from, there := e.old.present[p]; there {
			c.from = &from
		}
		changes = append(changes, c)
	}
	slices.SortFunc(changes, func(a, b change) int { return strings.Compare(a.path, b.path) })
	return changes
}

// recordBytes writes changes as a record, one a line: from, to, path.
func recordBytes(changes []change) []byte {
	var b bytes.Buffer
	b.WriteString(recordFormat + "\n")
	for _, c := range changes {
		fmt.Fprintf(&b, "%s %s %s\n", sumOrNone(c.from), sumOrNone(c.to), c.path)
	}
	return b.Bytes()
}

func sumOrNone(s *sum) string {
	if s == nil {
		return noFile
	}
	return fmt.Sprintf("%x", *s)
}

// parseRecord reads what recordBytes writes and nothing else.
func parseRecord(text []byte) ([]change, error) {
	lines, err := recordLines(text, recordFormat)
	if err != nil {
		return nil, err
	}
	changes := make([]change, len(lines))
	last := ""
	for i, line := range lines {
		c, err := parseChange(line)
		if err == nil && c.path <= last {
			err = errors.New("out of order")
		}
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+2, err)
		}
		changes[i], last = c, c.path
	}
	return changes, nil
}

func parseChange(line string) (change, error) {
	parts := strings.SplitN(line, " ", 3)
	if len(parts) != 3 {
		return change{}, errors.New("not two sums and a path")
	}
	c := change{path: parts[2]}
	for i, into := range []**sum{&c.from, &c.to} {
		if parts[i] == noFile {
			continue
		}
		s, err := parseSum(parts[i])
		if err != nil {
			return change{}, err
		}
		*into = &s
	}
	return c, checkPath(c.path)
}
