package book

import (
	"cmp"
	"slices"
	"strings"

	"golang.org/x/text/collate"
	"golang.org/x/text/language"
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
