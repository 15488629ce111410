package live

import (
	"context"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// TestAnOpenPageLoadsItselfAgainAndKeepsItsPlace is the script in a browser.
// Without one it is skipped aloud; where CI=true it fails.
func TestAnOpenPageLoadsItselfAgainAndKeepsItsPlace(t *testing.T) {
	program, err := exec.LookPath("chromium")
	switch {
	case err != nil && os.Getenv("CI") == "true":
		t.Fatal("there is no chromium")
	case err != nil:
		t.Skip("there is no chromium: that open pages load themselves again is not tested")
	}
	long := strings.Repeat("A paragraph of the story.\n\n", 100)
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("Before Ale", long)})

	ctx, stop := context.WithTimeout(t.Context(), 2*time.Minute)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewExecAllocator(ctx, append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.UserDataDir(t.TempDir()))...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(400, 700), chromedp.Navigate(s.address+"gyles/1/")); err != nil {
		t.Fatal(err)
	}
	at, err := chromedp.Run(ctx, chromedp.Evaluate[int](`document.mark = "the old page"; scrollTo(0, 1234); scrollY`))
	if err != nil || at != 1234 {
		t.Fatalf("the page stands at %d, %v", at, err)
	}

	s.write("gyles/1.md", entry("After Ale", long))
	const loaded = `document.mark === undefined && document.title.includes("After Ale") && document.readyState === "complete" && scrollY === 1234`
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		// An error here is of a page that is just being left.
		if done, err := chromedp.Run(ctx, chromedp.Evaluate[bool](loaded)); err == nil && done {
			return
		}
	}
	now, err := chromedp.Run(ctx, chromedp.Evaluate[string](`[document.mark, document.title, document.readyState, scrollY].join(", ")`))
	t.Errorf("the page is not the new one at its old place: %s, %v", now, err)
}
