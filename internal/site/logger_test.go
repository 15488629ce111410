package site

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// loggedJournal is a journal of one gyle with a float in it, and of a draft whose
// story links to the same file.
func loggedJournal(story string) fstest.MapFS {
	var log strings.Builder
	log.WriteString("when,gravity,temp\n")
	for hour := 1; hour < 72; hour++ {
		fmt.Fprintf(&log, "2026-05-%02d %02d:00,%.4f,19.%d\n", 20+hour/24, hour%24, 1.010+0.032/(1+math.Exp(0.08*(float64(hour)-34))), hour%10)
	}
	entry := func(number int, more, story string) *fstest.MapFile {
		return &fstest.MapFile{Data: fmt.Appendf(nil, "---\ngyle: %d\nbeer: Mild\nbrewed: 2026-05-20\nyeast: [{yeast: house ale, pitched: 2026-05-20 00:30}]\nfermenter: {volume: 20 L, gravity: 1.042, temp: 20 C}\nreadings_from: float.csv\n%s---\n%s\n", number, more, story)}
	}
	return fstest.MapFS{
		"index.md":        {Data: []byte("---\njournal: A book\n---\n")},
		"gyles/1.md":      entry(1, "", story),
		"gyles/2.md":      entry(2, "draft: true\n", "[the float](float.csv)"),
		"gyles/float.csv": {Data: []byte(log.String())},
	}
}

// TestLoggersFileStaysAtHome: it is published where a story that is published links
// to it, and else not, though its figures and its curve are.
func TestLoggersFileStaysAtHome(t *testing.T) {
	for story, published := range map[string]bool{"No link.": false, "See [the float](float.csv).": true} {
		s := build(t, loggedJournal(story), Options{})
		pages := rendered(t, s)
		if _, ok := pages["files/gyles/float.csv"]; ok != published {
			t.Errorf("%q: published is %v", story, ok)
		}
		wants(t, pages["gyles/1/index.html"], "chart fermentation", ">logged<")
		for name, text := range pages {
			if strings.Contains(text, "2026-05-20 05:00,") && name != "files/gyles/float.csv" {
				t.Errorf("%s holds rows of the logger's file", name)
			}
		}
	}
}

// TestLoggerAloneIsDrawn: a gyle that nobody read by hand has its chart, with the
// course still expected.
func TestLoggerAloneIsDrawn(t *testing.T) {
	s := build(t, loggedJournal(""), Options{})
	text := page(t, s, "gyles/1/index.html")
	wants(t, text, "chart fermentation", `class="line"`, `class="heat"`)
	if again := page(t, build(t, loggedJournal(""), Options{}), "gyles/1/index.html"); again != text {
		t.Error("the same journal gives another page")
	}
}

// TestPeaksOfALongTrace: of a trace that is made shorter the lowest and the highest
// of every few points stay, in order of time, and the last few too.
func TestPeaksOfALongTrace(t *testing.T) {
	p := peaks{every: 4}
	for i, v := range []float64{1, 5, 2, 3, 9, 8, math.NaN(), 7, 6, 4, 4, 4, 4, 0, 2} {
		p.take(time.Unix(int64(i), 0), v)
	}
	var got []float64
	for _, point := range p.all() {
		got = append(got, point.Value)
	}
	if want := []float64{1, 5, 9, 6, 4, 0, 2}; !slices.Equal(got, want) {
		t.Errorf("kept %v, want %v", got, want)
	}
}
