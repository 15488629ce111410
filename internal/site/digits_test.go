package site

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// mostDigits is how many digits a number on a page may have: a gravity has four,
// the source of a formula's constant up to eight.
const mostDigits = 8

var numberOnPage = regexp.MustCompile(`[0-9][0-9.]*[0-9]`)

// TestNumbersOnPages holds every page, of a journal at ease and of one at the ends
// of what can be written, to numbers that a brewer can read: none that is none,
// none without end, none with nine digits.
func TestNumbersOnPages(t *testing.T) {
	_, demo := demoSite(t)
	for of, pages := range map[string]map[string]string{"demonstration": demo, "extremes": rendered(t, build(t, entries(extremes()...), Options{}))} {
		looked := 0
		for name, page := range pages {
			if !strings.HasSuffix(name, ".html") {
				continue
			}
			for _, text := range textsOf(t, page) {
				looked++
				if problem := unreadable(text); problem != "" {
					t.Errorf("%s, %s: %s in %q", of, name, problem, text)
				}
			}
		}
		if looked < 500 {
			t.Errorf("%s: only %d texts looked at", of, looked)
		}
	}
}

// unreadable is what is wrong with the numbers of a text, "" for nothing.
func unreadable(text string) string {
	for _, not := range []string{"NaN", "+Inf", "-Inf", "−Inf", "e+", "%!"} {
		if strings.Contains(text, not) {
			return not
		}
	}
	for _, number := range numberOnPage.FindAllString(text, -1) {
		if digits := strings.ReplaceAll(number, ".", ""); len(strings.TrimLeft(digits, "0")) > mostDigits {
			return number
		}
	}
	return ""
}

func TestUnreadable(t *testing.T) {
	for text, bad := range map[string]bool{
		"1.0412 ± 0.0006": false, "2026-06-01": false, "999.83952": false, "about 20e9 cells": false,
		"NaN L": true, "0.3333333333 L": true, "-Inf bar": true, "1.2e+09": true, "123456789": true, "%!d(string=x)": true,
	} {
		if got := unreadable(text); (got != "") != bad {
			t.Errorf("%q: %q", text, got)
		}
	}
}

// textsOf are the texts of a page that are read as words: not its scripts and not
// what somebody typed, which is quoted as it stands.
func textsOf(t *testing.T, page string) []string {
	t.Helper()
	root, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	var walk func(*html.Node)
	walk = func(n *html.Node) {
		switch {
		case n.Type == html.ElementNode && (n.Data == "script" || n.Data == "style" || n.Data == "pre" || n.Data == "code"):
			return
		case n.Type == html.TextNode && strings.TrimSpace(n.Data) != "":
			texts = append(texts, n.Data)
		}
		for child := n.FirstChild; child != nil; child = child.NextSibling {
			walk(child)
		}
	}
	walk(root)
	return texts
}

// extremes is a journal whose every entry stands at one end of what can be
// written: a thimble, a tanker, the weakest and the strongest beer, and all of
// them with readings that are unsure by as much as they say.
func extremes() []string {
	files := []string{"index.md", "---\njournal: Extremes\n---\n"}
	for i, e := range []struct{ malt, liquor, volume, racked, sugar, fill, og, fg, heat string }{
		{"3 g", "10 mL", "7 mL", "6 mL", "0.01 g", "6 mL", "1.041", "1.010", "18 C"},
		{"390 kg", "1900 L", "1800 L", "1799 L", "9 kg", "500 mL", "1.041", "1.010", "18 C"},
		{"4 kg", "30 L", "20 L", "19 L", "90 g", "500 mL", "1.0001", "1.0000", "1 C"},
		{"12 kg", "30 L", "20 L", "19 L", "900 g", "500 mL", "1.149", "0.986", "39 C"},
		{"4 ± 4 kg", "30 ± 29 L", "20 ± 19 L", "19 ± 19 L", "90 ± 90 g", "500 ± 499 mL", "1.041 ± 0.04", "1.010 ± 0.02", "18 ± 15 C"},
		{"4 kg", "30 L", "0.001 L", "1999 L", "0.001 g", "700 mL", "1.041", "1.041", "-9 C"},
	} {
		files = append(files, fmt.Sprintf("gyles/%d.md", i+1), fmt.Sprintf(`---
gyle: %d
beer: Extreme %d
brewed: 2026-03-01
aim: {volume: %s, og: %s, condition: 2 vol, bitterness: 30 IBU, colour: 20 EBC}
liquor: {water: soft, volume: %s, salts: [{salt: gypsum, weight: %s, into: mash}]}
grist: [{malt: pale malt, weight: %s}]
mash: {liquor: %s, strike: 74 C, grain_at: 1 C, rests: [{at: 66 C, for: 60 min}]}
copper: {before: {volume: %s, gravity: %s}, boiled: 60 min, after: {volume: %s, gravity: %s}}
hops: [{hop: goldings, weight: %s, alpha: 19 %%, boiled: 60 min}, {hop: goldings, weight: %s, alpha: 19 %%, steeped: 20 min, at: 80 C}]
yeast: [{yeast: ale, sold: dried, weight: %s, pitched: 2026-03-01 15:00}]
fermenter: {volume: %s, gravity: %s}
readings:
  - {when: 2026-03-03, gravity: %s, temp: %s}
  - {when: 2026-03-06, gravity: %s, temp: %s}
  - {when: 2026-03-09, gravity: %s, temp: %s}
racked: {on: 2026-03-10, volume: %s, temp: %s, warmest: %s}
priming: {sugar: sucrose, weight: %s}
packages: [{vessel: bottle 500 mL, count: 3, fill: %s}, {vessel: soft bag 10 L, fill: %s}, {vessel: keg 19 L, fill: %s, gas: {with: co2, set: 0.01 bar, at: 1 C}}]
poured: [{when: 2026-04-01, volume: %s}]
---

It stands at the end of something.
`, i+1, i+1, e.volume, e.og, e.liquor, e.sugar, e.malt, e.liquor, e.volume, e.og, e.volume, e.og, e.sugar, e.sugar, e.sugar,
			e.volume, e.og, e.og, e.heat, e.fg, e.heat, e.fg, e.heat, e.racked, e.heat, e.heat, e.sugar, e.fill, e.fill, e.fill, e.fill))
	}
	return files
}
