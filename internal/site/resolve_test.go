package site

import (
	"strings"
	"testing"
	"testing/fstest"
)

// linked is a journal with one of everything that a story may link to.
func linked(story string) fstest.MapFS {
	files := entries(
		"index.md", "---\njournal: Linked\n---\n[first](gyles/1.md)\n",
		"gyles/1.md", "---\ngyle: 1\nbeer: First Pale\nbrewed: 2026-01-02\ntags: [two words]\nstyle: best bitter\nfermenter: {volume: 20 L, gravity: 1.040}\nhops: [{hop: goldings, weight: 30 g, boiled: 60 min}]\n---\n\n# The mash\n\nWell.\n",
		"gyles/deep/2.md", "---\ngyle: 2\nbeer: Second\nbrewed: 2026-02-02\nfermenter: {volume: 20 L, gravity: 1.050}\n---\n\n"+story,
		"gyles/3.md", "---\ngyle: 3\nbeer: Draft\ndraft: true\n---\n",
		"notes/a note.md", "---\ntitle: A Note\n---\nHello.\n",
		"notes/sub/b.md", "---\ntitle: Other\n---\nHello.\n",
		"cards/bag.md", "---\ncard: vessel\nname: my bag\nkind: soft bag\n---\nOurs.\n",
		"logs/g1.csv", "when,gravity\n2026-01-02 10:00,1.040\n",
		"logs/page.html", "<script>",
		".hidden/x.csv", "a",
	)
	return files
}

func TestWhereLinksLead(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"[a](gyle:1)", `<a href="../../gyles/1/index.html">a</a>`},
		{"[](gyle:1)", `<a href="../../gyles/1/index.html">First Pale</a>`},
		{"[a](gyle:1#the-mash)", `<a href="../../gyles/1/index.html#the-mash">a</a>`},
		{"[a](../1.md)", `<a href="../../gyles/1/index.html">a</a>`},
		{"[a](/gyles/1.md)", `<a href="../../gyles/1/index.html">a</a>`},
		{"[](../1.md#the-mash)", `<a href="../../gyles/1/index.html#the-mash">First Pale</a>`},
		{"[a](../../notes/a%20note.md)", `<a href="../../notes/a-note/index.html">a</a>`},
		{"[](<../../notes/a note.md>)", `<a href="../../notes/a-note/index.html">A Note</a>`},
		{"[](note:b)", `<a href="../../notes/sub-b/index.html">Other</a>`},
		{"[](<note:A Note>)", `<a href="../../notes/a-note/index.html">A Note</a>`},
		{"[](hop:goldings)", `<a href="../../larder/hop/goldings/index.html">goldings</a>`},
		{"[](vessel:my-bag)", `<a href="../../vessels/my-bag/index.html">my bag</a>`},
		{"[](../../cards/bag.md)", `<a href="../../vessels/my-bag/index.html">my bag</a>`},
		{"[](style:best-bitter)", `<a href="../../styles/best-bitter/index.html">best bitter</a>`},
		{"[](tag:two%20words)", `<a href="../../tags/two-words/index.html">two words</a>`},
		{"[](year:2026)", `<a href="../../years/2026/index.html">2026</a>`},
		{"[a](../../index.md)", `<a href="../../index.html">a</a>`},
		{"[a](../)", `<a href="../../gyles/index.html">a</a>`},
		{"[a](../../logs/g1.csv)", `<a href="../../files/logs/g1.csv">a</a>`},
		{"[a](https://example.org/x?y=1)", `<a href="https://example.org/x?y=1">a</a>`},
		{"[](https://example.org/x)", `<a href="https://example.org/x">example.org/x</a>`},
		{"[a](mailto:a@example.org)", `<a href="mailto:a@example.org">a</a>`},
		{"[](figure:og)", "<a href=\"../../gyles/2/workings/index.html#w-og\" class=\"figure\">1.050"},
		{"[](figure:og?gyle=1)", "<a href=\"../../gyles/1/workings/index.html#w-og\" class=\"figure\">1.040"},
		{"[](figure:abv)", `<a href="#p-missing" class="figure unknown">not known yet</a>`},
	} {
		files := linked(c.text + "\n")
		s := build(t, files, Options{})
		text := page(t, s, "gyles/2/index.html")
		wants(t, text, c.want)
		for _, n := range s.Notices() {
			t.Errorf("%s: %s", c.text, n)
		}
	}
}

