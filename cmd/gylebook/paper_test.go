package main

import (
	"slices"
	"strings"
	"testing"

	"gylebook/internal/notice"
)

func TestWrapKeepsNumbersAndUnitsTogether(t *testing.T) {
	cases := []struct {
		text  string
		width int
		want  []string
	}{
		{"", 20, []string{""}},
		{"one two three", 20, []string{"one two three"}},
		{"one two three", 8, []string{"one two", "three"}},
		{"no more than 500 mL each", 16, []string{"no more than", "500 mL each"}},
		{"about 1.9 ± 0.4 L of gas", 12, []string{"about", "1.9 ± 0.4 L", "of gas"}},
		{"half of it, 50 %, is so", 14, []string{"half of it,", "50 %, is so"}},
		{"supercalifragilistic word", 10, []string{"supercalifragilistic", "word"}},
		{"− ² ° × count one each", 9, []string{"− ² ° ×", "count one", "each"}},
		{"one\ntwo", 20, []string{"one", "two"}},
	}
	for _, c := range cases {
		if got := wrap(c.text, c.width); !slices.Equal(got, c.want) {
			t.Errorf("wrap(%q, %d) is %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

func TestALongLineIsCutAroundThePlace(t *testing.T) {
	long := strings.Repeat("a", 100) + "HERE" + strings.Repeat("z", 100)
	cases := []struct {
		line   string
		column int
		want   string
	}{
		{"brwed: 2026", 1, "    | brwed: 2026\n    | ^\n"},
		{"°C: wrong", 5, "    | °C: wrong\n    |     ^\n"},
		{"\tx", 2, "    |  x\n    |  ^\n"},
		{"short", 40, "    | short\n"},
		{long, 101, "    | …aaaaaaaaaaaaHERE" + strings.Repeat("z", 9) + "…\n    |              ^\n"},
		{long, 1, "    | " + strings.Repeat("a", 26) + "…\n    | ^\n"},
	}
	for _, c := range cases {
		var out strings.Builder
		p := paper{Writer: &out, width: 33}
		p.printLine(notice.Notice{Place: notice.Place{File: "1.md", Line: 1, Column: c.column}, Line: c.line})
		if out.String() != c.want {
			t.Errorf("column %d of %q is printed\n%swant\n%s", c.column, c.line, out.String(), c.want)
		}
	}
}

func TestColourIsNeverTheOnlySign(t *testing.T) {
	for _, s := range []notice.Severity{notice.Note, notice.Look, notice.Mend, notice.Danger, notice.Unreadable} {
		if got := (paper{}).severity(s); got != s.String() {
			t.Errorf("without colour %s is printed %q", s, got)
		}
		if got := (paper{colour: true}).severity(s); !strings.Contains(got, s.String()) || !strings.HasSuffix(got, plain) {
			t.Errorf("with colour %s is printed %q", s, got)
		}
	}
}
