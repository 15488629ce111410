package chart

import (
	"html"
	"html/template"
	"strconv"
	"strings"
	"unicode"
)

const (
	defaultWidth = 360
	leastWidth   = 320
	mostWidth    = 1200

	margin     = 4.0  // no label comes nearer to the left or right border
	lineHeight = 16.0 // from one line of text to the next
	ascent     = 12.0 // from the top of a line of text to its baseline
	textSize   = 12.0 // in units of the viewBox
)

// Frame is what every chart has in common.
type Frame struct {
	Prefix string // begins the ids; letters, digits and hyphens are kept, anything else becomes a hyphen; empty is "chart"
	Title  string // the chart's name for those who listen; empty takes the chart's own
	Desc   string // what it shows, in a sentence; empty is written from the numbers
	Width  int    // of the viewBox, 320 to 1200; zero is 360
}

func (f Frame) width() float64 {
	if f.Width == 0 {
		return defaultWidth
	}
	return float64(min(max(f.Width, leastWidth), mostWidth))
}

// id makes an id from the prefix that needs no escaping anywhere.
func (f Frame) id(part string) string {
	keep := func(r rune) rune {
		if r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
			return r
		}
		return '-'
	}
	prefix := strings.Map(keep, clip(f.Prefix, 60))
	if prefix == "" {
		prefix = "chart"
	}
	return prefix + "-" + part
}

// sheet is a chart once laid out: what only the chart itself knows about its frame.
type sheet struct {
	name   string // the chart's class
	title  string // used where the frame has none
	desc   string // used where the frame has none
	height float64
	linked bool // holds links, so must not be an img
}

// hang puts a drawing into its frame.
func (f Frame) hang(s sheet, drawing *pen) template.HTML {
	title, desc := oneLine(f.Title), oneLine(f.Desc)
	if title == "" {
		title = s.title
	}
	if desc == "" {
		desc = s.desc
	}
	role := "img"
	if s.linked {
		role = "group"
	}
	size := "0 0 " + num(f.width()) + " " + num(s.height)
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" class="chart ` + s.name + `" viewBox="` + size + `" role="` + role +
		`" aria-labelledby="` + f.id("title") + " " + f.id("desc") + `">`)
	b.WriteString(`<title id="` + f.id("title") + `">` + html.EscapeString(clip(title, 200)) + "</title>")
	b.WriteString(`<desc id="` + f.id("desc") + `">` + html.EscapeString(clip(desc, 1000)) + "</desc>\n")
	b.WriteString(drawing.String())
	b.WriteString("</svg>")
	return template.HTML(b.String()) // every word in it went through html.EscapeString
}

// num prints a coordinate. A tenth of a unit is a fifth of a pixel at most,
// and shorter numbers keep the page light.
func num(v float64) string {
	return figure(v, 1)
}

// figure prints a number with at most so many decimals and no idle zeros.
func figure(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// spoken prints a number as text, with the sign that type has for minus.
func spoken(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if negative, ok := strings.CutPrefix(s, "-"); ok {
		if strings.Trim(negative, "0.") == "" {
			return negative
		}
		return "−" + negative
	}
	return s
}
