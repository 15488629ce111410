package book

import (
	"fmt"
	"strings"

	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

// gristShares is each line's share of the weight, as 78 % of the grist; ""
// throughout where a line has no weight.
func gristShares(grist []journal.Grain) []string {
	total := quantity.Mass(0)
	shares := make([]string, len(grist))
	for _, g := range grist {
		if !g.Weight.Written() || g.Weight.Value <= 0 {
			return shares
		}
		total += g.Weight.Value
	}
	for i, g := range grist {
		shares[i] = share(100*float64(g.Weight.Value/total)) + " of the grist"
	}
	return shares
}

// share is a percentage as weighing supports it: whole, or to a tenth below
// ten.
func share(percent float64) string {
	decimals := 0
	if percent < 9.95 {
		decimals = 1
	}
	return quantity.Fixed(percent, decimals) + " %"
}

// hopAmount is 25 g at 60 min, 15 g steeped 20 min at 80 °C, 15 g dry for
// 3 days.
func hopAmount(h journal.Hop) string {
	weight := spoken(h.Weight)
	switch {
	case h.Boiled.Written():
		return phrase(weight, with("at", spoken(h.Boiled)))
	case h.Steeped.Written():
		return phrase(weight, with("steeped", spoken(h.Steeped)), with("at", spoken(h.At)))
	case h.Dry.Written():
		return phrase(weight, with("dry for", spoken(h.Dry)), with("at", spoken(h.At)))
	}
	return phrase(weight, into(h.Into))
}

func pitchAmount(p journal.Pitch) string {
	from := ""
	if p.FromGyle.Written() {
		from = fmt.Sprintf("from gyle %d", p.FromGyle.N)
	}
	return phrase(firstOf(spoken(p.Weight), spoken(p.Volume), spoken(p.Cells)), p.Sold.String(), from)
}

func fermenterAmount(f journal.Fermenter) string {
	if !f.Volume.Written() {
		return "to work in"
	}
	return spoken(f.Volume) + " to work in"
}

func scoreAmount(t journal.Tasting) string {
	if !t.Score.Written() {
		return ""
	}
	return fmt.Sprintf("%s of %s", quantity.Plain(float64(t.Score.Value)), quantity.Plain(outOf(t)))
}

func into(c journal.Choice[journal.Place]) string {
	switch c.Word {
	case "":
		return ""
	case journal.IntoPackage:
		return "into the container"
	}
	return "into the " + c.String()
}

// first is the first text that says something.
func firstOf(texts ...string) string {
	for _, t := range texts {
		if t != "" {
			return t
		}
	}
	return ""
}

// spoken is a value as typed, with its unit, "" where it was not written.
func spoken[Q quantity.Quantity](v journal.Value[Q]) string {
	if !v.Written() || v.None {
		return ""
	}
	kind := quantity.KindOf[Q]()
	unit := kind.Canonical()
	for _, u := range kind.Units {
		if v.Unit != "" && u.Symbol == v.Unit {
			unit = u
		}
	}
	text := quantity.Plain(unit.Out(float64(v.Value)))
	if v.Unit == "" {
		if kind == quantity.KindOf[quantity.Gravity]() {
			return asGravity(text)
		}
		return text
	}
	return text + " " + v.Unit
}

// asGravity gives a specific gravity at least its three customary decimals.
func asGravity(text string) string {
	whole, decimals, _ := strings.Cut(text, ".")
	for len(decimals) < 3 {
		decimals += "0"
	}
	return whole + "." + decimals
}

// phrase joins what there is of its parts with spaces. A part made of several
// words that needs one of them counts as absent without it: see with.
func phrase(parts ...string) string { return joined(" ", parts) }

// listed joins what there is of its parts with commas.
func listed(parts ...string) string { return joined(", ", parts) }

func joined(by string, parts []string) string {
	kept := parts[:0:0]
	for _, p := range parts {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, by)
}

// with is the word before the text, "" where there is no text.
func with(word, text string) string {
	if text == "" {
		return ""
	}
	return word + " " + text
}
