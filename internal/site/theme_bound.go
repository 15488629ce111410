package site

import (
	"fmt"
	"html/template"
	"io"
	"strconv"
	"strings"
	"sync"
	"text/template/parse"
)

// What a replacement template may do for one page. The largest page of our own, all gyles
// in a list, takes some dozens of steps and a kilobyte a gyle.
const (
	mostTemplateSteps = 1_000_000 // rounds of a range and templates called
	mostTemplateBytes = 64 << 20
)

// stepFunction is called at each step, under a name that no template has.
const stepFunction = "gylebookStep"

// boundError says which bound was passed.
type boundError string

func (e boundError) Error() string { return string(e) }

// boundTemplate is a replacement of a page that comes to an end: it counts its steps and its
// bytes. It is executed once at a time, so that the count is of one page.
type boundTemplate struct {
	page *template.Template

	mu    sync.Mutex
	steps int
}

// bound makes each template of a page, and each round of each range in it, count a step.
func bound(page *template.Template) (*boundTemplate, error) {
	b := &boundTemplate{page: page.Funcs(template.FuncMap{stepFunction: func() (string, error) { return "", nil }})}
	for _, t := range page.Templates() {
		if t.Tree == nil || t.Tree.Root == nil {
			continue
		}
		if err := countIn(t.Tree, t.Tree.Root); err != nil {
			return nil, err
		}
		if err := count(t.Tree, t.Tree.Root, t.Tree.Root); err != nil {
			return nil, err
		}
	}
	page.Funcs(template.FuncMap{stepFunction: b.step})
	return b, nil
}

// countIn goes through nodes and has each range count.
func countIn(tree *parse.Tree, list *parse.ListNode) error {
	if list == nil {
		return nil
	}
	for _, n := range list.Nodes {
		var branch *parse.BranchNode
		switch n := n.(type) {
		case *parse.IfNode:
			branch = &n.BranchNode
		case *parse.WithNode:
			branch = &n.BranchNode
		case *parse.RangeNode:
			branch = &n.BranchNode
		default:
			continue
		}
		if err := countIn(tree, branch.List); err != nil {
			return err
		}
		if err := countIn(tree, branch.ElseList); err != nil {
			return err
		}
		if _, is := n.(*parse.RangeNode); is {
			if err := count(tree, branch.List, n); err != nil {
				return err
			}
		}
	}
	return nil
}

// count puts a step before all that a list does, as if it stood where a node does. It sets a
// variable and writes nothing, so that it may stand in any context of HTML.
func count(tree *parse.Tree, list *parse.ListNode, at parse.Node) error {
	place, _ := tree.ErrorContext(at) // file:line:column
	parts := strings.Split(place, ":")
	line, _ := strconv.Atoi(parts[min(1, len(parts)-1)])
	source := strings.Repeat("\n", max(0, line-1)) + "{{$_ := " + stepFunction + "}}"
	trees, err := parse.Parse(parts[0], source, "", "", map[string]any{stepFunction: tree})
	if err != nil {
		return fmt.Errorf("counting the steps of %s: %w", place, err)
	}
	nodes := trees[parts[0]].Root.Nodes
	list.Nodes = append([]parse.Node{nodes[len(nodes)-1]}, list.Nodes...)
	return nil
}

func (b *boundTemplate) step() (string, error) {
	if b.steps++; b.steps > mostTemplateSteps {
		return "", boundError(fmt.Sprintf("it takes more than %d steps for one page", mostTemplateSteps))
	}
	return "", nil
}

// ExecuteTemplate executes a template of the page, within the bounds.
func (b *boundTemplate) ExecuteTemplate(w io.Writer, name string, v any) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.steps = 0
	return b.page.ExecuteTemplate(&boundWriter{w, mostTemplateBytes}, name, v)
}

// boundWriter takes so many bytes and no more.
type boundWriter struct {
	io.Writer
	left int
}

func (w *boundWriter) Write(data []byte) (int, error) {
	if w.left -= len(data); w.left < 0 {
		return 0, boundError(fmt.Sprintf("it writes more than %d MB into one page", mostTemplateBytes>>20))
	}
	return w.Writer.Write(data)
}
