package journal

import (
	"strings"
	"unicode"

	"gylebook/internal/quantity"
)

// Regular expressions for editors, in the dialect that ECMA-262 and RE2 share.
// They accept what the reader accepts, and a little more where a grammar of
// this kind cannot look back: parts that grow instead of shrink (4 oz 1 lb),
// fractions above one, days that no month has.
const (
	decimal = `[-−+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?`
	vulgar  = `(?:[0-9]+ *)?[¼½¾⅓⅔⅛⅜⅝⅞]`
	// A fraction with a stroke stands only where a unit must follow.
	stroke = `(?:[0-9]+ +)?[0-9]+/[0-9]+`
	// A part after the first begins with a digit and no sign.
	laterDecimal = `(?:[0-9]+\.?[0-9]*)(?:[eE][-+]?[0-9]+)?`
	laterVulgar  = `[0-9]+ *[¼½¾⅓⅔⅛⅜⅝⅞]`
	blanks       = `\s*`
	plusMinus    = `(?:±|\+/-|\+-)`

	day           = `[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])`
	clock         = `(?:[01][0-9]|2[0-3]):[0-5][0-9](?::[0-5][0-9](?:\.[0-9]{1,9})?)?`
	clockOffset   = `(?:Z|[-+](?:[01][0-9]|2[0-3]):[0-5][0-9])`
	momentPattern = `^\s*` + day + `(?:[ T]` + clock + clockOffset + `?)?\s*$`

	moneyPattern = `^\s*-?(?:[0-9]+\.?[0-9]*|\.[0-9]+)\s*[A-Z]{3}\s*$`
)

// quantityPattern is what may be written for a quantity or a range.
func quantityPattern(f *field) string {
	one := amountPattern(f.leaf.kind, f.leaf.kind.Bare != nil)
	alternatives := one
	if f.leaf.name == "range" {
		alternatives = "(?:(?:" + amountPattern(f.leaf.kind, true) + ") to )?(?:" + one + ")"
	}
	if f.none != "" {
		alternatives += "|none"
	}
	return "^" + blanks + "(?:" + alternatives + ")" + blanks + "$"
}

// amountPattern is one amount with its half-width; bare says that the unit may
// be left out.
func amountPattern(k *quantity.Kind, bare bool) string {
	units := unitsPattern(k.Units)
	number, laterNumber := "(?:"+vulgar+"|"+decimal+")", "(?:"+laterVulgar+"|"+laterDecimal+")"
	if k.Bare == nil {
		number, laterNumber = "(?:"+vulgar+"|"+stroke+"|"+decimal+")", "(?:"+laterVulgar+"|"+stroke+"|"+laterDecimal+")"
	}
	unit := blanks + units
	parts := "(?:" + blanks + laterNumber + unit + ")*"
	if units == "" {
		return number + "(?:" + blanks + plusMinus + blanks + number + ")?"
	}
	with := number + unit + parts + "(?:" + blanks + plusMinus + blanks + number + "(?:" + unit + ")?)?"
	lent := number + blanks + plusMinus + blanks + number + blanks
	if k.Bare != nil {
		lent += unitsPattern([]quantity.Unit{*k.Bare}) // another's meaning would be in doubt
	} else {
		lent += units
	}
	if !bare {
		return with + "|" + lent
	}
	return with + "|" + lent + "|" + number + "(?:" + blanks + plusMinus + blanks + number + ")?"
}

// unitsPattern is every spelling of every unit, in any case.
func unitsPattern(units []quantity.Unit) string {
	var spellings []string
	for _, u := range units {
		for _, spelling := range append([]string{u.Symbol}, u.Also...) {
			if spelling != "" {
				spellings = append(spellings, anyCase(spelling))
			}
		}
	}
	if len(spellings) == 0 {
		return ""
	}
	return "(?:" + strings.Join(spellings, "|") + ")"
}

// anyCase is a pattern for a word in any case.
func anyCase(word string) string {
	var b strings.Builder
	for _, c := range word {
		lower, upper := unicode.ToLower(c), unicode.ToUpper(c)
		switch {
		case lower != upper:
			b.WriteString("[" + string(upper) + string(lower) + "]")
		case strings.ContainsRune(`.^$*+?()[]{}|\/`, c):
			b.WriteString(`\` + string(c))
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}
