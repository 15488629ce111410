package figures

import (
	"strconv"
	"strings"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// instrument is the card of the instrument that a reading names, else of the
// journal's usual one for that kind of reading, nil where there is none.
func (b *bench) instrument(with journal.Name, measures journal.Measurand) *journal.Instrument {
	name := with.Name
	if name == "" {
		name = b.usualInstrument(measures)
	}
	card := b.cardCalled(journal.CardInstrument, name)
	if card == nil || card.Instrument == nil || card.Instrument.Measures.Word != measures && card.Instrument.Measures.Written() {
		return nil
	}
	return card.Instrument
}

func (b *bench) usualInstrument(measures journal.Measurand) string {
	if b.Settings == nil {
		return ""
	}
	usual := b.Settings.Instruments
	switch measures {
	case journal.OfGravity:
		return usual.Gravity.Name
	case journal.OfBrix:
		return usual.Brix.Name
	case journal.OfTemperature:
		return usual.Temperature.Name
	case journal.OfVolume:
		return usual.Volume.Name
	case journal.OfWeight:
		return usual.Weight.Name
	case journal.OfPH:
		return usual.PH.Name
	case journal.OfPressure:
		return usual.Pressure.Name
	}
	return ""
}

// doubtOf is how far off one reading of an instrument may be: half its smallest
// step where its card states that, else the default.
func (b *bench) doubtOf(with journal.Name, measures journal.Measurand, otherwise doubt) doubt {
	card := b.instrument(with, measures)
	if card == nil || !card.Resolution.Written() {
		return otherwise
	}
	step, ok := number(card.Resolution)
	if !ok {
		return otherwise
	}
	return doubt{fixed: step / 2, reason: "half the instrument's smallest step, by its card"}
}

// hydrometer is what all readings of one hydrometer share.
type hydrometer struct {
	name       string
	card       *journal.Instrument // nil where there is none
	doubt      doubt
	calibrated Estimate[q.Temperature]
	memoBias   memo[Estimate[q.Gravity]]
}

// hydrometerOf is the hydrometer that a reading names, else the journal's usual
// one. It is marked for 20 °C unless its card says otherwise.
func (b *bench) hydrometerOf(with journal.Name) *hydrometer {
	name := b.instrumentName(with, journal.OfGravity)
	for _, h := range b.hydrometers {
		if h.name == name {
			return h
		}
	}
	h := &hydrometer{name: name, card: b.instrument(with, journal.OfGravity), doubt: b.doubtOf(with, journal.OfGravity, ofHydrometer), calibrated: exactly(q.Celsius(20))}
	if h.card != nil && h.card.CalibratedAt.Written() {
		h.calibrated = exactly(h.card.CalibratedAt.Value)
	}
	b.hydrometers = append(b.hydrometers, h)
	return h
}

// biasOf is what all readings of one hydrometer are off by: minus the bias its
// card states, within what the card allows, else within the default.
func (b *bench) biasOf(h *hydrometer) Estimate[q.Gravity] {
	return h.memoBias.once(func() Estimate[q.Gravity] {
		bias, within, reason := 0.0, ofBias.fixed, ofBias.reason
		name := "hydrometer"
		if h.card != nil {
			name = h.name
			if stated, ok := number(h.card.Bias); ok {
				bias = stated
			}
			if stated, ok := number(h.card.Within); ok {
				within, reason = stated, "as its card states"
			}
		}
		return input(b, q.Gravity(-bias), Input{What: biasOfAny + " the " + name, Uncertainty: standard(within), Unit: "SG", Reason: reason})
	})
}

func (b *bench) instrumentName(with journal.Name, measures journal.Measurand) string {
	if with.Name != "" {
		return with.Name
	}
	return b.usualInstrument(measures)
}

// number reads the leading number of an instrument's fact, whose unit is the
// instrument's own.
func number(t journal.Text) (float64, bool) {
	if t.Text == "" {
		return 0, false
	}
	text := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(t.Text), "±"))
	end := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.+-", r) })
	if end >= 0 {
		text = text[:end]
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil
}

// keyOf is the key of a value that was written, else the one to write it at.
func keyOf(written journal.Where, list string, i int, field string) string {
	if written.Written() {
		return written.Key
	}
	return key(list, i, field)
}

// keyUnder is the same for a key under another one.
func keyUnder(written journal.Where, above, field string) string {
	if written.Written() {
		return written.Key
	}
	return above + "." + field
}

// key names a place in the entry: key("hops", 1, "alpha") is hops[1].alpha.
func key(list string, i int, field string) string {
	return list + "[" + strconv.Itoa(i) + "]." + field
}
