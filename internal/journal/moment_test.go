package journal

import (
	"errors"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestParseMoment(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		text, want string
		dateOnly   bool
	}{
		{"2026-03-07", "2026-03-07T00:00:00Z", true},
		{"2026-07-07", "2026-07-07T00:00:00+01:00", true},
		{"2026-03-07 16:10", "2026-03-07T16:10:00Z", false},
		{"2026-07-07T16:10", "2026-07-07T16:10:00+01:00", false},
		{"2026-07-07T16:10:30", "2026-07-07T16:10:30+01:00", false},
		{"2026-07-07T16:10:30Z", "2026-07-07T16:10:30Z", false},
		{"2026-07-07 16:10-05:00", "2026-07-07T16:10:00-05:00", false},
		{"2026-07-07T16:10:30.25+05:30", "2026-07-07T16:10:30.25+05:30", false},
		{"2028-02-29", "2028-02-29T00:00:00Z", true},
		// The clock goes from 01:00 to 02:00 on 29 March 2026.
		{"2026-03-29 00:59", "2026-03-29T00:59:00Z", false},
		{"2026-03-29 01:00", "2026-03-29T02:00:00+01:00", false},
		{"2026-03-29 01:30", "2026-03-29T02:30:00+01:00", false},
		{"2026-03-29 02:00", "2026-03-29T02:00:00+01:00", false},
		// It goes from 02:00 back to 01:00 on 25 October 2026.
		{"2026-10-25 00:59", "2026-10-25T00:59:00+01:00", false},
		{"2026-10-25 01:30", "2026-10-25T01:30:00+01:00", false},
		{"2026-10-25 02:00", "2026-10-25T02:00:00Z", false},
	} {
		got, dateOnly, wrong := ParseMoment(c.text, london)
		if wrong != nil || got.Format(time.RFC3339Nano) != c.want || dateOnly != c.dateOnly {
			t.Errorf("%q: %s %v %v, want %s", c.text, got.Format(time.RFC3339Nano), dateOnly, wrong, c.want)
		}
	}
	for _, text := range []string{
		"", "2026", "2026-03", "2026-13-45", "2026-02-29", "2026-00-10", "2026-03-00", "0000-01-01", "26-03-07",
		"20260307", "2026-03-07 ", "2026-03-07T",
		"2026-03-07 24:00", "2026-03-07 10:60", "2026-03-07 10:00:60", "2026-03-07 10:00:00.",
		"2026-03-07 10:00 +01:00", "2026-03-07Z", "2026-03-07 10:00+0100", "2026-03-07t10:00",
		"2026-03-07  6:10", "2026-03-07 6:10", "2026-03-07 10:00+01:60", "2026-03-07 10:00-24:00",
		"2026-03-07 10:00:00,5", "2026-03-07 10:00:00.1234567891",
	} {
		if got, _, wrong := ParseMoment(text, london); wrong == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

// TestMomentAtMidnightThatNeverWas: some zones put the clock forward at
// midnight, and the day still has a beginning.
func TestMomentAtMidnightThatNeverWas(t *testing.T) {
	zone, err := time.LoadLocation("America/Sao_Paulo")
	if err != nil {
		t.Fatal(err)
	}
	got, _, wrong := ParseMoment("2018-11-04", zone)
	if wrong != nil || got.Format(time.RFC3339) != "2018-11-04T01:00:00-02:00" {
		t.Errorf("%v %v", got, wrong)
	}
	m := Moment{Time: got, DateOnly: true}
	if noon := m.Middle().Format(time.RFC3339); noon != "2018-11-04T12:00:00-02:00" {
		t.Errorf("the middle of that day is %s", noon)
	}
}

// TestMomentRoundTrip: what a clock shows is read as that instant, but for the
// second pass of an hour that comes twice.
func TestMomentRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"UTC", "Europe/London", "America/New_York", "Australia/Lord_Howe",
			"Asia/Kathmandu"}).Draw(t, "zone")
		zone, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		at := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "seconds"), 0).In(zone)
		got, _, wrong := ParseMoment(at.Format("2006-01-02 15:04:05"), zone)
		if wrong != nil {
			t.Fatal(wrong)
		}
		if !got.Equal(at) && (got.After(at) || got.Format("15:04:05") != at.Format("15:04:05")) {
			t.Fatalf("%v is read as %v", at, got)
		}
		exact, _, wrong := ParseMoment(at.Format(time.RFC3339), time.UTC)
		if wrong != nil || !exact.Equal(at) {
			t.Fatalf("%v is read as %v, %v", at, exact, wrong)
		}
	})
}

