package book

import (
	"strings"

	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

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
