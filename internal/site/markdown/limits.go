package markdown

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// The limits. A long chapter has 40 KB, a rich paragraph a hundred marks, a
// wide table twenty columns, so an honest story stays far below all of them.
// What they bound was measured: goldmark's links, emphases and code spans take
// time that grows with the square of the marks in a paragraph, quotations and
// lists with the square of their depth, and a table's cells are the product of
// its width and its length whatever was typed.
const (
	maxStory      = 512 << 10 // bytes
	maxMarks      = 1500      // in one paragraph
	maxDepth      = 40        // quotations and lists in one another
	maxColumns    = 64        // of a table
	maxCells      = 12000     // of a table
	maxHeading    = 2000      // bytes of one heading
	maxReferences = 2000      // definitions of links and footnotes, and footnotes' calls
)

// marks are the characters that begin something within a paragraph.
const marks = "[]()*_`<!~&\"'"

// tame is the text as it may be given to goldmark: valid, without control
// characters, bounded. Lines stay where they are.
func tame(story string) ([]byte, []Fault) {
	clean := cleaned(story)
	var faults []Fault
	if len(clean) > maxStory {
		cut := bytes.LastIndexByte(clean[:maxStory], '\n') + 1
		if cut == 0 {
			cut = maxStory
			for !utf8.RuneStart(clean[cut]) {
				cut--
			}
		}
		clean = clean[:cut]
		faults = append(faults, Fault{Line: bytes.Count(clean, []byte("\n")) + 1, Column: 1, ID: "story-too-long",
			Says: fmt.Sprintf("the story is longer than %d KB; the rest is left out", maxStory>>10), Do: "Make two notes of it and link them."})
	}
	if line := tooDeep(clean); line > 0 {
		faults = append(faults, tooRich(line, fmt.Sprintf("more than %d quotations or lists stand in one another", maxDepth)))
		return fenced(clean), faults
	}
	if bytes.Count(clean, []byte("[^"))+bytes.Count(clean, []byte("]:")) > maxReferences {
		faults = append(faults, tooRich(1, fmt.Sprintf("there are more than %d footnotes and definitions", maxReferences)))
		return fenced(clean), faults
	}
	return clean, faults
}

func tooRich(line int, says string) Fault {
	return Fault{Line: line, Column: 1, ID: "story-too-rich", Says: says + "; it is shown as it was typed", Do: "Break it up."}
}

// cleaned is the text in UTF-8 without control characters.
func cleaned(story string) []byte {
	story = strings.ToValidUTF8(story, "\uFFFD")
	return []byte(strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == 0x7F {
			return '\uFFFD'
		}
		return r
	}, story))
}

// tooDeep is the first line that opens more blocks in one another than allowed,
// 0 for none. It counts every marker at the beginning of one line; lists that
// deepen line by line are bounded by the indent that each line must then have.
func tooDeep(source []byte) int {
	number := 0
	for line := range bytes.Lines(source) {
		number++
		depth, blanks, digits := 0, 0, 0
	scan:
		for _, c := range line {
			switch {
			case c == '>' || c == '-' || c == '*' || c == '+' || c == '.' && digits > 0 || c == ')' && digits > 0:
				depth++
				digits = 0
			case c >= '0' && c <= '9':
				digits++
			case c == ' ' || c == '\t':
				blanks++
			default:
				break scan
			}
			if depth > maxDepth && blanks > 0 && !rule(line) || depth > maxDepth && c == '>' {
				return number
			}
		}
	}
	return 0
}

// rule tells a line of one repeated mark, such as a thematic break, which opens
// nothing.
func rule(line []byte) bool {
	bare := bytes.Join(bytes.Fields(line), nil)
	return len(bare) > 0 && bytes.Count(bare, bare[:1]) == len(bare) && bare[0] != '>' && bare[0] != '+'
}

// fenced is the text as one block of code that nothing in it can end. The fence
// opens on a line of its own, so that the lines below stay nearly in place.
func fenced(source []byte) []byte {
	longest, run := 3, 0
	for _, c := range source {
		if c == '~' {
			run++
			longest = max(longest, run+1)
		} else {
			run = 0
		}
	}
	fence := strings.Repeat("~", longest)
	return []byte(fence + "\n" + string(source) + "\n" + fence + "\n")
}

