package chart

import (
	"html"
	"net/url"
	"strings"
)

// pen writes the elements of a drawing. Its coordinates are finite and inside
// the viewBox by construction: they come from scales, which clamp.
type pen struct{ strings.Builder }

// anchor says which point of a text stands at its x.
type anchor string

const (
	begin  anchor = ""
	middle anchor = "middle"
	end    anchor = "end"
)

func (p *pen) add(parts ...string) {
	for _, part := range parts {
		p.WriteString(part)
	}
}

// text sets words with their baseline at y. An empty class is plain text.
func (p *pen) text(class string, x, y float64, a anchor, words string) {
	if words == "" {
		return
	}
	p.add(`<text`)
	if class != "" {
		p.add(` class="`, class, `"`)
	}
	p.add(` x="`, num(x), `" y="`, num(y), `"`)
	if a != begin {
		p.add(` text-anchor="`, string(a), `"`)
	}
	p.add(`>`, html.EscapeString(words), "</text>\n")
}

func (p *pen) path(class, d string) {
	if d != "" {
		p.add(`<path class="`, class, `" d="`, d, "\"/>\n")
	}
}

func (p *pen) rect(class string, x, y, w, h float64) {
	p.add(`<rect class="`, class, `" x="`, num(x), `" y="`, num(y), `" width="`, num(w), `" height="`, num(h), "\"/>\n")
}

// circle without a class takes the colours of the group that it stands in.
func (p *pen) circle(class string, x, y, r float64) {
	p.add(`<circle`)
	if class != "" {
		p.add(` class="`, class, `"`)
	}
	p.add(` cx="`, num(x), `" cy="`, num(y), `" r="`, num(r), `"/>`)
}

func (p *pen) group(class string) { p.add(`<g class="`, class, `">`) }
func (p *pen) endGroup()          { p.add("</g>\n") }

// link begins a link; the caller has made sure that the address is safe.
func (p *pen) link(href string) { p.add(`<a href="`, html.EscapeString(href), `">`) }
func (p *pen) endLink()         { p.add("</a>\n") }

// safe tells whether an address may stand in a page: a relative one, or one of
// the web, of a length that people use. Anything that a browser would run instead of visit is not.
func safe(href string) bool {
	u, err := url.Parse(href)
	if err != nil || href == "" || len(href) > 200 || oneLine(href) != href {
		return false
	}
	return u.Scheme == "" || u.Scheme == "http" || u.Scheme == "https"
}

// trace is the d of a path, in absolute commands.
type trace struct{ strings.Builder }

func (t *trace) to(command byte, x, y float64) {
	t.WriteByte(command)
	t.WriteString(num(x) + " " + num(y))
}

func (t *trace) move(x, y float64) { t.to('M', x, y) }
func (t *trace) line(x, y float64) { t.to('L', x, y) }

func (t *trace) across(x float64) { t.WriteString("H" + num(x)) }
func (t *trace) down(y float64)   { t.WriteString("V" + num(y)) }

// upright and level add one separate stroke.
func (t *trace) upright(x, y1, y2 float64) { t.move(x, y1); t.down(y2) }
func (t *trace) level(y, x1, x2 float64)   { t.move(x1, y); t.across(x2) }
