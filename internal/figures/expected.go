package figures

import (
	"math"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// What is to be expected of a beer: where its yeast should stop, and how far that takes its
// extract.

// expectedFG is where the gravity should stop: the lower of the forecast and of what
// the yeast is known for, since a beer that has slowed for a day draws a curve that
// ends too high, and gas reckoned too low bursts bottles. The longer the readings
// have stood level, the nearer it is to the last of them; it is never above that.
func (b *bench) expectedFG() Estimate[q.Gravity] {
	return b.memoExpectedFG.once(func() Estimate[q.Gravity] {
		promised, last := b.promisedFG(), b.fg()
		if b.asDrawn() {
			return first(b.drawnGravity(kindExpectedFG.ID), promised)
		}
		if !last.known {
			return promised
		}
		left := b.stood(allOf).promise()
		if left < nothingLeft {
			return last
		}
		return from2(b, func(last, promised q.Gravity) (q.Gravity, error) {
			return last - q.Gravity(left)*max(last-promised, 0), nil
		}, last, promised)
	})
}

// nothingLeft is the part of a promise that no longer prints.
const nothingLeft = 0.005

// promisedFG is the lower of the forecast and of where the yeast should stop.
func (b *bench) promisedFG() Estimate[q.Gravity] {
	byYeast := b.expectedByYeast()
	f, _ := b.forecastCurve()
	if f == nil {
		return byYeast
	}
	if !byYeast.known {
		return b.forecastFG()
	}
	return from2(b, func(a, c q.Gravity) (q.Gravity, error) { return min(a, c), nil }, b.forecastFG(), byYeast)
}

// expectedByYeast is where the yeast should stop, whatever the readings say. What
// no yeast can use, such as lactose, stays in the beer on top; plain sugar ferments
// right out.
func (b *bench) expectedByYeast() Estimate[q.Gravity] {
	return b.endsAt(b.musts().joined, b.expectedAttenuation())
}

// unfermentable is how many points of gravity come from sugars that yeast cannot
// use, by the cards of the lines that count: lactose all of it, syrups in part.
func (b *bench) unfermentable(counts func(*journal.Grain) bool) Estimate[q.Number] {
	total := exactly(q.Number(0))
	for i := range b.Gyle.Grist {
		g := &b.Gyle.Grist[i]
		card := b.cardOfGrain(g)
		if card == nil || card.Sugar == nil || !card.Sugar.Fermentable.Written() || card.Sugar.Fermentable.Value > mostlyFermentable || !counts(g) {
			continue
		}
		weight := read(b, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight)
		fermentable := read(b, card.Sugar.Fermentable, card.Sugar.Fermentable.Key, doubt{})
		total = sum(b, total, from3(b, func(m q.Mass, e q.Extract, fermentable q.Percent) (q.Number, error) {
			degrees, err := brewing.LitreDegrees(m, e)
			return q.Number(1-fermentable.Fraction()) * degrees, err
		}, weight, b.extractOf(i, g), fermentable))
	}
	if total.known && total.Value == 0 {
		return total
	}
	return from2(b, func(degrees q.Number, v q.Volume) (q.Number, error) {
		return degrees / q.Number(v.Litres()), nil
	}, total, first(b.fermenterVolume(), read(b, b.Gyle.Aim.Volume, "aim.volume", asWished)))
}

// mostlyFermentable is the share above which a sugar counts in the yeast's own
// attenuation, as the malt's dextrins do.
const mostlyFermentable = 50

// expectedAttenuation is what the yeast should do: by the brewer's own card, else by
// this brewer's past with it, else by the card that is built in, else as ale yeasts do;
// the last three less where the mash was warmer than theirs.
func (b *bench) expectedAttenuation() Estimate[q.Percent] {
	for i := range b.Gyle.Yeast {
		p := &b.Gyle.Yeast[i]
		card := b.card(journal.CardYeast, p.Yeast)
		says := card != nil && card.Yeast != nil && card.Yeast.Attenuates.Written()
		if past := b.Past.Attenuation[p.Yeast.Name]; past.Enough() && (!says || card.BuiltIn) {
			return b.mashedAt(learned[q.Percent](b, past, "%", "the past with "+p.Yeast.Name), past.Mash)
		}
		if says {
			a := card.Yeast.Attenuates
			e := input(b, a.Middle(), Input{
				What: "what the card of " + p.Yeast.Name + " says", Where: a.Where,
				Uncertainty: standard(float64(a.HalfWidth())), Unit: "%", Reason: "half the range on the card",
			})
			if !card.BuiltIn {
				return e
			}
			return b.mashedAt(e, usualMash)
		}
	}
	return b.mashedAt(customary(b, (anyYeastLeast+anyYeastMost)/2, float64(anyYeastMost-anyYeastLeast)/2, "%",
		"how far a yeast that no card knows ferments", "ale yeasts take 67 to 83 % (common practice, no source)"), usualMash)
}

// What a warmer mash does to the attenuation: 82 % at 65 °C and 70 % at 70 °C in a brewing
// school's laboratory series with lager malt. Home trials find next to nothing below 66 °C,
// and an older paper puts the best attenuation at 62.5 °C (MBAA Tech. Q. 11(1) 31-34): so
// anything from none of it to twice of it, and no farther than the series goes.
const (
	DryerPerKelvin    = 2.4 // % apparent
	DryerPerKelvinOff = 2.4
	usualMash         = 66.0 // °C: the middle of 64 to 68 (common practice, no source)
	mashSeries        = 3.3  // K to either side
)

// mashedAt is an attenuation that goes with one heat of the mash, at this gyle's.
func (b *bench) mashedAt(e Estimate[q.Percent], by float64) Estimate[q.Percent] {
	rest, ok := b.conversionRest()
	if !ok || by == 0 {
		return e
	}
	off := min(max(rest-by, -mashSeries), mashSeries)
	dryer := customary(b, q.Number(DryerPerKelvin), DryerPerKelvinOff, "%", "what a warmer mash does to the attenuation",
		"none of 2.4 % for each degree, to twice of it (a brewing school's series; home trials)")
	return from2(b, func(a q.Percent, per q.Number) (q.Percent, error) { return a - q.Percent(float64(per)*off), nil }, e, dryer)
}

// conversionRest is the heat, in °C, of the rest that decides how far the wort ferments: the
// one nearest to the usual mash, between 60 and 74 °C. Others cook, rest protein or stop the
// mash.
func (s *Sheet) conversionRest() (heat float64, ok bool) {
	for i := range s.Gyle.Mash.Rests {
		at := s.Gyle.Mash.Rests[i].At
		c := at.Value.Celsius()
		if at.Written() && c >= 60 && c <= 74 && (!ok || math.Abs(c-usualMash) < math.Abs(heat-usualMash)) {
			heat, ok = c, true
		}
	}
	return heat, ok
}

// MashedAt is the heat, in °C, of the rest that decides how far the wort ferments; 0 where
// nobody says.
func (s *Sheet) MashedAt() float64 {
	heat, _ := s.conversionRest()
	return heat
}
