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
	entry := reflect.ValueOf(b.Gyle).Elem()
	b.reportWild(entry, planOf(entry.Type()))
}

// measured is a quantity of an entry, of whatever kind.
type measured interface {
	Measured() (value float64, kind *quantity.Kind, unit string, where journal.Where)
}

var measuredType = reflect.TypeFor[measured]()

// plan is where quantities stand in a value of a type: the value is one itself, each of
// its items has some, or some of its fields do. The nil plan has none.
type plan struct {
	measured bool
	items    *plan
	fields   []plannedField
}

type plannedField struct {
	index int
	plan  *plan
}

// plans are those that were made, by type: a gyle has hundreds of fields.
var plans sync.Map // of reflect.Type to *plan

func planOf(t reflect.Type) *plan {
	if made, ok := plans.Load(t); ok {
		return made.(*plan)
	}
	p := makePlan(t)
	plans.Store(t, p)
	return p
}

// makePlan looks into structs and lists. Pointers lead out of the entry.
func makePlan(t reflect.Type) *plan {
	switch t.Kind() {
	case reflect.Slice:
		if items := planOf(t.Elem()); items != nil {
			return &plan{items: items}
		}
	case reflect.Struct:
		if t.Implements(measuredType) {
			return &plan{measured: true}
		}
		var fields []plannedField
		for i := range t.NumField() {
			if f := t.Field(i); f.IsExported() {
				if p := planOf(f.Type); p != nil {
					fields = append(fields, plannedField{i, p})
				}
			}
		}
		if len(fields) > 0 {
			return &plan{fields: fields}
		}
	}
	return nil
}

// reportWild goes through a part of the entry.
func (b *bench) reportWild(part reflect.Value, p *plan) {
	switch {
	case p.measured:
		b.judge(part.Addr().Interface().(measured))
	case p.items != nil:
		for i := range part.Len() {
			b.reportWild(part.Index(i), p.items)
		}
	}
	for _, f := range p.fields {
		b.reportWild(part.Field(f.index), f.plan)
	}
}

func (b *bench) judge(m measured) {
	value, kind, unit, where := m.Measured()
	if !where.Written() || kind == nil {
		return
	}
	limit := limitsOf(kind)
	if strings.HasSuffix(where.Key, ".room") {
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
