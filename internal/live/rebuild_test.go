package live

import (
	"testing"

	"gylebook/internal/notice"
)

func TestWithoutCountsLikeOnes(t *testing.T) {
	at := func(line int, id, accepted string) notice.Notice {
		return notice.Notice{Place: notice.Place{File: "1.md", Line: line}, ID: id, Accepted: accepted}
	}
	cases := []struct {
		what         string
		these, those []notice.Notice
		want         int
	}{
		{"moved to another line", []notice.Notice{at(9, "stuck", "")}, []notice.Notice{at(4, "stuck", "")}, 0},
		{"one more of a kind", []notice.Notice{at(4, "stuck", ""), at(9, "stuck", "")}, []notice.Notice{at(4, "stuck", "")}, 1},
		{"another kind", []notice.Notice{at(4, "stuck", "")}, []notice.Notice{at(4, "slow-start", "")}, 1},
		{"accepted now", []notice.Notice{at(4, "stuck", "as meant")}, []notice.Notice{at(4, "stuck", "")}, 0},
		{"no longer accepted", []notice.Notice{at(4, "stuck", "")}, []notice.Notice{at(4, "stuck", "as meant")}, 1},
	}
	for _, c := range cases {
		if got := without(c.these, c.those); len(got) != c.want {
			t.Errorf("%s: %d new, want %d", c.what, len(got), c.want)
		}
	}
}
