package site

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

// goldenPages are the pages compared: one of each template, and the files.
var goldenPages = []string{
	"index.html", "404.html", "gyles/index.html", "gyles/1/index.html", "gyles/2/index.html", "gyles/12/index.html", "gyles/2/copper-card/index.html", "gyles/2/labels/index.html", "gyles/2/entry.md",
	"larder/index.html", "larder/yeast/house-ale/index.html", "tags/index.html", "tags/cask/index.html", "families/index.html", "notes/index.html", "notes/well/index.html", "search/index.html",
	"feed.xml", "calendar.ics", "sitemap.xml", "robots.txt", "search.json",
}

// elsewhere is what other packages declare and test: the workings, the charts.
var elsewhere = regexp.MustCompile(`(?s)<section class="workings".*?</section>|<svg.*?</svg>`)

func TestGoldenSite(t *testing.T) {
	const wanted = "testdata/site/small.golden.txtar"
	got := rendered(t, build(t, archive(t, "testdata/site/small.txtar"), Options{Version: "test"}))
	var out txtar.Archive
	out.Comment = []byte("The site of small.txtar: go test ./internal/site -run Golden -update rewrites it.\n")
	for _, name := range goldenPages {
		text := elsewhere.ReplaceAllString(got[name], "")
		if name == "calendar.ics" {
			text = strings.ReplaceAll(text, "\r\n", "\n")
		}
		out.Files = append(out.Files, txtar.File{Name: name, Data: []byte(text)})
	}
	if *update {
		if err := os.WriteFile(wanted, txtar.Format(&out), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := txtar.ParseFile(wanted)
	if err != nil {
		t.Fatal(err)
	}
	files := func(a *txtar.Archive) map[string]string {
		all := map[string]string{}
		for _, f := range a.Files {
			all[f.Name] = string(f.Data)
		}
		return all
	}
	if diff := cmp.Diff(files(want), files(txtar.Parse(txtar.Format(&out)))); diff != "" {
		t.Errorf("the site differs (−want +got):\n%s", diff)
	}
}
