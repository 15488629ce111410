package journal

import (
	"fmt"
	"reflect"
	"strings"
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
