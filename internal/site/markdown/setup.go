package markdown

import (
	"sync"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"
)

// job is one rendering: what the transformers share.
type job struct {
	source   []byte
	lines    []int // where each line starts
	resolver Resolver
	level    int
	faults   []Fault
	ids      []string
	links    []Link
}

var jobKey = parser.NewContextKey()

// prefixMeta is the document's footnote prefix among its metadata.
const prefixMeta = "footnote prefix"

// engine is the one parser and renderer, which all renderings share: it keeps
// nothing of any of them.
var engine = sync.OnceValue(func() goldmark.Markdown {
	m := goldmark.New(
		goldmark.WithParser(parser.NewParser(
			parser.WithBlockParsers(blockParsers()...),
			parser.WithInlineParsers(inlineParsers()...),
			parser.WithParagraphTransformers(parser.DefaultParagraphTransformers()...),
		)),
		goldmark.WithRenderer(renderer.NewRenderer(renderer.WithNodeRenderers(
			util.Prioritized(html.NewRenderer(), 1000)))),
		goldmark.WithExtensions(
			extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignNone)),
			extension.NewFootnote(
				extension.WithFootnoteIDPrefixFunction(footnotePrefix),
				extension.WithFootnoteBacklinkTitle("Back to the text"),
			),
			extension.TaskList,
			extension.Typographer,
			limits{}, headings{}, links{}, pictures{}, tables{}, tasks{},
		),
	)
	return m
})

// blockParsers are CommonMark's without raw HTML.
func blockParsers() []util.PrioritizedValue {
	return []util.PrioritizedValue{
		util.Prioritized(parser.NewSetextHeadingParser(), 100),
		util.Prioritized(parser.NewThematicBreakParser(), 200),
		util.Prioritized(parser.NewListParser(), 300),
		util.Prioritized(parser.NewListItemParser(), 400),
		util.Prioritized(parser.NewCodeBlockParser(), 500),
		util.Prioritized(parser.NewATXHeadingParser(), 600),
		util.Prioritized(parser.NewFencedCodeBlockParser(), 700),
		util.Prioritized(parser.NewBlockquoteParser(), 800),
		util.Prioritized(parser.NewParagraphParser(), 1000),
	}
}

// inlineParsers are CommonMark's without raw HTML.
func inlineParsers() []util.PrioritizedValue {
	return []util.PrioritizedValue{
		util.Prioritized(parser.NewCodeSpanParser(), 100),
		util.Prioritized(parser.NewLinkParser(), 200),
		util.Prioritized(parser.NewAutoLinkParser(), 300),
		util.Prioritized(parser.NewEmphasisParser(), 500),
	}
}

func footnotePrefix(n ast.Node) []byte {
	if prefix, ok := n.OwnerDocument().Meta()[prefixMeta].(string); ok {
		return []byte(prefix)
	}
	return nil
}
