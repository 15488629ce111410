package site

import (
	"path"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
)

// near is the name of a list that is closest to one that is not there. A file is
// compared by its own name first, so that one moved to another folder is found.
// The list may be long, but is only looked at where something is wrong.
func near(name string, names []string) string {
	if len(names) == 0 {
		return "none"
	}
	name = strings.ToLower(clip(name))
	return slices.MinFunc(names, func(a, b string) int { return away(name, a) - away(name, b) })
}

func away(name, other string) int {
	other = strings.ToLower(clip(other))
	return 8*levenshtein.ComputeDistance(path.Base(name), path.Base(other)) + min(levenshtein.ComputeDistance(name, other), 20)
}

// clip bounds what is compared.
func clip(name string) string { return name[:min(len(name), 80)] }
