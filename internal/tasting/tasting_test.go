package tasting

import (
	"slices"
	"strings"
	"testing"
)

func TestFileReads(t *testing.T) {
	b, err := parse(source)
	if err != nil {
		t.Fatal(err)
	}
	if len(b.words) < 50 {
		t.Errorf("only %d words", len(b.words))
	}
	abouts := []string{"appearance", "aroma", "taste", "body", "finish", "whole"}
	for _, w := range b.words {
		if !slices.Contains(abouts, w.About) {
			t.Errorf("%s is about %q, none of %v", w.Word, w.About, abouts)
		}
		if len(w.LeadsTo) > 0 && (w.Ask == "" || !strings.HasSuffix(w.Ask, ".") && !strings.HasSuffix(w.Ask, "?")) {
			t.Errorf("%s asks nothing, or no sentence: %q", w.Word, w.Ask)
		}
		if len(w.Also) < 2 || len(w.Misspelt) == 0 {
			t.Errorf("%s has too few other words or slips", w.Word)
		}
	}
}

func TestParseRefusesADoubledSpelling(t *testing.T) {
	_, err := parse([]byte("- {word: sour, also: [tart]}\n- {word: sharp, misspelt: [Tart]}"))
	if err == nil || !strings.Contains(err.Error(), "both sour and sharp") {
		t.Errorf("got %v", err)
	}
	if _, err := parse([]byte("- {word: sour, alos: [tart]}")); err == nil {
		t.Error("a key that is none was passed over")
	}
}

func TestKnown(t *testing.T) {
	for typed, want := range map[string]string{
		"thin": "thin", "Watery": "thin", "a bit  WATERY": "thin", "watry": "thin", "light-bodied": "thin",
		"too sweet": "sweet", "rather too sweet": "sweet", "sweat": "sweet",
		"diacetyl": "buttery", "Diacetil": "buttery", "toffee": "toffee", "toffee-slick": "buttery",
		"fobs": "gushing", "floaters": "bits", "tart": "sour", "acetic": "vinegary", "phenolic": "clove", "smokey": "clove",
		"nail varnish": "solvent", "hot": "boozy", "sulfury": "sulphur", "struck match": "sulphur", "tea": "astringent",
		"bitter": "bitter", "very bitter": "too bitter", "not bitter enough": "not bitter enough", "no head": "poor head",
		"bready": "yeasty", "prickly": "fizzy", "papery.": "cardboard", "moreish": "balanced", "green": "green apple",
		// No guesses: a denial, a word that is none, a story, nothing.
		"not sweet": "", "never sour": "", "wibbly": "", "": "", " - ": "", "sweetsour": "",
		strings.Repeat("sweet ", 40): "",
	} {
		w, ok := Known(typed)
		if w.Word != want || ok != (want != "") {
			t.Errorf("Known(%q) is %q, %v; want %q", typed, w.Word, ok, want)
		}
	}
}

func TestNearest(t *testing.T) {
	for _, c := range []struct{ typed, spelt, word string }{
		{"cardbaord", "cardboard", "cardboard"},
		{"vinnegar", "vinegar", "vinegary"},
		{"astringnet", "astringent", "astringent"},
		{"a bit buttrey", "buttery", "buttery"},
		{"medicnial", "medicinal", "medicinal"},
		{"metalllic", "metallic", "metallic"},
		{"not swete", "", ""},                                   // a denial is no slip
		{"strange", "", ""}, {"dusty", "", ""}, {"odd", "", ""}, // other words, not slips
		{"zebra", "", ""}, {"xx", "", ""}, {"", "", ""},
		{"like the inside of a loaf", "", ""},
		{strings.Repeat("z", 10000), "", ""},
	} {
		if spelt, word := Nearest(c.typed); spelt != c.spelt || word != c.word {
			t.Errorf("Nearest(%q) is %q for %q, want %q for %q", c.typed, spelt, word, c.spelt, c.word)
		}
	}
}

// FuzzFound: whatever is typed as a tasting word, it is one known word or none,
// known again when spelt as pages spell it, and every suggestion is known.
func FuzzFound(f *testing.F) {
	for _, w := range Words() {
		f.Add(w.Word)
	}
	for _, odd := range []string{"", "too too too", "a bit of", "not", "Ünbekannt", "\x00\xff", "é", strings.Repeat("very ", 30) + "thin", "’'’"} {
		f.Add(odd)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		if w, ok := Known(typed); ok {
			again, ok := Known(w.Word)
			if !ok || again.Word != w.Word {
				t.Errorf("%q is %q, which is %q", typed, w.Word, again.Word)
			}
		} else if w.Word != "" {
			t.Errorf("%q is not known, yet %q", typed, w.Word)
		}
		spelt, word := Nearest(typed)
		if spelt == "" {
			return
		}
		if w, ok := Known(spelt); !ok || w.Word != word {
			t.Errorf("the nearest of %q is %q for %q, which is %q", typed, spelt, word, w.Word)
		}
	})
}
