package journal

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"
)

// writeValues prints every written value below v as "key: value @line:col".
func writeValues(b *strings.Builder, v any) {
	eachValue(reflect.ValueOf(v), func(w Where, value string) {
		fmt.Fprintf(b, "%s = %s @%d:%d\n", w.Key, value, w.Line, w.Column)
	})
}

// eachValue calls do for every leaf that was written below v.
func eachValue(v reflect.Value, do func(w Where, value string)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			eachValue(v.Elem(), do)
		}
	case reflect.Slice:
		for i := range v.Len() {
			eachValue(v.Index(i), do)
		}
	case reflect.Struct:
		if _, ok := v.Addr().Interface().(leaf); ok {
			if w := v.FieldByName("Where").Interface().(Where); w.Written() {
				do(w, leafText(v))
			}
			return
		}
		if v.Type() == reflect.TypeFor[Entry]() || v.Type() == reflect.TypeFor[Where]() ||
			v.Type() == reflect.TypeFor[time.Time]() {
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() && v.Type().Field(i).Type != reflect.TypeFor[*time.Location]() {
				eachValue(v.Field(i), do)
			}
		}
	}
}

// leafText is a leaf's own value, without its place.
func leafText(v reflect.Value) string {
	switch x := v.Interface().(type) {
	case Text:
		return fmt.Sprintf("%q", x.Text)
	case Name:
		return fmt.Sprintf("name %q", x.Name)
	case Flag:
		return fmt.Sprint(x.True)
	case Whole:
		return fmt.Sprint(x.N)
	case Money:
		return fmt.Sprintf("%v %s", x.Sum, x.Currency)
	case Moment:
		return x.Time.Format(time.RFC3339) + map[bool]string{true: " (a date)"}[x.DateOnly]
	}
	if word := v.FieldByName("Word"); word.IsValid() {
		return "word " + word.String()
	}
	if span := v.FieldByName("Range"); span.IsValid() {
		return fmt.Sprintf("%v to %v", span.Field(0).Float(), span.Field(1).Float())
	}
	if v.FieldByName("None").Bool() {
		return "none"
	}
	amount := v.FieldByName("Amount")
	text := fmt.Sprintf("%.6g", amount.FieldByName("Value").Float())
	if amount.FieldByName("Typed").Bool() {
		text += fmt.Sprintf(" ± %.6g", amount.FieldByName("Within").Float())
	}
	return text + " [" + amount.FieldByName("Unit").String() + "]"
}

// TestImpossibleIsRead: what can be read and cannot be is no error of reading; it
// comes with its number, its place and its key, for whoever judges it.
func TestImpossibleIsRead(t *testing.T) {
	text := strings.Join([]string{
		"---", "gyle: 14", "beer: x", "aim: {og: 1041, fg: 1.090, abv: 340 %, condition: -1 vol, bitterness: 1e6 IBU}",
		"mash: {ph: 43}", "party: {guests: -3, hours: -1}",
		"packages: [{vessel: pin, fill: -9 L, spunding: {set: 900 bar}}]",
		"served: {at: -300 C}", "---", "",
	}, "\n")
	d := ReadFile("gyles/14.md", []byte(text), nil)
	if len(d.Errors) > 0 {
		t.Fatalf("errors:\n%s", listing(d.Errors))
	}
	read := map[string]string{}
	eachValue(reflect.ValueOf(d.Gyle), func(w Where,
		value string) {
		read[w.Key] = fmt.Sprintf("%s @%d:%d", value, w.Line, w.Column)
	})
	for key, want := range map[string]string{
		"aim.og": "1041 [] @4:11", "aim.fg": "1.09 [] @4:21", "aim.abv": "340 [%] @4:33",
		"aim.condition": "-1 [vol] @4:51",
		"mash.ph":       "43 [] @5:12", "party.guests": "-3 [] @6:17", "packages[0].fill": "-9 [L] @7:32",
		"packages[0].spunding.set": "900 [bar] @7:54", "served.at": "-300 [°C] @8:14",
	} {
		if read[key] != want {
			t.Errorf("%s is read as %s, want %s", key, read[key], want)
		}
	}
}
