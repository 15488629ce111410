package book

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/collate"
	"golang.org/x/text/language"
	"golang.org/x/text/unicode/norm"
)

// alphabet is the order of words in the journal's language.
func (b *Book) alphabet() *collate.Collator {
	tag, err := language.Parse(b.settings().Language.Text)
	if err != nil {
		tag = language.BritishEnglish
	}
	return collate.New(tag, collate.IgnoreCase, collate.Numeric)
}

// sortByName sorts by the names' collation keys, each made once; names alike in
// that go by their bytes.
func sortByName[T any](c *collate.Collator, all []T, name func(T) string) {
	var buffer collate.Buffer
	keys := make(map[string][]byte, len(all))
	for _, one := range all {
		keys[name(one)] = c.KeyFromString(&buffer, name(one))
	}
	slices.SortStableFunc(all, func(a, b T) int {
		return cmp.Or(slices.Compare(keys[name(a)], keys[name(b)]), strings.Compare(name(a), name(b)))
	})
}

// longestSlug keeps a folder's name well inside what file systems allow.
const longestSlug = 80

// slugOf is a name as a folder's name: lower-case ASCII letters, digits and
// single hyphens. Accents are dropped, Greek and Cyrillic letters are written
// as they commonly are in Latin ones, and a letter of another script is its
// code in hexadecimal, so that different names do not become the same
// nothing. A name without a letter or digit is a short hash of itself.
func slugOf(name string) string {
	var out strings.Builder
	gap := false
	put := func(text string) {
		if gap && out.Len() > 0 {
			out.WriteByte('-')
		}
		gap = false
		out.WriteString(text)
	}
	for _, r := range norm.NFKD.String(strings.ToLower(norm.NFC.String(name))) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			put(string(r))
		case latin[r] != "":
			put(latin[r])
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’' || r == 'ь' || r == 'ъ':
			// an accent, or a mark inside a word
		case unicode.IsLetter(r) || unicode.IsNumber(r):
			put(fmt.Sprintf("u%x", r))
		default:
			gap = true
		}
	}
	return fitted(out.String(), name)
}

// fitted keeps a slug to a length and to names that every file system takes.
func fitted(slug, name string) string {
	switch {
	case slug == "":
		return "x" + Digest(name, 8)
	case len(slug) > longestSlug:
		return strings.TrimRight(slug[:longestSlug-9], "-") + "-" + Digest(name, 8)
	case IsDevice(slug):
		return slug + "-" + Digest(name, 4)
	}
	return slug
}

// IsDevice tells a name, in small letters and without an extension, that Windows keeps to
// itself.
func IsDevice(name string) bool { return slices.Contains(devices, name) }

var devices = strings.Fields(
	"con prn aux nul com1 com2 com3 com4 com5 com6 com7 com8 com9 lpt1 lpt2 lpt3 lpt4 lpt5 lpt6 lpt7 lpt8 lpt9",
)

// Digest is so many hexadecimal digits that tell names apart.
func Digest(name string, digits int) string {
	sum := sha256.Sum256([]byte(name))
	return hex.EncodeToString(sum[:])[:digits]
}

// slugs gives each name one of its own. Where several would have the same one,
// the name that it spells without loss keeps it, else the first in order of
// bytes; the others add a piece of their own hash, which no later name moves.
// The names must differ from each other.
func slugs(names []string) map[string]string {
	ordered := slices.Clone(names)
	slices.SortFunc(ordered, func(a, b string) int {
		if spelt(a) != spelt(b) {
			if spelt(a) {
				return -1
			}
			return 1
		}
		return strings.Compare(a, b)
	})
	taken := make(map[string]bool, len(names))
	given := make(map[string]string, len(names))
	for _, name := range ordered {
		slug := slugOf(name)
		for digits := 6; taken[slug] && digits <= 64; digits++ {
			slug = slugOf(name) + "-" + Digest(name, digits)
		}
		taken[slug] = true
		given[name] = slug
	}
	return given
}

// spelt tells that the slug is the name itself, with hyphens for spaces.
func spelt(name string) bool {
	return slugOf(name) == strings.ReplaceAll(strings.ToLower(name), " ", "-")
}

// latin is how letters that do not come apart into a Latin one and its accent
// are commonly written in Latin letters. Common practice, no source: for Greek
// and Cyrillic there are several customs, and an address only needs one of
// them.
var latin = map[rune]string{
	'ß': "ss", 'æ': "ae", 'œ': "oe", 'ø': "o", 'đ': "d", 'ð': "d", 'þ': "th", 'ł': "l", 'ħ': "h", 'ı': "i",
	'ŋ': "ng",
	'α': "a", 'β': "v", 'γ': "g", 'δ': "d", 'ε': "e", 'ζ': "z", 'η': "i", 'θ': "th", 'ι': "i", 'κ': "k",
	'λ': "l", 'μ': "m", 'ν': "n", 'ξ': "x", 'ο': "o", 'π': "p", 'ρ': "r", 'σ': "s", 'ς': "s", 'τ': "t",
	'υ': "y", 'φ': "f", 'χ': "ch", 'ψ': "ps", 'ω': "o",
	'а': "a", 'б': "b", 'в': "v", 'г': "g", 'д': "d", 'е': "e", 'ж': "zh", 'з': "z", 'и': "i", 'к': "k",
	'л': "l", 'м': "m", 'н': "n", 'о': "o", 'п': "p", 'р': "r", 'с': "s", 'т': "t", 'у': "u", 'ф': "f",
	'х': "kh", 'ц': "ts", 'ч': "ch", 'ш': "sh", 'щ': "shch", 'ы': "y", 'э': "e", 'ю': "yu", 'я': "ya", 'є': "ye",
	'і': "i", 'ґ': "g", 'ђ': "dj", 'ј': "j", 'љ': "lj", 'њ': "nj", 'ћ': "c", 'џ': "dz",
}
