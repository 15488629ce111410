package journal

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
)

func TestRedact(t *testing.T) {
	all := Private{true, true, true, true}
	for _, c := range []struct {
		name, in, want string
		private        Private
	}{
		{"comments", `---
# mine alone
gyle: 14 # the fourteenth
beer: "Mild # not a comment" # a comment
summary: a#b
next: ['it''s # words', plain, # inside
  more] # after
tags:
  # between
  - cask#1
  - winter	# tabbed
accept: [{finding: x, because: no}]
mash: {started: 2026-03-07} #
---
# A heading, which stays
`, "", Private{}},
		{"block words", `---
gyle: 14
beer: x
summary: | # header
  # words
    # deeper

  last # words
# a comment
cover: >-
  folded # words
  and more
label:
  text: |2
      # deep
    # less
  # a comment
  vegan: true
---
`, `---
gyle: 14
beer: x
summary: |
  # words
    # deeper

  last # words

cover: >-
  folded # words
  and more
label:
  text: |2
      # deep
    # less

  vegan: true
---
`, Private{}},
		{"private", `---
gyle: 14
beer: x
tastings:
  - {when: 2026-04-18, by: Ann Ünder, score: 34, text: "by: Ann"}
  - when: 2026-04-19
    by: "Bob, of the lock"
    score: 30
  - by: >
      Cy
      Dee
    score: 3
party: {on: 2026-04-18, occasion: A birthday}
costs:
  - {what: malt, paid: 6.20 GBP}
  # dear
  - what: hops
    paid: 3.80 GBP
photos: [{file: a.jpg}, {file: b.jpg}]
cover: a.jpg
secret: {name: of a friend}
racked: {volum: 20 L, on: 2026-03-16}
next: [x]
---
`, `---
gyle: 14
beer: x
tastings:
  - {when: 2026-04-18, by:          , score: 34, text: "by: Ann"}
  - when: 2026-04-19
    by:
    score: 30
  - by:


    score: 3
party:
costs:




photos:
cover:
secret:
racked: {volum:     , on: 2026-03-16}
next: [x]
---
`, all},
		{"nothing private", "---\ngyle: 14\nbeer: x\ntastings: [{by: Ann}]\ncosts: [{paid: 1 GBP}]\n---\n",
			"---\ngyle: 14\nbeer: x\ntastings: [{by: Ann}]\ncosts: [{paid: 1 GBP}]\n---\n", Private{}},
		{"one map for a list", "---\ngyle: 14\nbeer: x\ntastings: {by: Ann, score: 3}\n---\n",
			"---\ngyle: 14\nbeer: x\ntastings: {by:    , score: 3}\n---\n", all},
		{"the wrong shape", "---\ngyle: 14\nbeer: x\ntastings: Ann said so\n---\n",
			"---\ngyle: 14\nbeer: x\ntastings:\n---\n", Private{}},
		{"not YAML", "---\ngyle: 14\nbeer: x: y # secret\ncosts: [\n---\nStory\n", "---\n\n\n\n---\nStory\n",
			Private{}},
		{"an anchor", "---\ngyle: 14\nbeer: &a x\ncosts: *a\n---\nStory\n", "---\n\n\n\n---\nStory\n", all},
		{"unclosed", "---\ngyle: 14 # secret\nStory\n", "\n\n\n", Private{}},
		{"no front matter", "Story # not a comment\n", "Story # not a comment\n", all},
		{"carriage returns", "\uFEFF---\r\ngyle: 14 # secret\r\nbeer: x\r\n---\r\nStory\r\n",
			"---\ngyle: 14\nbeer: x\n---\nStory\n", Private{}},
		{"a taster's card", "---\ncard: taster\nname: Ann\n---\nStory\n", "---\n\n\n---\nStory\n", all},
	} {
		got := string(Redact([]byte(c.in), c.private))
		if c.name == "comments" {
			checkComments(t, c.in, got)
			continue
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
		if again := string(Redact([]byte(got), c.private)); again != got && c.name != "unclosed" {
			t.Errorf("%s: again (-once +twice):\n%s", c.name, cmp.Diff(got, again))
		}
	}
}

// checkComments: no comment is left, every value is as before, at its place.
func checkComments(t *testing.T, in, got string) {
	before, after := ReadFile("x.md", []byte(in), nil), ReadFile("x.md", []byte(got), nil)
	if len(before.Errors)+len(after.Errors) > 0 {
		t.Fatalf("errors:\n%s%s", listing(before.Errors), listing(after.Errors))
	}
	if diff := cmp.Diff(summary(before), summary(after)); diff != "" {
		t.Errorf("values (-before +after):\n%s", diff)
	}
	for _, gone := range []string{"mine alone", "the fourteenth", "# a comment", "inside", "after", "between",
		"tabbed"} {
		if strings.Contains(got, gone) {
			t.Errorf("%q is left:\n%s", gone, got)
		}
	}
	for _, kept := range []string{"Mild # not a comment", "a#b", "it''s # words", "cask#1",
		"# A heading, which stays"} {
		if !strings.Contains(got, kept) {
			t.Errorf("%q is gone:\n%s", kept, got)
		}
	}
}

// TestRedactEveryKey: of the entry that has all, only what is private goes.
func TestRedactEveryKey(t *testing.T) {
	for _, f := range everyKey(t) {
		got := Redact(f.data, Private{})
		if !bytes.Equal(got, f.data) {
			t.Errorf("%s: changed though it has nothing private:\n%s", f.name, cmp.Diff(string(f.data), string(got)))
		}
	}
}

// redactHolds is what must hold of any bytes at all.
func redactHolds(t testing.TB, raw []byte) {
	t.Helper()
	private := Private{true, true, true, true}
	once := Redact(raw, private)
	if !utf8.Valid(once) {
		t.Error("not text")
	}
	before := ReadFile("x.md", raw, nil)
	if before.Withheld() {
		return
	}
	after := ReadFile("x.md", once, nil)
	if before.Entry().Unread || before.Gyle == nil {
		return
	}
	if after.Gyle == nil && len(bytes.TrimSpace(once)) > 0 && after.Entry() != nil &&
		after.Entry().Body != before.Gyle.Body {
		t.Errorf("another story")
	}
	if twice := Redact(once, private); !bytes.Equal(once, twice) {
		t.Errorf("once and twice:\n%s", cmp.Diff(string(once), string(twice)))
	}
	if after.Gyle != nil {
		for _, tasting := range after.Gyle.Tastings {
			if tasting.By.Written() {
				t.Errorf("a taster is left: %q in\n%s", tasting.By, once)
			}
		}
		if len(after.Gyle.Costs)+len(after.Gyle.Photos) > 0 || after.Gyle.Party.Written() ||
			after.Gyle.Cover.Written() {
			t.Errorf("private values are left:\n%s", once)
		}
	}
}
