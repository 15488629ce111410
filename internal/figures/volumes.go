package figures

import (
	"fmt"

	q "gylebook/internal/quantity"
)

var (
	kindLosses = &Kind{
		ID: IDLosses, Label: "Lost", Unit: "L", Decimals: 1,
		Says:    "Volume lost at each step: in the copper's trub and hoses, in racking, between the racked volume and the containers, and what was dumped. Beer that another gyle drew off is not lost.",
		Formula: "{l} = {A} − {B}",
		Symbols: []string{"l: lost, L", "A: before the step, with what was put in and less what was drawn off or dumped meanwhile, L at 20 °C", "B: after it, L"},
		Valid:   "any step with both volumes", Source: "definition", Checked: "the volumes of a gyle close",
	}
	kindPints = &Kind{
		ID: IDPints, Label: "Pints racked", Unit: "UK pints", Decimals: 0,
		Says:    "Beer in all containers, in UK pints of 568.26 mL.",
		Formula: "{n} = {V} ÷ 0.56826",
		Symbols: []string{"n: UK pints", "V: beer in all containers, L"},
		Valid:   "any volume", Source: "Units of Measurement Regulations 1995", Checked: "exact",
	}
	kindPintsLeft = &Kind{
		ID: IDPintsLeft, Label: "Pints left", Unit: "UK pints", Decimals: 0,
		Says:    "What can still be drawn: the pints racked, less sediment, and what was poured, dumped or drawn off into another gyle.",
		Formula: "{n} = max(0, ({V} − {s} − {p}) ÷ 0.56826)",
		Symbols: []string{"n: UK pints", "V: beer in containers not yet empty, L", "s: sediment, L", "p: poured, dumped and drawn off, L"},
		Valid:   "any volume", Source: "Units of Measurement Regulations 1995; sediment is common practice, no source", Checked: "volume balance",
	}
	volumeKinds = []*Kind{kindLosses, kindPints, kindPintsLeft}
)

// volumesOf is where the beer went.
func volumesOf(b *bench) {
	if b.Stage >= Working {
		b.losses()
	}
	if b.Stage >= Maturing {
		racked := b.allContents()
		pints := from1(b, asPints, racked)
		add(b, kindPints, "", pints, sym("n", pints, ""), sym("V", racked, "L"))
		b.left()
	}
}

// afterBoil is the wort after the boil and the liquor added to it.
func (b *bench) afterBoil() Estimate[q.Volume] {
	after := b.measuredVolume(b.Gyle.Copper.After, "copper.after.volume")
	if b.Gyle.Fermenter.Topped.Written() {
		after = sum(b, after, read(b, b.Gyle.Fermenter.Topped, "fermenter.topped_up", ofVolume))
	}
	return after
}

// allContents is the beer in all containers, else what was racked.
func (b *bench) allContents() Estimate[q.Volume] {
	if len(b.Containers()) == 0 {
		return b.rackedVolume()
	}
	total := exactly(q.Volume(0))
	for _, c := range b.Containers() {
		total = sum(b, total, b.contents(c))
	}
	return total
}

func asPints(v q.Volume) (q.Number, error) {
	if v < 0 {
		return 0, fmt.Errorf("less than nothing is left")
	}
	return q.Number(v.UKPints()), nil
}
