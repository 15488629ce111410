package site

import (
	"html"
	"html/template"
	"slices"
	"strings"

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
	allowed["pm"], allowed["needs"] = plusMinus, needs
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

// mostNeeds is how many keys a sentence names.
const mostNeeds = 6

// needs are keys of an entry as HTML, told apart from the words between them, and how
// many more there are.
func needs(all []string) template.HTML {
	var parts []string
	for _, need := range all {
		words := strings.Fields(need)
		for i, w := range words {
			key := strings.TrimSuffix(w, ",")
			if strings.ContainsAny(key, ".[") || len(words) == 1 {
				words[i] = "<code>" + html.EscapeString(key) + "</code>" + w[len(key):]
			} else {
				words[i] = html.EscapeString(w)
			}
		}
		if part := strings.Join(words, " "); !slices.Contains(parts, part) {
			parts = append(parts, part)
		}
	}
	if more := len(parts) - mostNeeds; more > 1 {
		parts = append(parts[:mostNeeds], itoa(more)+" more")
	}
	return template.HTML(strings.Join(parts, "; "))
}
