package site

import (
	"bytes"
	"encoding/json"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// goldenFolder holds the pages of the journal small.txtar as they are to be, each in a
// file of its own; its READ-ME.md says how to read them.
const goldenFolder = "testdata/site/golden"

// goldenPages are the pages compared: one of each template but the workings, and the
// files.
var goldenPages = []string{
	"index.html", "board/index.html", "404.html", "gyles/index.html", "gyles/1/index.html", "gyles/2/index.html", "gyles/12/index.html",
	"gyles/2/copper-card/index.html", "gyles/2/labels/index.html", "gyles/2/entry.md", "larder/index.html",
	"larder/yeast/house-ale/index.html", "tags/index.html", "tags/cask/index.html", "families/index.html",
	"families/towpath-mild/index.html", "trends/index.html", "notes/index.html", "notes/well/index.html", "search/index.html",
	"feed.xml", "calendar.ics", "sitemap.xml", "robots.txt", "search.json",
}

// elsewhere is what other packages declare and test: the workings, the charts.
var elsewhere = regexp.MustCompile(`(?s)<section class="workings".*?</section>|<svg.*?</svg>`)

// readable is a file of the site as its golden one has it: without what is tested
// elsewhere, and with a line for each value of a JSON.
func readable(t *testing.T, name, text string) string {
	text = elsewhere.ReplaceAllString(text, "")
	switch path.Ext(name) {
	case ".ics":
		text = strings.ReplaceAll(text, "\r\n", "\n")
	case ".json":
		var lines bytes.Buffer
		if err := json.Indent(&lines, []byte(text), "", " "); err != nil {
			t.Fatal(err)
		}
		text = lines.String()
	}
	return text
}

func TestGoldenSite(t *testing.T) {
	got := rendered(t, build(t, archive(t, "testdata/site/small.txtar"), Options{Version: "test"}))
	for _, name := range goldenPages {
		file, text := filepath.Join(goldenFolder, filepath.FromSlash(name)), readable(t, name, got[name])
		if *update {
			writeGolden(t, file, text)
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Error(err)
		} else if diff := cmp.Diff(string(want), text); diff != "" {
			t.Errorf("%s differs (−want +got):\n%s", name, diff)
		}
	}
}

func writeGolden(t *testing.T, file, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestNoGoldenPageIsLeftOver: each file among the golden ones is one that is compared.
func TestNoGoldenPageIsLeftOver(t *testing.T) {
	compared := map[string]bool{"READ-ME.md": true}
	for _, name := range goldenPages {
		compared[name] = true
	}
	err := filepath.WalkDir(goldenFolder, func(file string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		name, err := filepath.Rel(goldenFolder, file)
		if err == nil && !compared[filepath.ToSlash(name)] {
			t.Errorf("%s is compared with nothing", file)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
