package markdown

import (
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// links is the extension that asks the Resolver where each link leads.
type links struct{}

// Extend adds the extension.
func (links) Extend(m goldmark.Markdown) {
	m.Parser().AddOptions(parser.WithASTTransformers(util.Prioritized(links{}, 600)))
	m.Renderer().AddOptions(renderer.WithNodeRenderers(util.Prioritized(links{}, 100)))
}

// Transform resolves every link of the tree.
func (links) Transform(tree *ast.Document, reader text.Reader, pc parser.Context) {
	job := pc.Get(jobKey).(*job)
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Link:
			job.resolve(n)
		case *ast.AutoLink:
			address := string(n.URL(reader.Source()))
			if n.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(address), "mailto:") {
				address = "mailto:" + address
			}
			target := job.target(address, n.Pos())
			n.SetAttributeString("href", target.Href)
		}
		return ast.WalkContinue, nil
	})
}

// resolve sets a link's address, and its words where it has none.
func (j *job) resolve(n *ast.Link) {
	target := j.target(asMeant(n.Destination), n.Pos())
	n.Destination = []byte(target.Href)
	if target.Class != "" {
		n.SetAttributeString("class", target.Class)
	}
	if n.HasChildren() {
		return
	}
	words := target.Text
	if words == "" {
		words = target.Href
	}
	n.AppendChild(n, ast.NewString([]byte(words)))
}

// asMeant is a destination without its backslashes before marks, and with the characters
// that its entities stand for.
func asMeant(destination []byte) string {
	return string(util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(destination))))
}

// target is where a destination leads, with its fault noted.
func (j *job) target(destination string, offset int) Target {
	var target Target
	if runs(destination) {
		scheme, _, _ := strings.Cut(destination, ":")
		target = Target{Text: destination, Fault: Fault{ID: "link-refused",
			Says: "a link of the kind " + scheme + ": is left out", Why: "It could run something in a reader's browser.", Do: "Link to an address that begins with https:."}}
	} else {
		target = j.resolver.Link(destination)
	}
	j.fault(target.Fault, offset)
	if target.Href != "" {
		line, column := j.position(offset)
		j.links = append(j.links, Link{Line: line, Column: column, Destination: destination, Href: target.Href})
	}
	return target
}

// runs tells a destination that a browser could run, or that smuggles in
// content of its own. Browsers pass over blanks and control characters in a
// scheme, so those are taken out first.
func runs(destination string) bool {
	bare := strings.ToLower(strings.Map(func(r rune) rune {
		if r <= ' ' || r == '\uFFFD' {
			return -1
		}
		return r
	}, destination))
	for _, scheme := range []string{"javascript:", "vbscript:", "data:", "file:", "blob:", "about:", "view-source:"} {
		if strings.HasPrefix(bare, scheme) {
			return true
		}
	}
	return false
}

// RegisterFuncs registers the renderers.
func (links) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(ast.KindLink, renderLink)
	reg.Register(ast.KindAutoLink, renderAutoLink)
}

func renderLink(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*ast.Link)
	if !entering {
		if len(n.Destination) == 0 {
			_, _ = w.WriteString("</span>")
		} else {
			_, _ = w.WriteString("</a>")
		}
		return ast.WalkContinue, nil
	}
	class, _ := n.AttributeString("class")
	name, _ := class.(string)
	if len(n.Destination) == 0 {
		if name == "" {
			name = "dead"
		}
		_, _ = w.WriteString(`<span class="` + name + `">`)
		return ast.WalkContinue, nil
	}
	_, _ = w.WriteString(`<a href="` + escape(string(n.Destination)) + `"`)
	if name != "" {
		_, _ = w.WriteString(` class="` + name + `"`)
	}
	if len(n.Title) > 0 {
		_, _ = w.WriteString(` title="` + escape(words(n.Title)) + `"`)
	}
	_ = w.WriteByte('>')
	return ast.WalkContinue, nil
}

func renderAutoLink(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	n := node.(*ast.AutoLink)
	label := escape(string(n.Label(source)))
	attribute, _ := n.AttributeString("href")
	if href, _ := attribute.(string); href != "" {
		_, _ = w.WriteString(`<a href="` + escape(href) + `">` + label + `</a>`)
	} else {
		_, _ = w.WriteString(`<span class="dead">` + label + `</span>`)
	}
	return ast.WalkContinue, nil
}

// words is a title or an alternative text as it reads, with a curly apostrophe
// like that of the body.
func words(text []byte) string {
	resolved := string(util.UnescapePunctuations(util.ResolveEntityNames(util.ResolveNumericReferences(text))))
	return strings.Join(strings.Fields(strings.ReplaceAll(resolved, "'", "’")), " ")
}
