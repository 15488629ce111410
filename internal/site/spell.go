package site

import (
	"fmt"
	"math"
	"strings"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// speller writes numbers and dates as the journal's settings ask: its units and
// its zone.
type speller struct {
	quantity.Spelling
	zone *time.Location
	// forTerminal is for plain text: dates are as 2026-03-07, a gravity says that it is one,
	// containers are counted.
	forTerminal bool
}

func newSpeller(s *journal.Settings) speller {
	zone := s.Zone
	if zone == nil {
		zone = time.UTC
	}
	return speller{Spelling: s.Units.Spelling(), zone: zone}
}

// measure is a number of a unit with its ±, as printed. A ± that is not a
// positive number is left out, and then decimals says how far to print.
func (s speller) measure(value, plusMinus float64, unit string, decimals int) view.Measure {
	return view.Measure(s.Measure(value, plusMinus, unit, decimals))
}

// figure is a figure as printed. A page writes dates in words, and need not say that
// a gravity is one.
func (s speller) figure(f figures.Figure) view.Measure {
	m := view.Measure(f.Spelt(s.Spelling))
	switch {
	case s.forTerminal:
	case f.Unit == "date":
		m.Value = s.day(f.Date)
	case m.Unit == f.Unit:
		m.Unit = s.Into(f.Unit).Unit
	}
	return m
}

func dayCount(days float64) string {
	switch {
	case math.IsNaN(days) || days <= 0 || math.IsInf(days, 0):
		return ""
	case days < 1.5:
		return "1 day"
	}
	return quantity.Fixed(days, 0) + " days"
}

// text is what an entry or a card says, as a page writes it: a quantity in the
// settings' units, as exactly as it was written, a moment by the journal's clock, words
// as they stand. It is "" for what was not written.
func (s speller) text(says any) string {
	switch v := says.(type) {
	case string:
		return v
	case journal.Quantified:
		return s.value(v).String()
	case journal.Ranged:
		if v.Written() {
			return s.between(v.Ends())
		}
		return ""
	case journal.Moment:
		return s.tableMoment(v)
	case journal.Whole:
		if v.Written() {
			return itoa(v.N)
		}
		return ""
	case journal.Flag:
		return map[bool]string{v.Yes(): "yes", v.No(): "no"}[true]
	}
	return says.(fmt.Stringer).String()
}

// text is what an entry or a card says, as this page writes it: see speller.text.
func (w pageWriter) text(says any) string { return w.spell.text(says) }

// phrase joins what there is of its parts with a separator.
func (w pageWriter) phrase(by string, parts ...any) string {
	texts := make([]string, len(parts))
	for i, p := range parts {
		texts[i] = w.text(p)
	}
	return phrase(by, texts...)
}

// with is a word before what an entry says, "" where it says nothing.
func (w pageWriter) with(word string, says any) string { return with(word, w.text(says)) }

// value is a quantity of an entry, as text has it.
func (s speller) value(v journal.Quantified) view.Measure {
	if !v.Given() {
		return view.Measure{}
	}
	return s.amount(v.Canonical())
}

// amount is a value of a kind, in its canonical unit, in the settings' units; typed is
// the unit that it was typed in.
func (s speller) amount(kind *quantity.Kind, canonical, within float64, typed string) view.Measure {
	unit := kind.Canonical().Symbol
	switch kind.Name {
	case "length of time":
		return duration(canonical)
	case "gravity":
		m := s.measure(canonical, within, "SG", 3)
		if within == 0 {
			m.Value = gravityText(canonical)
		}
		return m
	case "weight":
		if canonical < float64(quantity.Ounce) && !strings.HasSuffix(typed, "oz") {
			return inGrams(canonical, within) // yeast and salts, which are sold by the gram everywhere
		}
		return s.mass(canonical, within)
	case "volume":
		return s.liquid(canonical, within)
	case "count of cells", "density of cells":
		return cells(canonical, unit)
	case "pH", "number":
		return s.plain(canonical, within, "")
	}
	return s.plain(canonical, within, unit)
}

// between is a range of a kind in the settings' units, one value where both ends are
// the same.
func (s speller) between(kind *quantity.Kind, low, high float64) string {
	from, to := s.amount(kind, low, 0, ""), s.amount(kind, high, 0, "")
	switch {
	case from == to:
		return from.String()
	case from.Unit == to.Unit:
		from.Unit = ""
	}
	return from.String() + " to " + to.String()
}

// plain is a number as exactly as it was written, in the settings' unit; a
// converted one has four digits.
func (s speller) plain(value, within float64, unit string) view.Measure {
	c := s.Into(unit)
	if within > 0 {
		v, pm := quantity.Rounded(c.Of(value), within*c.Factor)
		return view.Measure{Value: v, PlusMinus: pm, Unit: c.Unit}
	}
	x := c.Of(value)
	switch {
	case c.Converts():
		x = quantity.Digits(x, 3)
	case math.Abs(x*100-math.Round(x*100)) > 1e-6:
		x = quantity.Digits(x, 4) // typed in another unit: nobody wrote 73.8889
	}
	return view.Measure{Value: quantity.Plain(x), Unit: c.Unit}
}

// inGrams is a weight in grams whatever the settings say.
func inGrams(grams, within float64) view.Measure {
	return speller{}.plain(grams, within, "g")
}

// cells is a count of yeast cells, or how thickly they stand.
func cells(n float64, unit string) view.Measure {
	switch {
	case n >= 1e9:
		return view.Measure{Value: quantity.Plain(quantity.Digits(n/1e9, 3)), Unit: "thousand million " + unit}
	case n >= 1e6:
		return view.Measure{Value: quantity.Plain(quantity.Digits(n/1e6, 3)), Unit: "million " + unit}
	}
	return view.Measure{Value: quantity.Plain(quantity.Digits(n, 3)), Unit: unit}
}

// gravityText is a gravity with at least three decimals.
func gravityText(sg float64) string {
	text := quantity.Plain(sg)
	switch _, decimals, _ := strings.Cut(text, "."); {
	case len(decimals) < 3:
		return quantity.Fixed(sg, 3)
	case len(decimals) > 4: // typed as Plato
		return quantity.Fixed(sg, 4)
	}
	return text
}

// mass is a weight in grams, or from a kilogram up in kilograms; in pounds and
// ounces for who wants those.
func (s speller) mass(grams, within float64) view.Measure {
	if s.Weight.IsMetric() {
		if grams >= 1000 {
			return s.plain(grams/1000, within/1000, "kg")
		}
		return s.plain(grams, within, "g")
	}
	if grams >= float64(quantity.Pound) {
		if within == 0 {
			return poundsAndOunces(grams)
		}
		return s.plain(grams/1000, within/1000, "kg")
	}
	return s.plain(grams, within, "g")
}

// poundsAndOunces is a weight as the trade writes it, to a tenth of an ounce.
func poundsAndOunces(grams float64) view.Measure {
	ounces := math.Round(grams/float64(quantity.Ounce)*10) / 10
	pounds := math.Floor(ounces / 16)
	rest := ounces - 16*pounds
	if rest < 0.05 {
		return view.Measure{Value: quantity.Plain(pounds), Unit: "lb"}
	}
	return view.Measure{Value: quantity.Plain(pounds) + " lb " + quantity.Fixed(rest, places(rest)), Unit: "oz"}
}

func places(x float64) int {
	if math.Abs(x-math.Round(x)) < 0.05 {
		return 0
	}
	return 1
}

// liquid is a volume in litres, or in millilitres below a twentieth of one.
func (s speller) liquid(litres, within float64) view.Measure {
	small := math.Abs(litres) < 0.05 && litres != 0
	switch {
	case s.Volume.IsMetric() && small:
		return view.Measure{Value: quantity.Plain(quantity.Digits(litres*1000, 4)), Unit: "mL"}
	case s.Volume.IsMetric():
		if cents := litres * 100; math.Abs(cents-math.Round(cents)) > 1e-6 {
			litres = quantity.Digits(litres, 3) // of pints
		}
		return s.plain(litres, within, "L")
	case small:
		return view.Measure{Value: quantity.Plain(quantity.Digits(litres*1000, 3)), Unit: "mL"}
	case litres < 2 && s.Volume == quantity.UK:
		return view.Measure{Value: quantity.Plain(quantity.Digits(litres/float64(quantity.UKPint), 3)), Unit: "UK pt"}
	case litres < 2:
		return view.Measure{Value: quantity.Plain(quantity.Digits(litres/float64(quantity.USPint), 3)), Unit: "US pt"}
	}
	return s.plain(litres, within, "L")
}

// duration is a length of time in the units that suit it.
func duration(minutes float64) view.Measure {
	switch {
	case minutes < 0:
		return view.Measure{Value: quantity.Plain(minutes), Unit: "min"}
	case minutes >= 2880:
		return view.Measure{Value: quantity.Plain(quantity.Digits(minutes/1440, 3)), Unit: "days"}
	case minutes == 1440:
		return view.Measure{Value: "1", Unit: "day"}
	case minutes > 180:
		return view.Measure{Value: quantity.Plain(quantity.Digits(minutes/60, 3)), Unit: "h"}
	}
	return view.Measure{Value: quantity.Plain(minutes), Unit: "min"}
}
