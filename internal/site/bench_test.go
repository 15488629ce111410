package site

import (
	"bytes"
	"fmt"
	"html/template"
	"path"
	"runtime"
	"strings"
	"testing"

	"github.com/Masterminds/sprig/v3"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/parallel"
	"gylebook/internal/store"
)

// generated is a journal of n gyles, each with about sixty lines of front matter
// and three kilobytes of story: plainly invented.
func generated(n int) map[string]string {
	story := strings.Repeat("The mash sat a degree under for ten minutes while *something* was found, see [the last one](gyle:%[1]d) and [the hops](hop:goldings). It began at [](figure:og) and came to [](figure:abv), which is what was meant.\n\n", 12)
	files := map[string]string{"index.md": "---\njournal: A generated journal\naddress: https://generated.example/\n---\nGenerated.\n"}
	for i := 1; i <= n; i++ {
		day := fmt.Sprintf("20%02d-%02d-%02d", 5+(i/300)%20, 1+(i/25)%12, 1+i%25)
		var b strings.Builder
		fmt.Fprintf(&b, "---\ngyle: %d\nbeer: Generated %d\nstyle: best bitter\nbrewed: %s\ntags: [tag %d, cask]\nsummary: The gyle numbered %d.\n", i, i, day, i%20, i)
		if i%3 == 0 {
			fmt.Fprintf(&b, "follows: %d\n", i-1)
		}
		b.WriteString("aim: {volume: 22 L, og: 1.041, fg: 1.0105, abv: 4 %, bitterness: 30 IBU, colour: 18 EBC, condition: 1.1 vol}\n")
		b.WriteString("liquor:\n  volume: 31.7 L\n  salts:\n    - {salt: gypsum, weight: 3 g, into: mash}\n  chlorine: none\n")
		fmt.Fprintf(&b, "grist:\n  - {malt: pale malt, weight: %d g}\n  - {malt: crystal 150, weight: 380 g}\n", 3500+i%500)
		b.WriteString("mash:\n  liquor: 10.5 L\n  strike: 75.5 C\n  grain_at: 17 C\n  rests: [{at: 67 C, for: 60 min}]\n  ph: 5.35\n")
		b.WriteString("sparge: {liquor: 21.2 L, at: 76 C, last_runnings: 1.009}\ncopper:\n  before: {volume: 27.5 L, gravity: 1.035}\n  boiled: 60 min\n  after: {volume: 23.5 L, gravity: 1.041}\n")
		b.WriteString("hops:\n  - {hop: goldings, weight: 40 g, alpha: 5.4 %, boiled: 60 min}\n  - {hop: goldings, weight: 20 g, alpha: 5.4 %, boiled: 15 min}\n")
		fmt.Fprintf(&b, "yeast: [{yeast: house ale, sold: dried, weight: 11.5 g, pitched: %s 14:15, at: 19 C}]\nfermenter: {vessel: bucket, volume: 22 L, gravity: 1.041}\nreadings:\n", day)
		for d, g := range []string{"1.022", "1.0125", "1.011", "1.0105", "1.0105"} {
			fmt.Fprintf(&b, "  - {when: %s %02d:00, gravity: %s, temp: 20 C}\n", day, 16+d, g)
		}
		fmt.Fprintf(&b, "racked: {on: %s, volume: 20.6 L, temp: 18.5 C, warmest: 20 C}\npriming: {sugar: sucrose, weight: 25 g}\n", day)
		b.WriteString("packages:\n  - {vessel: soft bag 10 L, fill: 8.5 L}\n  - {vessel: bottle 500 mL, count: 24}\nconditioned: {at: 16 C, warmest: 18 C}\n")
		fmt.Fprintf(&b, "tastings:\n  - {when: %s, by: Nobody, score: 41, text: \"Yes.\"}\n---\n\n", day)
		fmt.Fprintf(&b, story, max(1, i-1))
		files[fmt.Sprintf("gyles/%d.md", i)] = b.String()
	}
	return files
}

func generatedBook(b testing.TB, n int) (*book.Book, map[string]string) {
	b.Helper()
	files := generated(n)
	var pairs []string
	for name, text := range files {
		pairs = append(pairs, name, text)
	}
	folder := entries(pairs...)
	return book.Open(journal.Read(folder, journal.Options{}), clock), files
}

