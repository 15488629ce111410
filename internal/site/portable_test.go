package site

import (
	"strings"
	"testing"
	"testing/fstest"
)

// TestNamesThatAreNotTheSameEverywhere: files whose names one system takes for one, or
// refuses, are told of, and published under addresses that no system does so with.
func TestNamesThatAreNotTheSameEverywhere(t *testing.T) {
	const composed, apart = "caf\u00e9.txt", "cafe\u0301.txt"
	linked := []string{"rows.csv", "Rows.csv", "con.txt", composed, apart, "a b .txt", "Logs/x.csv", "logs/y.csv", "what?.txt", "Plain Name.txt"}
	files := fstest.MapFS{"index.md": {Data: []byte("---\njournal: Any\n---\n")}}
	var story strings.Builder
	for _, name := range linked {
		files[name] = &fstest.MapFile{Data: []byte(name)}
		story.WriteString("[x](<" + strings.ReplaceAll(name, "?", "%3F") + ">)\n")
	}
	files["1.md"] = &fstest.MapFile{Data: []byte("---\ngyle: 1\n---\n" + story.String())}
	files["notes/con.md"] = &fstest.MapFile{Data: []byte("Words.")}
	files["notes/CON.md"] = &fstest.MapFile{Data: []byte("Other words.")}
	s := build(t, files, Options{Files: files})
	seen, copies := map[string]string{}, 0
	for _, p := range s.Pages() {
		if refused := firstRefused(p.Path); refused != "" {
			t.Errorf("%s: %s", p.Path, refused)
		}
		for at := range len(p.Path) + 1 {
			if at < len(p.Path) && p.Path[at] != '/' {
				continue
			}
			part := p.Path[:at]
			if other, is := seen[folded(part)]; is && other != part {
				t.Errorf("%s and %s are one on some systems", other, part)
			}
			seen[folded(part)] = part
		}
		if strings.HasPrefix(p.Path, "files/") {
			copies++
		}
	}
	if copies != len(linked) {
		t.Errorf("%d copies of %d files", copies, len(linked))
	}
	if _, ok := s.Page("files/Plain Name.txt"); !ok {
		t.Error("a name that is fit everywhere has been changed")
	}
	told := map[string]bool{}
	for _, n := range s.Notices() {
		told[n.ID+" "+n.Place.File] = true
	}
	for _, want := range []string{
		"name-alike rows.csv", "name-alike " + composed, "name-alike logs", "name-alike notes/con.md",
		"name-refused con.txt", "name-refused notes/con.md", "name-refused what?.txt",
	} {
		if !told[want] {
			t.Errorf("not told of: %s", want)
		}
	}
	if told["name-refused a b .txt"] || told["name-alike Plain Name.txt"] {
		t.Error("told of what is fit everywhere")
	}
}

func firstRefused(path string) string {
	for at := range len(path) + 1 {
		if at == len(path) || path[at] == '/' {
			if why := refusedName(path[:at]); why != "" {
				return why
			}
		}
	}
	return ""
}
