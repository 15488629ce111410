package figures

import (
	"reflect"
	"strings"
	"sync"

	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

// impossibles reports every quantity of the entry that cannot be true, whether or not
// any figure asks for it: a pH of 43, an aim of 1041.
func impossibles(b *bench) {
	b.reportWild(reflect.ValueOf(b.Gyle).Elem())
}

// measured is a quantity of an entry, of whatever kind.
type measured interface {
	Measured() (value float64, kind *quantity.Kind, unit string, where journal.Where)
}

// fields are the fields of a type in which quantities may stand: by their index.
var fields sync.Map // of reflect.Type to []int

var measuredType = reflect.TypeFor[measured]()

// reportWild goes through a part of the entry.
func (b *bench) reportWild(part reflect.Value) {
	switch part.Kind() {
	case reflect.Slice:
		for i := range part.Len() {
			b.reportWild(part.Index(i))
		}
	case reflect.Struct:
		if part.Type().Implements(measuredType) {
			b.judge(part.Interface().(measured))
			return
		}
		for _, i := range fieldsOf(part.Type()) {
			b.reportWild(part.Field(i))
		}
	}
}

// fieldsOf are the indices of the fields that a quantity may stand in or below.
func fieldsOf(t reflect.Type) []int {
	if known, ok := fields.Load(t); ok {
		return known.([]int)
	}
	var all []int
	for i := range t.NumField() {
		if f := t.Field(i); f.IsExported() && holdsQuantities(f.Type) {
			all = append(all, i)
		}
	}
	fields.Store(t, all)
	return all
}

// holdsQuantities tells whether a quantity may stand in a value of a type. Pointers
// lead out of the entry.
func holdsQuantities(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Slice:
		return holdsQuantities(t.Elem())
	case reflect.Struct:
		return t.Implements(measuredType) || len(fieldsOf(t)) > 0
	}
	return false
}

func (b *bench) judge(m measured) {
	value, kind, unit, where := m.Measured()
	if !where.Written() || kind == nil {
		return
	}
	limit := limitsOf(kind)
	if strings.HasSuffix(where.Key, "room") {
		limit = roomLimits // the air of a room, not beer
	}
	if !limit.hold(value) {
		b.reportImpossible(Impossible{
			Where: where, Kind: kind, Found: typedIn(value, kind, unit), Limit: limit.say(kind), Guess: guessOf(value, kind, unit),
		})
	}
}

// roomLimits are what the room that a vessel stands in may hold, in litres.
var roomLimits = limits{100, 1e7}