// limits is the extension that shows a paragraph or table as it was typed where
// it has too much in it.
type limits struct{}

// Extend adds the extension.
func (limits) Extend(m goldmark.Markdown) {
	m.Parser().AddOptions(
		parser.WithParagraphTransformers(util.Prioritized(limits{}, 50)),
		parser.WithBlockParsers(util.Prioritized(longHeading{parser.NewATXHeadingParser()}, 590)),
	)
	m.Renderer().AddOptions(renderer.WithNodeRenderers(util.Prioritized(limits{}, 100)))
}

// typed is a block shown as it was typed.
type typed struct{ ast.BaseBlock }

var kindTyped = ast.NewNodeKind("Typed")

// Kind is the node's kind.
func (*typed) Kind() ast.NodeKind { return kindTyped }

// IsRaw says that nothing within is parsed.
func (*typed) IsRaw() bool { return true }

// Dump prints the node for debugging.
func (n *typed) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// Transform replaces a paragraph that has too much in it.
func (limits) Transform(node *ast.Paragraph, reader text.Reader, pc parser.Context) {
	segments := node.Lines()
	source := reader.Source()
	count, columns := 0, 0
	for i := range segments.Len() {
		segment := segments.At(i)
		line := segment.Value(source)
		for _, c := range line {
			if strings.IndexByte(marks, c) >= 0 {
				count++
			}
		}
		columns = max(columns, bytes.Count(line, []byte("|"))+1)
	}
	says := ""
	switch {
	case count > maxMarks:
		says = fmt.Sprintf("a paragraph has more than %d marks of Markdown", maxMarks)
	case isTable(segments, source) && (columns > maxColumns || columns*segments.Len() > maxCells):
		says = fmt.Sprintf("a table has more than %d columns or %d cells", maxColumns, maxCells)
	default:
		return
	}
	job := pc.Get(jobKey).(*job)
	line, _ := job.position(segments.At(0).Start)
	job.faults = append(job.faults, tooRich(line, says))
	block := &typed{}
	block.SetLines(segments)
	node.Parent().ReplaceChild(node.Parent(), node, block)
}

// isTable tells whether some line could be the rule under a table's header.
func isTable(segments *text.Segments, source []byte) bool {
	for i := 1; i < segments.Len(); i++ {
		segment := segments.At(i)
		if line := bytes.TrimSpace(segment.Value(source)); len(line) > 0 && len(bytes.Trim(line, "|:- \t")) == 0 {
			return true
		}
	}
	return false
}

// RegisterFuncs registers the renderer.
func (limits) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(kindTyped, func(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			var b strings.Builder
			for i := range n.Lines().Len() {
				segment := n.Lines().At(i)
				b.Write(segment.Value(source))
			}
			_, _ = w.WriteString(plain([]byte(b.String())))
		}
		return ast.WalkSkipChildren, nil
	})
}

// longHeading takes a line that begins like a heading and is far too long for
// one as a paragraph, which the limits above then judge.
type longHeading struct{ parser.BlockParser }

// Trigger is what a heading begins with.
func (longHeading) Trigger() []byte { return []byte{'#'} }

// Open opens a paragraph-like block for an overlong heading, else leaves the
// line to the next parser.
func (longHeading) Open(parent ast.Node, reader text.Reader, pc parser.Context) (ast.Node, parser.State) {
	line, segment := reader.PeekLine()
	if len(line) <= maxHeading {
		return nil, parser.NoChildren
	}
	job := pc.Get(jobKey).(*job)
	number, _ := job.position(segment.Start)
	job.faults = append(job.faults, tooRich(number, fmt.Sprintf("a heading is longer than %d bytes", maxHeading)))
	block := &typed{}
	block.Lines().Append(segment)
	reader.AdvanceToEOL()
	return block, parser.NoChildren
}

// Continue ends the block after its line.
func (longHeading) Continue(ast.Node, text.Reader, parser.Context) parser.State { return parser.Close }

// Close does nothing: the block is whole.
func (longHeading) Close(ast.Node, text.Reader, parser.Context) {}
