package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"strconv"
	"strings"
)

// A finder looks for faults to put into one file.
type finder struct {
	source []byte
	at     *token.File
	info   *types.Info
	types  *types.Package
	file   *ast.File
	within string
	around []ast.Node // of the node being looked at, the outermost first
	found  []*fault
}

// look goes through the file.
func (f *finder) look() {
	for _, d := range f.file.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Body != nil {
				f.within = nameOf(d)
				f.walk(d.Body)
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				if v, ok := spec.(*ast.ValueSpec); ok && d.Tok == token.VAR {
					f.within = v.Names[0].Name
					f.walk(v)
				}
			}
		}
	}
}

// nameOf is a function's name, with its receiver's type.
func nameOf(d *ast.FuncDecl) string {
	if d.Recv == nil || len(d.Recv.List) == 0 {
		return d.Name.Name
	}
	switch t := d.Recv.List[0].Type.(type) {
	case *ast.StarExpr:
		return "(" + types.ExprString(t) + ")." + d.Name.Name
	default:
		return types.ExprString(t) + "." + d.Name.Name
	}
}

func (f *finder) walk(n ast.Node) {
	ast.Inspect(n, func(n ast.Node) bool {
		if n == nil {
			f.around = f.around[:len(f.around)-1]
			return true
		}
		deeper := f.node(n)
		if deeper {
			f.around = append(f.around, n)
		}
		return deeper
	})
}

// node looks at one node, and tells whether to look into it.
func (f *finder) node(n ast.Node) bool {
	if e, ok := n.(ast.Expr); ok {
		return f.expression(e)
	}
	switch n := n.(type) {
	case *ast.GenDecl:
		return n.Tok != token.CONST
	case *ast.IfStmt:
		f.negated(n.Cond)
	case *ast.ForStmt:
		f.negated(n.Cond)
	case *ast.ExprStmt, *ast.AssignStmt, *ast.IncDecStmt, *ast.BranchStmt, *ast.ReturnStmt:
		f.dropped(n.(ast.Stmt))
	}
	return true
}

// expression looks at an expression, and tells whether to look into it.
func (f *finder) expression(e ast.Expr) bool {
	known := f.info.Types[e]
	switch {
	case known.IsType():
		return false
	case known.Value != nil:
		f.constant(e, known)
		return false
	}
	switch e := e.(type) {
	case *ast.BinaryExpr:
		f.binary(e)
	case *ast.UnaryExpr:
		if e.Op == token.SUB {
			f.instead(e, f.text(e.X))
		}
	}
	return true
}

// turned is what each operator is mistaken for.
var turned = map[token.Token][]string{
	token.LSS: {"<=", ">="}, token.LEQ: {"<", ">"}, token.GTR: {">=", "<="}, token.GEQ: {">", "<"},
	token.EQL: {"!="}, token.NEQ: {"=="},
	token.ADD: {"-"}, token.SUB: {"+"}, token.MUL: {"/"}, token.QUO: {"*"}, token.REM: {"*"},
}

func (f *finder) binary(e *ast.BinaryExpr) {
	if isString(f.info.TypeOf(e)) {
		return
	}
	for _, op := range turned[e.Op] {
		f.instead(e, f.text(e.X)+" "+op+" "+f.text(e.Y))
	}
	if e.Op != token.LAND && e.Op != token.LOR {
		return
	}
	for _, half := range []struct{ dropped, kept ast.Expr }{{e.X, e.Y}, {e.Y, e.X}} {
		before := "(mutantOn(%d) || "
		if e.Op == token.LOR {
			before = "(!mutantOn(%d) && "
		}
		f.add(half.dropped, f.text(e), f.text(half.kept), before+"(", "))")
	}
}

// instead puts another expression of the same type in place of one.
func (f *finder) instead(e ast.Expr, other string) {
	kind, ok := f.typeText(f.info.TypeOf(e))
	if !ok {
		return
	}
	f.add(e, f.text(e), other, fmt.Sprintf("func() %s { if mutantOn(%%d) { return %s }; return ", kind, escaped(other)),
		" }()")
}

// escaped is a text for a format.
func escaped(text string) string { return strings.ReplaceAll(text, "%", "%%") }

// negated negates a condition that is more than a comparison, which is turned round
// by itself.
func (f *finder) negated(cond ast.Expr) {
	if cond == nil || f.info.Types[cond].Value != nil {
		return
	}
	if b, ok := ast.Unparen(cond).(*ast.BinaryExpr); ok && turned[b.Op] != nil {
		return
	}
	f.add(cond, "if "+f.text(cond), "if not", "(mutantOn(%d) != (", "))")
}