// BenchmarkSite builds a site and renders all of it; bytes are those of the
// pages. BenchmarkFloor beside it makes the same bytes with nothing worked out.
func BenchmarkSite(b *testing.B) {
	for _, n := range []int{100, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			opened, files := generatedBook(b, n)
			var pairs []string
			for name, text := range files {
				pairs = append(pairs, name, text)
			}
			folder := entries(pairs...)
			b.ReportAllocs()
			for b.Loop() {
				s, err := Build(opened, Options{Files: folder})
				if err != nil {
					b.Fatal(err)
				}
				pages := s.Pages()
				parallel.Each(len(pages), 0, func(i int) {
					if _, err := pages[i].Render(); err != nil {
						b.Error(err)
					}
				})
			}
		})
	}
}

// BenchmarkFloor is goldmark on the same stories and html/template, with sprig's
// functions, writing pages of the same bytes in pieces as short as a page's
// fields are. Other files are copied.
func BenchmarkFloor(b *testing.B) {
	for _, n := range []int{100, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			opened, files := generatedBook(b, n)
			s, err := Build(opened, Options{})
			if err != nil {
				b.Fatal(err)
			}
			pages := s.Pages()
			pieces := make([][]string, len(pages))
			for i, p := range pages {
				data, err := p.Render()
				if err != nil {
					b.Fatal(err)
				}
				if path.Ext(p.Path) == ".html" {
					pieces[i] = inPieces(string(data), 40)
				} else {
					pieces[i] = []string{string(data)}
				}
			}
			var stories []string
			for _, text := range files {
				_, body, _ := strings.Cut(text, "\n---\n")
				stories = append(stories, body)
			}
			page := template.Must(template.New("").Funcs(sprig.HtmlFuncMap()).Parse(`<html>{{range .}}{{.}}{{end}}</html>`))
			markdown := goldmark.New(goldmark.WithExtensions(extension.Table, extension.Footnote, extension.TaskList, extension.Typographer))
			b.ReportAllocs()
			for b.Loop() {
				parallel.Each(len(stories), 0, func(i int) {
					var out bytes.Buffer
					if err := markdown.Convert([]byte(stories[i]), &out); err != nil {
						b.Error(err)
					}
				})
				parallel.Each(len(pieces), 0, func(i int) {
					var out bytes.Buffer
					if len(pieces[i]) == 1 {
						out.WriteString(pieces[i][0])
						return
					}
					if err := page.Execute(&out, pieces[i]); err != nil {
						b.Error(err)
					}
				})
			}
		})
	}
}

func inPieces(text string, length int) []string {
	var out []string
	for len(text) > length {
		out = append(out, text[:length])
		text = text[length:]
	}
	return append(out, text)
}

// BenchmarkHeld reports what a site keeps in memory for each gyle, once every
// page has been rendered.
func BenchmarkHeld(b *testing.B) {
	const n = 1000
	opened, _ := generatedBook(b, n)
	var before, after runtime.MemStats
	for b.Loop() {
		runtime.GC()
		runtime.ReadMemStats(&before)
		s, err := Build(opened, Options{})
		if err != nil {
			b.Fatal(err)
		}
		for _, p := range s.Pages() {
			if _, err := p.Render(); err != nil {
				b.Fatal(err)
			}
		}
		runtime.GC()
		runtime.ReadMemStats(&after)
		runtime.KeepAlive(s)
	}
	b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/n/1024, "KB/gyle")
}

// BenchmarkOneSave is a live site after one entry was saved: a new site with what was
// kept of the one before, and that entry's page.
func BenchmarkOneSave(b *testing.B) {
	for _, n := range []int{100, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			opened, _ := generatedBook(b, n)
			kept := store.New(nil)
			for b.Loop() {
				s, err := Build(opened, Options{Live: true, Store: kept})
				if err != nil {
					b.Fatal(err)
				}
				p, ok := s.Page("gyles/7/index.html")
				if !ok {
					b.Fatal("no page")
				}
				if _, err := p.Render(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
