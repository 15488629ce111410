package markdown

import (
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"
)

// tasks is the extension that writes the ticks of task lists. They are marks
// with words, not form controls: nobody can tick them on a page.
type tasks struct{}

// Extend adds the extension.
func (tasks) Extend(m goldmark.Markdown) {
	m.Renderer().AddOptions(renderer.WithNodeRenderers(util.Prioritized(tasks{}, 100)))
}

// RegisterFuncs registers the renderer.
func (tasks) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(east.KindTaskCheckBox, func(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			mark := `<span class="tick" role="img" aria-label="to do">☐</span> `
			if node.(*east.TaskCheckBox).IsChecked {
				mark = `<span class="tick" role="img" aria-label="done">☑</span> `
			}
			_, _ = w.WriteString(mark)
		}
		return ast.WalkContinue, nil
	})
}
