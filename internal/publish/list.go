package publish

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// A sum is the SHA-256 of a file's bytes.
type sum = [sha256.Size]byte

// A list gives the sum of each file by its path.
type list map[string]sum

const listFormat = "# gylebook files 1"

// paths gives the paths in order.
func (l list) paths() []string {
	return slices.Sorted(maps.Keys(l))
}

// bytes writes the list as the site carries it. The format line begins with the
// sign that sha256sum takes for a comment.
func (l list) bytes() []byte {
	var b bytes.Buffer
	b.WriteString(listFormat + "\n")
	for _, p := range l.paths() {
		fmt.Fprintf(&b, "%x  %s\n", l[p], p)
	}
	return b.Bytes()
}

// parseList reads what bytes writes and nothing else.
func parseList(text []byte) (list, error) {
	lines, err := recordLines(text, listFormat)
	if err != nil {
		return nil, err
	}
	l := make(list, len(lines))
	last := ""
	for i, line := range lines {
		hash, p, cut := strings.Cut(line, "  ")
		s, err := parseSum(hash)
		if err == nil && (!cut || p <= last) {
			err = errors.New("not a sum and a path in order")
		}
		if err == nil {
			err = checkPath(p)
		}
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+2, err)
		}
		l[p], last = s, p
	}
	return l, nil
}

// recordLines splits a text of ours into its lines after the format line.
func recordLines(text []byte, format string) ([]string, error) {
	head, rest, whole := strings.Cut(string(text), "\n")
	switch {
	case head != format:
		return nil, fmt.Errorf("its first line is not %q, which is all that this version reads", format)
	case !whole:
		return nil, errors.New("it ends in its first line")
	case rest == "":
		return nil, nil
	}
	body, whole := strings.CutSuffix(rest, "\n")
	if !whole {
		return nil, errors.New("its last line is cut off")
	}
	return strings.Split(body, "\n"), nil
}

func parseSum(text string) (sum, error) {
	b, err := hex.DecodeString(text)
	if err != nil || len(b) != sha256.Size || strings.ToLower(text) != text {
		return sum{}, errors.New("not a SHA-256 in lower-case hexadecimals")
	}
	return sum(b), nil
}
