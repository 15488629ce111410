package figures

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// begunAsBeer tells whether the gyle was drawn from others instead of mashed. Sugar that
// was put into such beer later stands in its grist and makes no wort of it.
func (s *Sheet) begunAsBeer() bool {
	return len(s.Gyle.DrawnFrom) > 0 && !s.Gyle.Fermenter.Gravity.Written() && !slices.ContainsFunc(s.Gyle.Grist, func(g journal.Grain) bool {
		return g.Malt.Name != "" || g.Adjunct.Name != "" || g.Into.Is(journal.IntoMash, journal.IntoCopper)
	})
}

// blended is what the beers come to that a gyle was drawn from, two at a time. A
// split is one beer and stays what it was.
func blended[Q ~float64](b *bench, id ID, mix func(v1 q.Volume, a Q, v2 q.Volume, b Q) (Q, error)) Estimate[Q] {
	var mixed Estimate[Q]
	var volume Estimate[q.Volume]
	for i := range b.Gyle.DrawnFrom {
		d := &b.Gyle.DrawnFrom[i]
		e, v := fromGyle[Q](b, d, id), read(b, d.Volume, keyOf(d.Volume.Where, "drawn_from", i, "volume"), ofVolume)
		if i == 0 {
			mixed, volume = e, v
			continue
		}
		mixed = from4(b, mix, volume, mixed, v, e)
		volume = sum(b, volume, v)
	}
	return mixed
}

// drawnGravity is a gravity of the beers this one was drawn from, blended so that
// their extract is conserved.
func (b *bench) drawnGravity(id ID) Estimate[q.Gravity] {
	return blended(b, id, brewing.BlendedGravity)
}

// byVolume blends what is in beer litre for litre: bitterness, and colour, which
// light passes through in turn (Beer and Lambert).
func byVolume[Q ~float64](v1 q.Volume, a Q, v2 q.Volume, b Q) (Q, error) {
	if v1+v2 <= 0 {
		return 0, errNothingDrawn
	}
	return (a*Q(v1) + b*Q(v2)) / Q(v1+v2), nil
}

// drawnOver are the figures of a gyle that begins as beer and are its sources'.
func (b *bench) drawnOver() {
	bitterness := blended(b, kindBitterness.ID, byVolume[q.Bitterness])
	b.blend(add(b, kindBitterness, "", bitterness))
	ratio := from2(b, bitternessRatio, bitterness, b.og())
	add(b, kindBitternessRatio, "", ratio, sym("r", ratio, ""), sym("B", bitterness, ""), sym("OG", b.og(), ""))
	b.blend(add(b, kindColour, "", blended(b, kindColour.ID, byVolume[q.Colour])))
}

// blend says of a figure that other gyles' sheets hold its working.
func (b *bench) blend(f *Figure) {
	if f == nil {
		return
	}
	names := make([]string, len(b.Gyle.DrawnFrom))
	for i := range b.Gyle.DrawnFrom {
		d := &b.Gyle.DrawnFrom[i]
		names[i] = fmt.Sprintf("gyle %d", d.Gyle.N)
	}
	f.Note = "as worked out for " + strings.Join(names, " and ")
	if len(names) > 1 {
		f.Note += ", by volume"
	}
}

// fromGyle is another gyle's figure here, with all that makes its doubt: so the
// bias of one instrument stays one input, in both gravities of one beer and in
// both beers of a blend.
func fromGyle[Q ~float64](b *bench, d *journal.Drawn, id ID) Estimate[Q] {
	what := fmt.Sprintf("gyle %d", d.Gyle.N)
	if b.Other == nil {
		return withheld[Q](what + " is not at hand")
	}
	other := b.Other(d.Gyle.N)
	if other == nil || other.Gyle == b.Gyle {
		return withheld[Q](what + " is not in the journal")
	}
	f, ok := other.Find(id, "")
	if !ok {
		return withheld[Q](what + " has no " + nameOf(id) + " yet")
	}
	e := exactly(Q(f.Value))
	for _, sh := range f.shares {
		e = sum(b, e, lent[Q](b, other.Inputs[sh.input], sh, what))
	}
	return e
}

// lent is what one input of another gyle's figure does to it, as an input here.
// An instrument's bias is the same in every gyle; what no line says is of that
// gyle alone.
func lent[Q ~float64](b *bench, in Input, sh share, what string) Estimate[Q] {
	if !in.Where.Written() && !strings.HasPrefix(in.What, biasOfAny) && !strings.Contains(in.What, inGyle) {
		in.What += inGyle + strings.TrimPrefix(what, "gyle ")
	}
	moved := 0.0
	if b.astray != nil && in.Uncertainty > 0 {
		if z := b.astray(in) / in.Uncertainty; z > 0 {
			moved = z * float64(sh.up)
		} else {
			moved = -z * float64(sh.down)
		}
	}
	return Estimate[Q]{Value: Q(moved), u: sh.larger(), shares: []share{{input: int32(b.inputNumber(&in)), up: sh.up, down: sh.down}}, known: true}
}

const (
	biasOfAny = "the bias of"
	inGyle    = " in gyle "
)

// nameOf is a kind's label as it stands within a sentence.
func nameOf(id ID) string {
	for _, k := range Kinds() {
		if k.ID == id {
			return strings.ToLower(k.Label)
		}
	}
	return string(id)
}

var errNothingDrawn = errors.New("nothing was drawn")
