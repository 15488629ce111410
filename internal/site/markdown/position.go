package markdown

import (
	"bytes"
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/util"
)

// lineStarts is where each line starts.
func lineStarts(source []byte) []int {
	starts := []int{0}
	for i, c := range source {
		if c == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// position is the line and column of an offset, from 1, columns in characters.
func (j *job) position(offset int) (line, column int) {
	if offset < 0 || offset > len(j.source) {
		return 1, 1
	}
	line = sort.SearchInts(j.lines, offset+1)
	return line, utf8.RuneCount(j.source[j.lines[line-1]:offset]) + 1
}

// fault notes a fault at an offset, if it is one.
func (j *job) fault(f Fault, offset int) {
	if f.ID == "" {
		return
	}
	f.Line, f.Column = j.position(offset)
	j.faults = append(j.faults, f)
}

// plainWords is the text of the whole tree without its marks.
func plainWords(tree ast.Node, source []byte) string {
	var b bytes.Buffer
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n := n.(type) {
		case *ast.Text:
			if entering {
				b.Write(n.Segment.Value(source))
				if n.SoftLineBreak() || n.HardLineBreak() {
					b.WriteByte(' ')
				}
			}
		case *ast.String:
			if entering {
				b.Write(n.Value)
			}
		case *east.FootnoteBacklink, *east.FootnoteLink:
			return ast.WalkSkipChildren, nil
		default:
			if !entering && n.Type() == ast.TypeBlock {
				b.WriteByte('\n')
			}
		}
		return ast.WalkContinue, nil
	})
	// The typographer leaves its marks as entities.
	text := string(util.ResolveEntityNames(util.ResolveNumericReferences(b.Bytes())))
	var lines []string
	for line := range strings.Lines(text) {
		if line = strings.Join(strings.Fields(line), " "); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
}

// writeEscaped writes text as HTML.
func writeEscaped(w interface{ WriteString(string) (int, error) }, text []byte) {
	_, _ = w.WriteString(escape(string(text)))
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "'", "&#39;")

func escape(text string) string { return escaper.Replace(text) }
