package book

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestSlugs(t *testing.T) {
	for name, want := range map[string]string{
		"Goldings":               "goldings",
		"East  Kent\tGoldings":   "east-kent-goldings",
		"invert no. 3":           "invert-no-3",
		"Lengthsman's Bitter":    "lengthsmans-bitter",
		"Lengthsman’s Bitter":    "lengthsmans-bitter",
		"Über-Weizen ½":          "uber-weizen-1-2",
		"Žatecký poloraný":       "zatecky-polorany",
		"Kölsch Straße":          "kolsch-strasse",
		"Ærø Øl":                 "aero-ol",
		"Жигулёвское":            "zhigulevskoe",
		"Ζύθος":                  "zythos",
		"麦酒":                     "u9ea6u9152",
		"../../etc/passwd":       "etc-passwd",
		"a / b \\ c":             "a-b-c",
		"CON":                    "con-" + Digest("CON", 4),
		"":                       "x" + Digest("", 8),
		"!!!":                    "x" + Digest("!!!", 8),
		strings.Repeat("ab", 99): strings.Repeat("ab", 35) + "a-" + Digest(strings.Repeat("ab", 99), 8),
	} {
		if got := slugOf(name); got != want {
			t.Errorf("%q: got %s, want %s", name, got, want)
		}
	}
}

func TestSlugClashes(t *testing.T) {
	given := slugs([]string{"Golding's", "goldings", "Goldings!", "fuggle"})
	if given["goldings"] != "goldings" || given["fuggle"] != "fuggle" {
		t.Errorf("a name that its folder spells has to add something: %v", given)
	}
	more := slugs([]string{"(goldings)", "Golding's", "goldings", "Goldings!", "fuggle"})
	for name, slug := range given {
		if more[name] != slug {
			t.Errorf("another clashing name moved %q from %s to %s", name, slug, more[name])
		}
	}
}

func TestSlugsAreApartAndPlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfNDistinct(rapid.OneOf(rapid.StringMatching(`[a-bA-B '\-!]{0,4}`), rapid.String()), 1, 12, rapid.ID).Draw(t, "names")
		given := slugs(names)
		seen := map[string]string{}
		for _, name := range names {
			slug := given[name]
			if slug == "" || len(slug) > longestSlug+65 || strings.Trim(slug, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" || strings.HasPrefix(slug, "-") || strings.HasSuffix(slug, "-") {
				t.Fatalf("%q has the folder %q", name, slug)
			}
			if other, taken := seen[slug]; taken {
				t.Fatalf("%q and %q share the folder %s", name, other, slug)
			}
			seen[slug] = name
		}
	})
}
