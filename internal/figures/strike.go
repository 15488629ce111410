package figures

import (
	"fmt"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// The heat of a mash: how hot its liquor must be, and what grist and tun take of that.

func (b *bench) strike(liquor Estimate[q.Volume]) {
	rest := missing[q.Temperature]("mash.rests[0].at")
	if rests := b.Gyle.Mash.Rests; len(rests) > 0 {
		rest = read(b, rests[0].At, "mash.rests[0].at", asWished)
	}
	grain := b.gristHeat()
	tun, tunAt := b.tun(grain)
	share := inWords("U", "0")
	if tun.Value > 0 {
		share = inWords("U", fmt.Sprintf("%s × (%s − %s)", sym("", tun, "").text(), sym("", rest, "").text(), sym("", tunAt, "").text()))
	}
	strike := from6(b, brewing.StrikeTemperatureInTun, rest, grain, b.mashedWeight(), liquor, tun, tunAt)
	lost := b.mashLosesUsually()
	strike = from4(b, func(t q.Temperature, lost q.Number, m q.Mass, liquor q.Volume) (q.Temperature, error) {
		return t + q.Temperature(float64(lost)*(1+brewing.MaltHeat*m.Kilograms()/liquor.Litres())), nil
	}, strike, lost, b.mashedWeight(), liquor)
	add(b, kindStrike, "", strike, sym("Ts", strike, "°C"), sym("T", rest, ""), sym("Tg", grain, ""), sym("m", kilograms(b, b.mashedWeight()), ""), share, sym("L", liquor, ""), sym("l", lost, ""))
}

func (b *bench) gristHeat() Estimate[q.Temperature] {
	if !b.Gyle.Mash.GrainAt.Written() {
		return customary(b, q.Celsius(18), 4, "°C", "the grist's heat", "not written: taken as 18 ± 4 °C, a cool room")
	}
	return read(b, b.Gyle.Mash.GrainAt, "mash.grain_at", ofHeat)
}

// What a heat balance of liquor and grist is out by, in K, where nobody has tried: a tun
// that no card knows takes 0 to 3, and malt gives 0 to 2 by slaking (common practice, no
// source; the trade's books have 1 to 3 with very dry malt).
const (
	slakes = 1.0
	robs   = 1.5
)

// mashLosesUsually is how much cooler than by the balance a mash settles: as this brewer's
// last ones in the same tun did, else not at all, with the doubt of that.
func (b *bench) mashLosesUsually() Estimate[q.Number] {
	if past := b.Past.MashLost[b.Gyle.Mash.Vessel.Name]; past.Enough() {
		return learned[q.Number](b, past, "K", "how much cooler mashes in this tun settled")
	}
	off := slakes
	if !(b.tunTakes().Value > 0) {
		off = robs
	}
	return customary(b, q.Number(0), off, "K", "what the tun takes and slaking gives", "nobody has tried: common practice, no source")
}

// heatLost is how much cooler the mash settled than by the balance.
func (b *bench) heatLost() {
	m := &b.Gyle.Mash
	if !m.Strike.Written() || len(m.Rests) == 0 || !m.Rests[0].At.Written() || b.Stage < Copper {
		return
	}
	grain := b.gristHeat()
	tun, tunAt := b.tun(grain)
	liquor, strike, rest := read(b, m.Liquor, "mash.liquor", ofVolume), read(b, m.Strike, "mash.strike", ofMashHeat), read(b, m.Rests[0].At, "mash.rests[0].at", ofMashHeat)
	settles := from6(b, brewing.SettledAt, strike, grain, b.mashedWeight(), liquor, tun, tunAt)
	lost := from2(b, func(settles, rest q.Temperature) (q.Number, error) { return q.Number(settles - rest), nil }, settles, rest)
	add(b, kindMashHeatLost, "", lost, sym("l", lost, "K"), sym("L", liquor, ""), sym("Ts", strike, ""), sym("m", kilograms(b, b.mashedWeight()), ""),
		sym("Tg", grain, ""), sym("u", tun, ""), inWords("U", fmt.Sprintf("%s × %s", sym("", tun, "").text(), sym("", tunAt, "").text())), sym("T", rest, ""))
}

// tun is the mash tun as the litres of liquor that would take as much heat, and how
// warm it stands: none where no card says, since a tun is usually warmed.
func (b *bench) tun(grain Estimate[q.Temperature]) (takes Estimate[q.Volume], at Estimate[q.Temperature]) {
	takes, at = b.tunTakes(), grain
	if warmed := b.Gyle.Mash.VesselAt; warmed.Written() && takes.Value > 0 {
		at = read(b, warmed, "mash.vessel_at", ofHeat)
	}
	return takes, at
}

func (b *bench) tunTakes() Estimate[q.Volume] {
	card := b.card(journal.CardVessel, b.Gyle.Mash.Vessel)
	if card == nil || card.Vessel == nil || !card.Vessel.Takes.Written() {
		return exactly(q.Volume(0))
	}
	return read(b, card.Vessel.Takes, card.Vessel.Takes.Key, ofTun)
}
