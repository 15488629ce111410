package main

import (
	"go/ast"
	"go/constant"
	"go/types"
	"strconv"
)

// constant changes a number a notch, and a word in a condition.
func (f *finder) constant(e ast.Expr, known types.TypeAndValue) {
	kind, ok := f.typeText(known.Type)
	if !ok || f.fixed(e) {
		return
	}
	other := ""
	switch known.Value.Kind() {
	case constant.Int, constant.Float:
		other = notch(known.Value, isInteger(known.Type), f.at.Offset(e.Pos())%2 == 0)
	case constant.Bool:
		other = strconv.FormatBool(!constant.BoolVal(known.Value))
	case constant.String:
		if f.inCondition(e) {
			other = strconv.Quote(constant.StringVal(known.Value) + "~")
		}
	}
	if other != "" {
		f.add(e, f.text(e), other, "mutantPick["+kind+"](%d, ", ", "+other+")")
	}
}

// notch is a number beside another: the next or the last of those that count, and
// a twentieth more or less of those that measure.
func notch(v constant.Value, whole, up bool) string {
	n, exact := constant.Int64Val(constant.ToInt(v))
	if whole && exact && n > -large && n < large {
		if up || n == 0 {
			return strconv.FormatInt(n+1, 10)
		}
		return strconv.FormatInt(n-1, 10)
	}
	x, _ := constant.Float64Val(v)
	by := 0.95
	if up {
		by = 1.05
	}
	switch {
	case whole:
		return strconv.FormatInt(int64(x*by), 10)
	case x == 0:
		return "0.05"
	}
	return strconv.FormatFloat(x*by, 'g', -1, 64)
}
