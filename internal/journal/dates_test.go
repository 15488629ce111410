package journal

import "testing"

// TestDatesAsTyped: a day that can be one only has its meaning; one that may be
// two has none.
func TestDatesAsTyped(t *testing.T) {
	for typed, want := range map[string]string{
		"14/03/2026": "2026-03-14", "3/14/2026": "2026-03-14", "5/5/2026": "2026-05-05", "14/3/2026 9:05": "2026-03-14 09:05", "20.3.2026": "2026-03-20",
		"20.03.2026, 16:10": "2026-03-20 16:10", "14 March 2026 09:30": "2026-03-14 09:30", "Mar 27 2026": "2026-03-27", "7th March 2026": "2026-03-07",
		"2026-03-24 0800": "2026-03-24 08:00", "2026-3-7 4:10 PM": "2026-03-07 16:10", "2026-03-07 8pm": "2026-03-07 20:00", "Sat 7 Mar 2026": "2026-03-07",
		"3/4/2026": "", "14/14/2026": "", "30/2/2026": "", "08:15": "", "today": "", "7 March": "", "3/4/26": "", "2026-03-07": "",
	} {
		if got := padded(typed); got != want {
			t.Errorf("%q: %q, want %q", typed, got, want)
		}
	}
}

// TestDollars: $ is the dollar of the journal, if it has one.
func TestDollars(t *testing.T) {
	for currency, want := range map[string]string{"": "USD", "GBP": "USD", "AUD": "AUD", "USD": "USD"} {
		settings := ReadFile("index.md", []byte("---\njournal: x\ncurrency: "+currency+"\n---\n"), nil).Settings
		d := ReadFile("gyles/14.md", []byte("---\ngyle: 14\nbeer: x\ncosts: [{what: malt, paid: $38.50}]\n---\n"), settings)
		if len(d.Errors) != 1 || d.Errors[0].Do != "Write 38.50 "+want+", if that is meant." {
			t.Errorf("%s: %v", currency, d.Errors)
		}
	}
}
