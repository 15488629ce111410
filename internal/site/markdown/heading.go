package markdown

import (
	"strconv"
	"strings"
	"unicode"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// headings is the extension that levels headings and gives them ids.
type headings struct{}

// Extend adds the extension.
func (headings) Extend(m goldmark.Markdown) {
	m.Parser().AddOptions(parser.WithASTTransformers(util.Prioritized(headings{}, 500)))
}

// Transform gives every heading the level that follows from those it stands
// under, so that the page's outline has no gaps whatever was typed, and an id.
func (headings) Transform(tree *ast.Document, reader text.Reader, pc parser.Context) {
	job := pc.Get(jobKey).(*job)
	var under []int
	taken := map[string]int{}
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		for len(under) > 0 && under[len(under)-1] >= h.Level {
			under = under[:len(under)-1]
		}
		under = append(under, h.Level)
		h.Level = min(job.level+len(under)-1, 6)
		id := unique(headingID(plainWords(h, reader.Source())), taken)
		h.SetAttributeString("id", []byte(id))
		job.ids = append(job.ids, id)
		return ast.WalkSkipChildren, nil
	})
}

// Hyphenated keeps the letters and digits of every language, in lower case, with
// a hyphen for what is between them, and stops soon after so many bytes.
func Hyphenated(words string, limit int) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(words) {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) {
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
		} else {
			gap = true
		}
		if b.Len() > limit {
			break
		}
	}
	return b.String()
}

// headingID is a heading's words as an id. Ids that begin like the site's own
// (p-, w-, fn) get another beginning.
func headingID(words string) string {
	id := Hyphenated(words, 80)
	if id == "" || strings.HasPrefix(id, "p-") || strings.HasPrefix(id, "w-") || strings.HasPrefix(id, "fn") {
		id = strings.TrimSuffix("h-"+id, "-")
	}
	return id
}

// unique is id, numbered where another heading has it. It remembers the last
// number of each, so that many equal headings take no more than linear time.
func unique(id string, taken map[string]int) string {
	found := id
	for taken[found] > 0 {
		taken[id]++
		found = id + "-" + strconv.Itoa(taken[id])
	}
	taken[found] = 1
	return found
}
