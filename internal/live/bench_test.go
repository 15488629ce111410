package live

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

// generated writes a journal of n gyles, each with some forty lines of front
// matter and three kilobytes of story: plainly invented.
func generated(t testing.TB, dir string, n int) {
	t.Helper()
	story := strings.Repeat("The mash sat a degree under for ten minutes while *something* was found, see [the last one](gyle:%[1]d) and [the hops](hop:goldings). It began at [](figure:og) and came to [](figure:abv), which is what was meant.\n\n", 12)
	if err := os.MkdirAll(filepath.Join(dir, "gyles"), 0o755); err != nil {
		t.Fatal(err)
	}
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("index.md", "---\njournal: A generated journal\n---\nGenerated.\n")
	for i := 1; i <= n; i++ {
		write(fmt.Sprintf("gyles/%d.md", i), generatedEntry(i)+fmt.Sprintf(story, max(1, i-1)))
	}
}

// generatedEntry is the front matter of one gyle, two brewed on a day.
func generatedEntry(i int) string {
	day := func(after int) string {
		return time.Date(2005, 1, 1+i/2+after, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "---\ngyle: %d\nbeer: Generated %d\nstyle: best bitter\nbrewed: %s\ntags: [tag %d, cask]\nsummary: The gyle numbered %d.\n", i, i, day(0), i%20, i)
	if i%3 == 0 {
		fmt.Fprintf(&b, "follows: %d\n", i-1)
	}
	b.WriteString("aim: {volume: 22 L, og: 1.041, fg: 1.0105, abv: 4 %, bitterness: 30 IBU, colour: 18 EBC, condition: 1.1 vol}\n")
	b.WriteString("liquor:\n  volume: 31.7 L\n  salts:\n    - {salt: gypsum, weight: 3 g, into: mash}\n  chlorine: none\n")
	fmt.Fprintf(&b, "grist:\n  - {malt: pale malt, weight: %d g}\n  - {malt: crystal 150, weight: 380 g}\n", 3500+i%500)
	b.WriteString("mash:\n  liquor: 10.5 L\n  strike: 75.5 C\n  grain_at: 17 C\n  rests: [{at: 67 C, for: 60 min}]\n  ph: 5.35\n")
	b.WriteString("sparge: {liquor: 21.2 L, at: 76 C, last_runnings: 1.009}\ncopper:\n  before: {volume: 27.5 L, gravity: 1.035}\n  boiled: 60 min\n  after: {volume: 23.5 L, gravity: 1.041}\n")
	b.WriteString("hops:\n  - {hop: goldings, weight: 40 g, alpha: 5.4 %, boiled: 60 min}\n  - {hop: goldings, weight: 20 g, alpha: 5.4 %, boiled: 15 min}\n")
	fmt.Fprintf(&b, "yeast: [{yeast: house ale, sold: dried, weight: 11.5 g, pitched: %s 14:15, at: 19 C}]\nfermenter: {vessel: bucket, volume: 22 L, gravity: 1.041}\nreadings:\n", day(0))
	for d, g := range []string{"1.022", "1.0125", "1.011", "1.0105", "1.0105"} {
		fmt.Fprintf(&b, "  - {when: %s 08:00, gravity: %s, temp: 20 C}\n", day(2*d+1), g)
	}
	fmt.Fprintf(&b, "racked: {on: %s, volume: 20.6 L, temp: 18.5 C, warmest: 20 C}\npriming: {sugar: sucrose, weight: 25 g}\n", day(11))
	b.WriteString("packages:\n  - {vessel: soft bag 10 L, fill: 8.5 L}\n  - {vessel: bottle 500 mL, count: 24}\nconditioned: {at: 16 C, warmest: 18 C}\n")
	fmt.Fprintf(&b, "tastings:\n  - {when: %s, by: Nobody, score: 41, text: \"Yes.\"}\n---\n\n", day(30))
	return b.String()
}

// saves are what the benchmarks save: the words of a story; a reading that changes
// figures, findings and what later gyles lean on; a name that no gyle had before.
var saves = map[string]func(text string, i int) string{
	"prose": func(text string, i int) string { return text + fmt.Sprintf("Once more, no. %d.\n", i) },
	"reading": func(text string, i int) string {
		return strings.Replace(text, "readings:\n", fmt.Sprintf("readings:\n  - {when: 2010-01-01 08:00, gravity: 1.0%02d, temp: 20 C}\n", 10+i%20), 1)
	},
	"name": func(text string, i int) string {
		return strings.Replace(text, "hop: goldings", fmt.Sprintf("hop: hop of the lane no. %d", i), 1)
	},
}

// BenchmarkSave is from a save to the news at the page of the entry, of journals
// of 100, of 1,000 and of 10,000 gyles: the medians in milliseconds. What of a journal
// is kept from one save to the next stays or goes by these: without it a save would take
// longer than 50 ms with 1,000 gyles, or than 150 ms with 10,000.
func BenchmarkSave(b *testing.B) {
	for _, kind := range []string{"prose", "reading", "name"} {
		b.Run(kind, func(b *testing.B) {
			for _, n := range []int{100, 1000, 10_000} {
				b.ReportMetric(medianSave(b, n, saves[kind]), fmt.Sprintf("ms/%d", n))
			}
			b.ReportMetric(0, "ns/op")
		})
	}
}

func medianSave(b *testing.B, n int, edit func(string, int) string) float64 {
	dir := b.TempDir()
	generated(b, dir, n)
	s := serveFolder(b, dir)
	i := n * 9 / 10 // later gyles lean on what it teaches
	name := fmt.Sprintf("gyles/%d.md", i)
	text := generatedEntry(i) + "Words.\n"
	reported := func(Rebuild) bool { return true }
	s.until("the start", reported)
	names := s.listen(fmt.Sprintf("gyles/%d/", i))
	next(b, names)
	s.write(name, text)
	next(b, names)
	var took []time.Duration
	for i := range 25 {
		s.until("the last save", reported) // it is over, with all that came after the news
		saved := edit(text, i)
		start := time.Now()
		s.write(name, saved)
		next(b, names)
		took = append(took, time.Since(start))
	}
	s.end()
	slices.Sort(took)
	return float64(took[len(took)/2].Microseconds()) / 1000
}

// BenchmarkMemory is the heap after each tenth of a thousand saves, in MB: the
// first and the last.
func BenchmarkMemory(b *testing.B) {
	dir := b.TempDir()
	generated(b, dir, 500)
	s := serveFolder(b, dir)
	names := s.listen("gyles/450/")
	next(b, names)
	text := generatedEntry(450)
	var heaps []float64
	for i := range 1000 {
		kind := "prose"
		if i%2 == 1 {
			kind = "reading"
		}
		s.write("gyles/450.md", saves[kind](text, i))
		next(b, names)
		if i%100 == 99 {
			heaps = append(heaps, heapMB())
		}
	}
	b.ReportMetric(heaps[0], "MB/first")
	b.ReportMetric(heaps[len(heaps)-1], "MB/last")
	b.ReportMetric(0, "ns/op")
}

func heapMB() float64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc) / (1 << 20)
}
