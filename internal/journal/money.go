package journal

import (
	"fmt"
	"strconv"
	"strings"
)

func (*Money) shape() leafShape { return leafShape{name: "money"} }

func (m *Money) take(r *reading, s scalar, _ *field) {
	sum, currency, _ := strings.Cut(s.text, " ")
	currency = strings.TrimSpace(currency)
	if currency == "" { // 3.80GBP
		digits := len(sum) - len(strings.TrimLeft(sum, "+-0123456789."))
		sum, currency = sum[:digits], sum[digits:]
	}
	value, err := strconv.ParseFloat(sum, 64)
	plain := err == nil && strings.Trim(sum, "-0123456789.") == "" && len(sum) <= 15
	if !plain || !isCurrency(currency) {
		id := idNotANumber
		if plain {
			id = idWrongUnit
		}
		r.wrong(s.node, id, s.Key, quote(s.text)+
			": expected an amount with the three letters of its currency, such as 3.80 GBP", writeIfMeant(r.moneyIn(s.text)))
		return
	}
	*m = Money{Sum: value, Currency: currency, Where: s.Where}
}

func isCurrency(text string) bool {
	return len(text) == 3 && strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// dollars is which dollars $ stands for: those of the journal, if its currency is
// one, else the ones that the sign means the world over.
func (r *reading) dollars() string {
	for _, currency := range []string{"AUD", "CAD", "NZD", "SGD", "HKD"} {
		if r.settings.Currency.Text == currency {
			return currency
		}
	}
	return "USD"
}

// moneyIn is the sum that was likely to be meant: £3.80, 3,80 EUR, 3.80 gbp, or
// a bare number in the journal's own currency.
func (r *reading) moneyIn(text string) string {
	number := strings.TrimLeft(text, "£€$ ")
	digits := number[:len(number)-len(strings.TrimLeft(number, "-0123456789.,"))]
	value, err := strconv.ParseFloat(strings.Replace(digits, ",", ".", 1), 64)
	if err != nil {
		return ""
	}
	currency := strings.ToUpper(strings.TrimSpace(number[len(digits):]))
	switch {
	case isCurrency(currency):
	case strings.Contains(text, "£"):
		currency = "GBP"
	case strings.Contains(text, "€"):
		currency = "EUR"
	case strings.Contains(text, "$"):
		currency = r.dollars()
	case r.settings.Currency.Written():
		currency = r.settings.Currency.Text
	default:
		return ""
	}
	return fmt.Sprintf("%.2f %s", value, currency)
}