// dropped leaves a statement out, where the function is still one without it.
func (f *finder) dropped(s ast.Stmt) {
	if len(f.around) == 0 || !f.droppable(s) {
		return
	}
	switch block := f.around[len(f.around)-1].(type) {
	case *ast.CaseClause, *ast.CommClause:
		if _, returns := s.(*ast.ReturnStmt); returns {
			return // a switch that returns everywhere would no longer end the function
		}
	case *ast.BlockStmt:
		if _, returns := s.(*ast.ReturnStmt); returns && !f.early(block) {
			return
		}
	default:
		return
	}
	f.add(s, f.text(s), "nothing", "if !mutantOn(%d) { ", " }")
}

// early tells a block that a function may go on after: that of an if without else.
func (f *finder) early(block *ast.BlockStmt) bool {
	if len(f.around) < 2 {
		return false
	}
	s, ok := f.around[len(f.around)-2].(*ast.IfStmt)
	return ok && s.Body == block && s.Else == nil
}

// droppable tells a statement that does something which a test could miss. What a
// lock guards only the race detector sees.
func (f *finder) droppable(s ast.Stmt) bool {
	switch s := s.(type) {
	case *ast.AssignStmt:
		name, blank := s.Lhs[0].(*ast.Ident)
		return s.Tok != token.DEFINE && !(len(s.Lhs) == 1 && blank && name.Name == "_")
	case *ast.ExprStmt:
		call := f.text(s.X)
		return !strings.HasPrefix(call, "panic(") && !strings.HasSuffix(call, "ock()")
	case *ast.BranchStmt:
		return s.Tok == token.BREAK || s.Tok == token.CONTINUE
	}
	return true
}

// large is from where on a whole number is not counted but measured.
const large = 1000

// fixed tells a constant that the language wants to be one: the length of an array,
// the place of an element.
func (f *finder) fixed(e ast.Expr) bool {
	if len(f.around) == 0 {
		return false
	}
	switch in := f.around[len(f.around)-1].(type) {
	case *ast.ArrayType:
		return true
	case *ast.KeyValueExpr:
		return in.Key == e
	}
	return false
}

// inCondition tells an expression that decides what is done.
func (f *finder) inCondition(e ast.Expr) bool {
	child := ast.Node(e)
	for i := len(f.around) - 1; i >= 0; i-- {
		switch n := f.around[i].(type) {
		case *ast.BinaryExpr:
			if n.Op == token.EQL || n.Op == token.NEQ {
				return true
			}
		case *ast.IfStmt:
			return n.Cond == child
		case *ast.CaseClause:
			for _, c := range n.List {
				if c == child {
					return true
				}
			}
			return false
		case ast.Stmt, *ast.FuncLit:
			return false
		}
		child = f.around[i]
	}
	return false
}

// typeText is a type as this file may write it; false where it may not.
func (f *finder) typeText(t types.Type) (string, bool) {
	if t == nil {
		return "", false
	}
	if b, ok := t.(*types.Basic); ok && b.Info()&types.IsUntyped != 0 {
		t = types.Default(t)
	}
	ok := true
	text := types.TypeString(t, func(p *types.Package) string {
		if p == f.types {
			return ""
		}
		for _, spec := range f.file.Imports {
			if path, err := strconv.Unquote(spec.Path.Value); err == nil && path == p.Path() {
				if spec.Name != nil {
					return spec.Name.Name
				}
				return p.Name()
			}
		}
		ok = false
		return ""
	})
	return text, ok && !strings.Contains(text, "untyped")
}

func (f *finder) text(n ast.Node) string {
	return string(f.source[f.at.Offset(n.Pos()):f.at.Offset(n.End())])
}

func (f *finder) add(n ast.Node, was, is, before, after string) {
	f.found = append(f.found, &fault{
		within: f.within, was: oneLine(was), is: oneLine(is),
		from: f.at.Offset(n.Pos()), to: f.at.Offset(n.End()), before: before, after: after,
	})
}

// oneLine is a text on one line, the beginning of it where it is long.
func oneLine(text string) string {
	const most = 90
	text = strings.Join(strings.Fields(text), " ")
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return text
}

func isString(t types.Type) bool {
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsString != 0
}

func isInteger(t types.Type) bool {
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsInteger != 0
}
