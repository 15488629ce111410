package journal

import "testing"

func TestMoney(t *testing.T) {
	settings := ReadFile("index.md", []byte("---\njournal: x\ncurrency: EUR\n---\n"), nil).Settings
	for text, want := range map[string]struct {
		sum      float64
		currency string
		do       string
	}{
		"3.80 GBP":    {3.8, "GBP", ""},
		"3.80GBP":     {3.8, "GBP", ""},
		"4 EUR":       {4, "EUR", ""},
		"-0.50 GBP":   {-0.5, "GBP", ""},
		"3.80":        {0, "", "Write 3.80 EUR, if that is meant."},
		"3,80 GBP":    {0, "", "Write 3.80 GBP, if that is meant."},
		"£3.80":       {0, "", "Write 3.80 GBP, if that is meant."},
		"€ 4":         {0, "", "Write 4.00 EUR, if that is meant."},
		"3.80 gbp":    {0, "", "Write 3.80 GBP, if that is meant."},
		"GBP 3.80":    {0, "", ""},
		"3.80 pounds": {0, "", ""},
		"1e9 GBP":     {0, "", ""},
		"free":        {0, "", ""},
	} {
		d := ReadFile("x.md", []byte("---\ngyle: 1\nbeer: x\ncosts: [{what: malt, paid: \""+text+"\"}]\n---\n"), settings)
		got := d.Gyle.Costs[0].Paid
		if got.Sum != want.sum || got.Currency != want.currency || got.Written() == (len(d.Errors) > 0) {
			t.Errorf("%q: %+v\n%s", text, got, listing(d.Errors))
		}
		if len(d.Errors) > 0 && want.do != "" && d.Errors[0].Do != want.do {
			t.Errorf("%q: %q, want %q", text, d.Errors[0].Do, want.do)
		}
	}
}
