package site

import (
	"html/template"

	"github.com/Masterminds/sprig/v3"

	"gylebook/internal/site/view"
)

// sprigAllowed are the functions of sprig that templates have. Its own hermetic
// map still holds the clock, chance, keys, paths of the host, maps in random
// order and repetition without bound; and some of the rest lie in wait: default
// takes a measured nought for missing, trunc cuts letters in two. So templates
// have these, which are pure, short and bounded by what they are given.
var sprigAllowed = []string{
	"trim", "trimSuffix", "trimPrefix", "upper", "lower", "contains", "hasPrefix", "hasSuffix", "replace", "plural", "cat",
	"join", "list", "first", "last", "rest", "initial", "reverse", "uniq", "has", "without", "append", "concat", "splitList",
	"empty", "coalesce", "ternary",
}

// functions is everything that templates may call.
func functions() template.FuncMap {
	all := sprig.HtmlFuncMap()
	allowed := template.FuncMap{}
	for _, name := range sprigAllowed {
		allowed[name] = all[name]
	}
	allowed["pm"] = plusMinus
	return allowed
}

// plusMinus is a measure as HTML, its ± set apart; "" for none.
func plusMinus(m view.Measure) template.HTML {
	if m.Value == "" {
		return ""
	}
	text := template.HTMLEscapeString(m.Value)
	if m.PlusMinus != "" {
		text += `<span class="pm">` + "\u00a0±\u00a0" + template.HTMLEscapeString(m.PlusMinus) + `</span>`
	}
	if m.Unit != "" {
		text += "\u00a0" + template.HTMLEscapeString(m.Unit)
	}
	return template.HTML(text)
}
