package site

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// Where the first words of a story have to begin, in pixels from the top of the page.
const (
	storyWide  = 600 // on a screen of 1200 by 800
	storyPhone = 800 // the first screen of a telephone of 360 by 800
)

// TestTheStoryComesFirst opens every gyle with a story and without a danger, whose
// words go before all else.
func TestTheStoryComesFirst(t *testing.T) {
	s, pages := demoSite(t)
	ctx := browser(t)
	folder := onDisk(t)
	for _, screen := range []struct{ width, most int64 }{{1200, storyWide}, {360, storyPhone}} {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(screen.width, 800)); err != nil {
			t.Fatal(err)
		}
		opened := 0
		for _, g := range s.gyles {
			if s.story(g.File).html == "" || worst(g.Notices) == "danger" {
				continue
			}
			visit(t, ctx, folder, gylePath(g))
			top := ask[float64](t, ctx, `document.querySelector(".story p").getBoundingClientRect().top`)
			if opened++; top >= float64(screen.most) {
				t.Errorf("gyle %s: at %d wide its story begins at %.0f", g.Slug, screen.width, top)
			}
		}
		if opened < 10 {
			t.Errorf("only %d of %d pages were opened", opened, len(pages))
		}
	}
}
