package store

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"math"
	"reflect"
	"slices"
	"sync"
	"time"
)

// Key is a SHA-256 (FIPS 180-4) of values.
type Key [sha256.Size]byte

// String is the key in hexadecimal.
func (k Key) String() string { return hex.EncodeToString(k[:]) }

// KeyOf hashes values with all that they hold and lead to, so that a field that is
// added to one of them cannot be forgotten. Two calls with values of the same types
// have the same key only if the values are the same; an empty list is a list without
// one, and a moment is another in another zone. It panics at what tells nothing of
// itself, as a function, and at what leads back to itself.
func KeyOf(values ...any) Key {
	w := writers.Get().(*writer)
	defer writers.Put(w)
	w.buffer = w.buffer[:0]
	for _, v := range values {
		switch v := v.(type) { // the commonest, without looking into them
		case string:
			w.text(v)
		case Key:
			w.buffer = append(w.buffer, v[:]...)
		case [sha256.Size]byte:
			w.buffer = append(w.buffer, v[:]...)
		default:
			w.value(reflect.ValueOf(v), 0)
		}
	}
	return sha256.Sum256(w.buffer)
}

// writers have buffers that were big enough for other values.
var writers = sync.Pool{New: func() any { return new(writer) }}

// writer spells values out so that no two of a type are spelt alike.
type writer struct{ buffer []byte }

// deepest is how far values may lie within each other: much further than any of ours.
const deepest = 50

var timeType = reflect.TypeFor[time.Time]()

func (w *writer) value(v reflect.Value, depth int) {
	if depth > deepest {
		panic("store: no key of a value that leads too deep, or back to itself")
	}
	switch v.Kind() {
	case reflect.Bool:
		w.flag(v.Bool())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		w.number(uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		w.number(v.Uint())
	case reflect.Float32, reflect.Float64:
		w.number(math.Float64bits(v.Float()))
	case reflect.String:
		w.text(v.String())
	case reflect.Array, reflect.Slice:
		w.number(uint64(v.Len()))
		for i := range v.Len() {
			w.value(v.Index(i), depth+1)
		}
	case reflect.Map:
		w.pairs(v, depth+1)
	case reflect.Struct:
		w.fields(v, depth+1)
	case reflect.Pointer, reflect.Interface:
		w.flag(!v.IsNil())
		if !v.IsNil() {
			if v.Kind() == reflect.Interface {
				w.text(v.Elem().Type().String())
			}
			w.value(v.Elem(), depth+1)
		}
	default:
		panic(fmt.Sprintf("store: no key of a %s", v.Kind()))
	}
}

func (w *writer) flag(is bool) {
	if is {
		w.buffer = append(w.buffer, 1)
	} else {
		w.buffer = append(w.buffer, 0)
	}
}

func (w *writer) number(n uint64) { w.buffer = binary.LittleEndian.AppendUint64(w.buffer, n) }

func (w *writer) text(s string) {
	w.number(uint64(len(s)))
	w.buffer = append(w.buffer, s...)
}

func (w *writer) fields(v reflect.Value, depth int) {
	if v.Type() == timeType {
		t := v.Interface().(time.Time)
		_, offset := t.Zone()
		w.number(uint64(t.Unix()))
		w.number(uint64(t.Nanosecond()))
		w.number(uint64(offset))
		w.text(t.Location().String())
		return
	}
	for i := range v.NumField() {
		w.value(v.Field(i), depth)
	}
}

// pairs writes a map in the order of its keys as they are spelt.
func (w *writer) pairs(v reflect.Value, depth int) {
	w.number(uint64(v.Len()))
	start, ends := len(w.buffer), make([]int, 0, v.Len())
	for pairs := v.MapRange(); pairs.Next(); {
		w.value(pairs.Key(), depth)
		w.value(pairs.Value(), depth)
		ends = append(ends, len(w.buffer))
	}
	if len(ends) < 2 {
		return
	}
	all, from := make([]string, len(ends)), start
	for i, end := range ends {
		all[i], from = string(w.buffer[from:end]), end
	}
	slices.Sort(all)
	w.buffer = w.buffer[:start]
	for _, pair := range all {
		w.buffer = append(w.buffer, pair...)
	}
}