// TestDatesAsTyped: a day that can be one only has its meaning; one that may be
// two has none.
func TestDatesAsTyped(t *testing.T) {
	for typed, want := range map[string]string{
		"14/03/2026": "2026-03-14", "3/14/2026": "2026-03-14", "5/5/2026": "2026-05-05",
		"14/3/2026 9:05": "2026-03-14 09:05", "20.3.2026": "2026-03-20",
		"20.03.2026, 16:10": "2026-03-20 16:10", "14 March 2026 09:30": "2026-03-14 09:30", "Mar 27 2026": "2026-03-27",
		"7th March 2026":  "2026-03-07",
		"2026-03-24 0800": "2026-03-24 08:00", "2026-3-7 4:10 PM": "2026-03-07 16:10",
		"2026-03-07 8pm": "2026-03-07 20:00", "Sat 7 Mar 2026": "2026-03-07",
		"3/4/2026": "", "14/14/2026": "", "30/2/2026": "", "08:15": "", "today": "", "7 March": "", "3/4/26": "",
		"2026-03-07": "",
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
		d := ReadFile("gyles/14.md", []byte("---\ngyle: 14\nbeer: x\ncosts: [{what: malt, paid: $38.50}]\n---\n"),
			settings)
		if len(d.Errors) != 1 || d.Errors[0].Do != "Write 38.50 "+want+", if that is meant." {
			t.Errorf("%s: %v", currency, d.Errors)
		}
	}
}

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
		d := ReadFile("x.md", []byte("---\ngyle: 1\nbeer: x\ncosts: [{what: malt, paid: \""+text+"\"}]\n---\n"),
			settings)
		got := d.Gyle.Costs[0].Paid
		if got.Sum != want.sum || got.Currency != want.currency || got.Written() == (len(d.Errors) > 0) {
			t.Errorf("%q: %+v\n%s", text, got, listing(d.Errors))
		}
		if len(d.Errors) > 0 && want.do != "" && d.Errors[0].Do != want.do {
			t.Errorf("%q: %q, want %q", text, d.Errors[0].Do, want.do)
		}
	}
}

// FuzzParseMoment: any text is a moment or an error in words, the same in each zone's own
// clock, and a moment as it is written comes back.
func FuzzParseMoment(f *testing.F) {
	for _, text := range []string{"2026-03-10", "2026-03-10 09:00", "2026-03-29T01:30", "2026-10-25 01:30:15",
		"2026-03-10T09:00:00+01:00", "0000-00-00", "2026-02-30", "9999-12-31 23:59:59"} {
		f.Add(text)
	}
	zone, err := time.LoadLocation("Europe/London")
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		at, dateOnly, err := ParseMoment(text, zone)
		if err != nil {
			var wrong *MomentError
			if !errors.As(err, &wrong) || wrong.Error() == "" {
				t.Errorf("%q: %v", text, err)
			}
			return
		}
		if _, offset := at.Zone(); offset%60 != 0 {
			return // the sun's own time at the place, as clocks went before 1900, which no offset can say
		}
		layout := time.RFC3339
		if dateOnly {
			layout = time.DateOnly
		}
		if again, _, err := ParseMoment(at.Format(layout), zone); err != nil || !again.Equal(at) {
			t.Errorf("%q is %v, which is written %s and read as %v, %v", text, at, at.Format(layout), again, err)
		}
	})
}
