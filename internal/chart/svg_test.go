package chart

import (
	"encoding/xml"
	"errors"
	"fmt"
	"html/template"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// drawing is an SVG read back: what a test needs to judge it.
type drawing struct {
	width, height float64
	role          string
	ids, labelled []string
	classes       map[string]bool
	hrefs         []string
	title, desc   string
	texts         []box
	lines         []box // the strokes of class event
}

// box is where something stands. Of a text it is a bound.
type box struct {
	words                    string
	left, right, top, bottom float64
}

func (b box) meets(o box) bool {
	return b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom
}

var pathNumber = regexp.MustCompile(`-?[0-9.]+|[A-Za-z]`)

// readSVG parses a chart and complains about all that no chart may do: markup
// that is not well formed, colours outside classes, numbers that are not, and
// coordinates outside the viewBox.
func readSVG(svg template.HTML) (*drawing, error) {
	d := &drawing{classes: map[string]bool{}}
	dec := xml.NewDecoder(strings.NewReader(string(svg)))
	var open []xml.StartElement
	for {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return d, d.wellKept()
		}
		if err != nil {
			return nil, err
		}
		switch e := token.(type) {
		case xml.StartElement:
			open = append(open, e)
			if err := d.element(e); err != nil {
				return nil, fmt.Errorf("<%s>: %w", e.Name.Local, err)
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				d.chars(open[len(open)-1].Name.Local, string(e))
			}
		}
	}
}

func (d *drawing) element(e xml.StartElement) error {
	value := map[string]string{}
	for _, a := range e.Attr {
		value[a.Name.Local] = a.Value
		if slices.Contains([]string{"style", "fill", "stroke", "opacity", "onclick", "onload"}, a.Name.Local) {
			return fmt.Errorf("attribute %s", a.Name.Local)
		}
	}
	for class := range strings.FieldsSeq(value["class"]) {
		d.classes[class] = true
	}
	if id := value["id"]; id != "" {
		d.ids = append(d.ids, id)
	}
	switch e.Name.Local {
	case "svg":
		d.role, d.labelled = value["role"], strings.Fields(value["aria-labelledby"])
		_, err := fmt.Sscanf(value["viewBox"], "0 0 %g %g", &d.width, &d.height)
		return err
	case "text":
		return d.text(value)
	case "path":
		return d.path(value)
	case "circle":
		return d.corners(value, "cx", "cy", "r", "r", true)
	case "rect":
		return d.corners(value, "x", "y", "width", "height", false)
	case "a":
		d.hrefs = append(d.hrefs, value["href"])
	}
	return nil
}

// number reads a coordinate of at most two decimals.
func number(s string) (float64, error) {
	if _, decimals, _ := strings.Cut(s, "."); len(decimals) > 2 {
		return 0, fmt.Errorf("%q has more than two decimals", s)
	}
	if strings.Trim(s, "-.0123456789") != "" {
		return 0, fmt.Errorf("%q is no plain number", s)
	}
	return strconv.ParseFloat(s, 64)
}

func (d *drawing) inside(xs, ys []float64) error {
	const rounding = 0.06
	for i := range xs {
		if xs[i] < -rounding || xs[i] > d.width+rounding || ys[i] < -rounding || ys[i] > d.height+rounding {
			return fmt.Errorf("(%g, %g) lies outside %g × %g", xs[i], ys[i], d.width, d.height)
		}
	}
	return nil
}

func (d *drawing) corners(value map[string]string, x, y, w, h string, round bool) error {
	var n [4]float64
	for i, name := range []string{x, y, w, h} {
		var err error
		if n[i], err = number(value[name]); err != nil {
			return err
		}
	}
	if n[2] < 0 || n[3] < 0 {
		return fmt.Errorf("negative size %g × %g", n[2], n[3])
	}
	if round {
		return d.inside([]float64{n[0] - n[2], n[0] + n[2]}, []float64{n[1] - n[3], n[1] + n[3]})
	}
	return d.inside([]float64{n[0], n[0] + n[2]}, []float64{n[1], n[1] + n[3]})
}

func (d *drawing) text(value map[string]string) error {
	x, errX := number(value["x"])
	y, errY := number(value["y"])
	if err := errors.Join(errX, errY); err != nil {
		return err
	}
	// The words follow; until then the box holds the anchor.
	b := box{left: x, right: x, top: y - 9, bottom: y + 2, words: value["text-anchor"] + "|" + value["class"]}
	d.texts = append(d.texts, b)
	return d.inside([]float64{x, x}, []float64{b.top, b.bottom})
}

// path follows absolute commands with a pair of numbers each (H and V have one).
func (d *drawing) path(value map[string]string) error {
	var command string
	var x, y, fromX, fromY float64
	var xs, ys []float64
	words := pathNumber.FindAllString(value["d"], -1)
	for i := 0; i < len(words); i++ {
		if words[i] >= "A" {
			command = words[i]
			continue
		}
		n, err := number(words[i])
		if err != nil {
			return err
		}
		fromX, fromY = x, y
		switch command {
		case "H":
			x = n
		case "V":
			y = n
		default:
			i++
			if x = n; i == len(words) {
				return errors.New("half a point")
			}
			if y, err = number(words[i]); err != nil {
				return err
			}
		}
		xs, ys = append(xs, x), append(ys, y)
		if command == "V" && value["class"] == "event" {
			d.lines = append(d.lines, box{left: x, right: fromX, top: min(y, fromY), bottom: max(y, fromY)})
		}
	}
	return d.inside(xs, ys)
}

func (d *drawing) chars(element, words string) {
	switch element {
	case "title":
		d.title += words
	case "desc":
		d.desc += words
	case "text":
		b := &d.texts[len(d.texts)-1]
		anchor, class, _ := strings.Cut(b.words, "|")
		b.words = words
		w := breadth(words)
		if class == "strong" {
			w = breadthStrong(words)
		}
		switch anchor {
		case "end":
			b.left -= w
		case "middle":
			b.left, b.right = b.left-w/2, b.right+w/2
		default:
			b.right += w
		}
	}
}

// wellKept looks at the chart as a whole: names, and labels against labels.
func (d *drawing) wellKept() error {
	if d.title == "" || d.desc == "" || fmt.Sprint(d.ids) != fmt.Sprint(d.labelled) {
		return fmt.Errorf("title %q, desc %q, ids %v, labelled by %v", d.title, d.desc, d.ids, d.labelled)
	}
	if (d.role == "img") != (len(d.hrefs) == 0) {
		return fmt.Errorf("role %s with %d links", d.role, len(d.hrefs))
	}
	for i, a := range d.texts {
		if err := d.inside([]float64{a.left, a.right}, []float64{a.top, a.bottom}); err != nil {
			return fmt.Errorf("text %q: %w", a.words, err)
		}
		for _, b := range d.texts[i+1:] {
			if a.meets(b) {
				return fmt.Errorf("%q lies on %q", a.words, b.words)
			}
		}
		for _, line := range d.lines {
			if a.meets(box{left: line.left, right: line.right + 0.1, top: line.top, bottom: line.bottom}) {
				return fmt.Errorf("%q is crossed by a line at %g", a.words, line.left)
			}
		}
	}
	return nil
}
