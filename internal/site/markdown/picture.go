package markdown

import (
	"strconv"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// pictures is the extension that asks the Resolver for each picture, and makes a
// figure of one that stands alone.
type pictures struct{}

// Extend adds the extension.
func (pictures) Extend(m goldmark.Markdown) {
	m.Parser().AddOptions(parser.WithASTTransformers(util.Prioritized(pictures{}, 700)))
	m.Renderer().AddOptions(renderer.WithNodeRenderers(util.Prioritized(pictures{}, 100)))
}

// figure is a picture that stands alone, with its caption.
type figure struct {
	ast.BaseBlock
	caption string
}

var kindFigure = ast.NewNodeKind("Figure")

// Kind is the node's kind.
func (*figure) Kind() ast.NodeKind { return kindFigure }

// Dump prints the node for debugging.
func (n *figure) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// Transform resolves every picture of the tree.
func (pictures) Transform(tree *ast.Document, reader text.Reader, pc parser.Context) {
	job := pc.Get(jobKey).(*job)
	var found []*ast.Image
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if n, ok := n.(*ast.Image); ok && entering {
			found = append(found, n)
		}
		return ast.WalkContinue, nil
	})
	for _, n := range found {
		job.show(n)
		if p := n.Parent(); p.Kind() == ast.KindParagraph && p.ChildCount() == 1 && p.Parent() != nil {
			f := &figure{caption: words(n.Title)}
			n.Title = nil
			p.Parent().ReplaceChild(p.Parent(), p, f)
			f.AppendChild(f, n)
		}
	}
}

// show sets what a picture shows, and notes what is wrong with it.
func (j *job) show(n *ast.Image) {
	destination := asMeant(n.Destination)
	alt := words([]byte(plainWords(n, j.source)))
	n.SetAttributeString("alt", alt)
	if alt == "" {
		j.fault(Fault{ID: "alt-missing", Says: "the picture " + destination + " has no words for those who cannot see it",
			Why: "A screen reader has nothing to say for it.", Do: "Write what it shows between the square brackets."}, n.Pos())
	}
	picture := Picture{Name: destination}
	if runs(destination) {
		picture.Fault = Fault{ID: "picture-missing", Says: "a picture cannot be of that kind: " + destination, Do: "Put the picture into the journal and name its file."}
	} else {
		picture = j.resolver.Picture(destination)
	}
	j.fault(picture.Fault, n.Pos())
	n.SetAttributeString("picture", picture)
}

// RegisterFuncs registers the renderers.
func (pictures) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(ast.KindImage, renderImage)
	reg.Register(kindFigure, renderFigure)
}

func renderFigure(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*figure)
	if entering {
		_, _ = w.WriteString("<figure>")
		return ast.WalkContinue, nil
	}
	if n.caption != "" {
		_, _ = w.WriteString("<figcaption>" + escape(n.caption) + "</figcaption>")
	}
	_, _ = w.WriteString("</figure>\n")
	return ast.WalkContinue, nil
}

func renderImage(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	shown, _ := node.AttributeString("picture")
	picture, _ := shown.(Picture)
	described, _ := node.AttributeString("alt")
	alt, _ := described.(string)
	_, _ = w.WriteString(ImageHTML(picture, alt, words(node.(*ast.Image).Title), true))
	return ast.WalkSkipChildren, nil
}

// ImageHTML is a picture as an element, or a box with its name where there is
// none to show. A lazy picture is fetched when it comes near the window.
func ImageHTML(p Picture, alt, title string, lazy bool) string {
	if p.Src == "" {
		label := alt
		if label == "" {
			label = p.Name
		}
		if p.Link != "" {
			return `<a class="broken" href="` + escape(p.Link) + `">` + escape(label) + `</a>`
		}
		return `<span class="broken">Picture: ` + escape(label) + `</span>`
	}
	out := `<img src="` + escape(p.Src) + `"`
	if p.SrcSet != "" {
		out += ` srcset="` + escape(p.SrcSet) + `" sizes="` + escape(p.Sizes) + `"`
	}
	out += ` width="` + strconv.Itoa(p.Width) + `" height="` + strconv.Itoa(p.Height) + `" alt="` + escape(alt) + `"`
	if title != "" {
		out += ` title="` + escape(title) + `"`
	}
	if lazy {
		out += ` loading="lazy"`
	}
	return out + ` decoding="async">`
}
