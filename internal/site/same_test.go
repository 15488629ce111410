package site

import (
	"math/rand/v2"
	"path"
	"strings"
	"sync"
	"testing"

	"gylebook/internal/store"
)

// TestTheSameBytes renders the demonstration site a second time, from the
// beginning, in another order and from several goroutines.
func TestTheSameBytes(t *testing.T) {
	_, want := demoSite(t)
	s := build(t, demoFiles(t), Options{Version: "test", Workers: 3})
	pages := s.Pages()
	if len(pages) != len(want) {
		t.Errorf("%d pages, then %d", len(want), len(pages))
	}
	order := rand.New(rand.NewPCG(1, 2)).Perm(len(pages))
	var group sync.WaitGroup
	for worker := range 4 {
		group.Go(func() {
			for i := worker; i < len(order); i += 4 {
				p := pages[order[i]]
				data, err := p.Render()
				if err != nil {
					t.Errorf("%s: %v", p.Path, err)
				} else if string(data) != want[p.Path] {
					t.Errorf("%s has other bytes the second time", p.Path)
				}
			}
		})
	}
	group.Wait()
}

// TestLiveReusesStories holds a site built with what was kept of an earlier one to the
// bytes of one built from nothing.
func TestLiveReusesStories(t *testing.T) {
	files, kept := archive(t, "testdata/site/small.txtar"), store.New(nil)
	first := build(t, files, Options{Live: true, Store: kept})
	rendered(t, first)
	mild := files["gyles/2-mild.md"]
	mild.Data = []byte(strings.Replace(string(mild.Data), "beer: Towpath Mild", "beer: Towpath Ruby", 1))
	fresh := rendered(t, build(t, files, Options{Live: true}))
	second := build(t, files, Options{Live: true, Store: kept})
	switch {
	case second.stories["notes/well.md"] == nil:
		t.Fatal("no story of the note")
	case second.story("notes/well.md") != first.story("notes/well.md"):
		t.Error("the note did not change, and its story is not used again")
	case second.story("index.md") == first.story("index.md"):
		t.Error("the home page links to a beer with another name now, and is used again")
	}
	for name, text := range rendered(t, second) {
		if text != fresh[name] {
			t.Errorf("%s differs from that of a fresh site", name)
		}
	}
}

// The sizes that the site promises.
const (
	mostCSS    = 24_000
	mostScript = 15 << 10
	mostGyle   = 60 << 10
)

func TestSizes(t *testing.T) {
	_, pages := demoSite(t)
	scripts := 0
	for name, text := range pages {
		switch {
		case path.Ext(name) == ".css" && len(text) > mostCSS:
			t.Errorf("%s has %d bytes", name, len(text))
		case path.Ext(name) == ".js" && name != "search.js":
			scripts += len(text)
		case strings.HasPrefix(name, "gyles/") && path.Ext(name) == ".html" && len(text) > mostGyle:
			t.Errorf("%s has %d bytes", name, len(text))
		}
	}
	if scripts > mostScript {
		t.Errorf("the scripts have %d bytes", scripts)
	}
}
