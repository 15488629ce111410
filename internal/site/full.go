package site

import (
	"html/template"
	"reflect"
)

// full is a value like the given one with something in every field: every list
// has one element, every text a word, every flag is set.
func full(like any) any {
	v := reflect.New(reflect.TypeOf(like).Elem())
	fill(v.Elem())
	return v.Interface()
}

func fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i))
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem())
	case reflect.Slice:
		one := reflect.MakeSlice(v.Type(), 1, 1)
		fill(one.Index(0))
		v.Set(one)
	case reflect.String:
		if v.Type() == reflect.TypeFor[template.HTML]() {
			v.SetString("<b>word</b>")
		} else {
			v.SetString("word")
		}
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int:
		v.SetInt(1)
	}
}
