package markdown

import (
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"
)

// tables is the extension that writes tables: alignment as a class, header
// cells with their scope, and around it a box that scrolls by itself where the
// table is wider than the page.
type tables struct{}

// Extend adds the extension.
func (tables) Extend(m goldmark.Markdown) {
	m.Renderer().AddOptions(renderer.WithNodeRenderers(util.Prioritized(tables{}, 100)))
}

// RegisterFuncs registers the renderers.
func (tables) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(east.KindTable, renderTable)
	reg.Register(east.KindTableCell, renderCell)
}

func renderTable(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, _ = w.WriteString(`<div class="scroll" role="group" aria-label="Table"><table>` + "\n")
	} else {
		_, _ = w.WriteString("</table></div>\n")
	}
	return ast.WalkContinue, nil
}

func renderCell(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*east.TableCell)
	tag := "td"
	// An empty corner heads nothing.
	if n.Parent().Kind() == east.KindTableHeader && n.HasChildren() {
		tag = "th"
	}
	if !entering {
		_, _ = w.WriteString("</" + tag + ">\n")
		return ast.WalkContinue, nil
	}
	_, _ = w.WriteString("<" + tag)
	if tag == "th" {
		_, _ = w.WriteString(` scope="col"`)
	}
	switch n.Alignment {
	case east.AlignRight:
		_, _ = w.WriteString(` class="right"`)
	case east.AlignCenter:
		_, _ = w.WriteString(` class="centre"`)
	}
	_ = w.WriteByte('>')
	return ast.WalkContinue, nil
}