func TestDeadLinksAreFindings(t *testing.T) {
	for _, c := range []struct{ text, notice, suggests string }{
		{"word [a](gyle:9)", "gyles/deep/2.md:8:6: look: there is no gyle 9 [link-dead]", "gyle:2"},
		{"[a](gyle:x)", "gyles/deep/2.md:8:1: look: there is no gyle x [link-dead]", "gyle:1"},
		{"[a](../1.md#the-mesh)", "gyles/deep/2.md:8:1: look: no heading there has the id the-mesh [link-dead]", "#the-mash"},
		{"[a](1.md)", "gyles/deep/2.md:8:1: look: there is no 1.md [link-dead]", "gyles/1.md"},
		{"[a](hop:goldling)", "gyles/deep/2.md:8:1: look: no gyle uses a hop goldling and no card describes it [link-dead]", "goldings"},
		{"[a](note:anote)", "gyles/deep/2.md:8:1: look: there is no note anote [link-dead]", "note:a note"},
		{"[a](tag:x)", "gyles/deep/2.md:8:1: look: there is no tag x [link-dead]", "tag:two words"},
		{"[a](figure:avb)", "gyles/deep/2.md:8:1: look: there is no figure avb [link-dead]", "figure:abv"},
		{"[a](figure:og?gyle=77)", "gyles/deep/2.md:8:1: look: there is no gyle 77 [link-dead]", ""},
		{"[a](hopp:goldings)", "gyles/deep/2.md:8:1: look: a link of the unknown kind hopp: [link-dead]", "hop:"},
		{"[a](../../../secret)", "gyles/deep/2.md:8:1: look: the link leads out of the journal: ../../../secret [link-dead]", ""},
		{"[a](../../.hidden/x.csv)", "gyles/deep/2.md:8:1: look: there is no ../../.hidden/x.csv [link-dead]", ""},
		{"[a](../../logs/page.html)", "gyles/deep/2.md:8:1: look: files of the kind .html are not published [file-not-published]", ""},
		{"[a]()", "gyles/deep/2.md:8:1: look: a link leads nowhere [link-dead]", ""},
		{"[a](gyle:3)", "gyles/deep/2.md:8:1: note: gyle 3 is a draft, so the link to it is left out [link-to-draft]", ""},
		{"[a](../3.md)", "gyles/deep/2.md:8:1: note: gyle 3 is a draft, so the link to it is left out [link-to-draft]", ""},
		{"[a](javascript:alert(1))", "gyles/deep/2.md:8:1: look: a link of the kind javascript: is left out [link-refused]", ""},
		{"![a](no.jpg)", "gyles/deep/2.md:8:1: look: there is no picture gyles/deep/no.jpg [picture-missing]", ""},
		{"![a](https://example.org/a.jpg)", "gyles/deep/2.md:8:1: look: a picture from elsewhere is only linked: https://example.org/a.jpg [picture-elsewhere]", ""},
	} {
		s := build(t, linked(c.text+"\n"), Options{})
		notices := s.Notices()
		if len(notices) != 1 || notices[0].String() != c.notice {
			t.Errorf("%s: %v, want %s", c.text, notices, c.notice)
			continue
		}
		if !strings.Contains(notices[0].Do, c.suggests) {
			t.Errorf("%s: %q does not suggest %s", c.text, notices[0].Do, c.suggests)
		}
		wants(t, page(t, s, "gyles/2/index.html"), "["+notices[0].ID+"]")
	}
}

func TestADeadLinkCanBeAccepted(t *testing.T) {
	files := linked("[a](gyle:9)\n")
	files["gyles/deep/2.md"].Data = []byte(strings.Replace(string(files["gyles/deep/2.md"].Data), "beer: Second\n", "beer: Second\naccept: [{finding: link-dead, because: It comes next year.}]\n", 1))
	s := build(t, files, Options{})
	wants(t, page(t, s, "gyles/2/index.html"), "1 seen and accepted", "Accepted: It comes next year.")
}

func TestLinkedFilesAreCopied(t *testing.T) {
	s := build(t, linked("[a](../../logs/g1.csv)\n"), Options{})
	wants(t, page(t, s, "files/logs/g1.csv"), "when,gravity")
	if _, ok := build(t, linked("no link\n"), Options{}).Page("files/logs/g1.csv"); ok {
		t.Error("a file that nothing links to is published")
	}
}

func TestAFigureInANoteNamesItsGyle(t *testing.T) {
	files := linked("x")
	files["notes/sub/b.md"].Data = []byte("---\ntitle: B\n---\n[](figure:og) but [](figure:og?gyle=2)\n")
	s := build(t, files, Options{})
	wants(t, page(t, s, "notes/sub-b/index.html"), "../../gyles/2/workings/index.html#w-og", "stands in no gyle&#39;s story")
}
