package chart

import (
	"slices"
	"testing"
)

// TestPlace works the lanes of the sample by hand: the mild keeps the first
// lane, the porter branches into the second and ends in the blend.
func TestPlace(t *testing.T) {
	in := revisions()
	rows, width := familyOf(in.Gyles).place()
	var numbers, at []int
	for _, row := range rows {
		numbers = append(numbers, in.Gyles[row.gyle].Number)
		at = append(at, row.lane)
	}
	if want := []int{3, 7, 8, 9, 11, 12, 14, 15}; !slices.Equal(numbers, want) {
		t.Errorf("rows %v, want %v", numbers, want)
	}
	if want := []int{0, 0, 1, 1, 0, 1, 0, 0}; !slices.Equal(at, want) {
		t.Errorf("lanes %v, want %v", at, want)
	}
	if width != 3 {
		t.Errorf("%d lanes, want 3", width)
	}
}

// TestFamily: children come after their parents even where the input has them
// before, and a circle is broken once, not forgotten.
func TestFamily(t *testing.T) {
	for name, c := range map[string]struct {
		gyles []Gyle
		order []int
		edges int
	}{
		"backward":   {[]Gyle{{Number: 3, Follows: []int{2}}, {Number: 2, Follows: []int{1}}, {Number: 1}}, []int{2, 1, 0}, 2},
		"circle":     {[]Gyle{{Number: 1, Follows: []int{3}}, {Number: 2, Follows: []int{1}}, {Number: 3, Follows: []int{2}}}, []int{0, 1, 2}, 2},
		"stranger":   {[]Gyle{{Number: 1, Follows: []int{77}}}, []int{0}, 0},
		"said twice": {[]Gyle{{Number: 1}, {Number: 2, Follows: []int{1, 1}}}, []int{0, 1}, 1},
	} {
		f := familyOf(c.gyles)
		edges := 0
		for _, parents := range f.parents {
			edges += len(parents)
		}
		if !slices.Equal(f.order, c.order) || edges != c.edges {
			t.Errorf("%s: order %v with %d lines, want %v with %d", name, f.order, edges, c.order, c.edges)
		}
	}
}

func TestSafe(t *testing.T) {
	for href, want := range map[string]bool{
		"../3/index.html": true, "https://example.org/a?b=1&c=2": true, "#top": true, "": false,
		"javascript:alert(1)": false, " javascript:alert(1)": false, "java\nscript:alert(1)": false, "data:text/html,x": false, "JAVASCRIPT:x": false,
	} {
		if safe(href) != want {
			t.Errorf("safe(%q) = %t", href, !want)
		}
	}
}
