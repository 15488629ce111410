package journal

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// dateForms are ways to write a day that leave no doubt which it is, with how it
// is to be written.
var dateForms = []string{
	"2006-1-2", "2006/1/2", "2006.1.2", "2.1.2006", "2 January 2006", "2 Jan 2006", "January 2, 2006", "January 2 2006",
	"Jan 2, 2006", "Jan 2 2006", "2-Jan-2006", "2-January-2006", "Monday 2 January 2006", "Mon 2 Jan 2006",
}

// clockForms are ways to write an hour after it; "" for none.
var clockForms = []string{"", " 15:4", "T15:4", " 15.04", ", 15:04", " 1504", " 3:04pm", " 3:04 pm", " 3pm", " 3 pm",
	" 15:04:05", " 15h04", " at 15:04"}

// padded is the moment that a text was likely to mean: 2026-3-7 9:05 is
// 2026-03-07 09:05. 14/03/2026 can be one day only, and so has its meaning;
// 3/4/2026 has none.
func padded(text string) string {
	if len(text) > longestWord {
		return ""
	}
	text = strings.Join(strings.Fields(ordinal(text)), " ")
	if strings.Count(text, "/") == 2 {
		text = withDots(text)
	}
	for _, date := range dateForms {
		for _, clock := range clockForms {
			write := "2006-01-02"
			if clock != "" {
				write += " 15:04"
			}
			for _, typed := range []string{text, strings.ToLower(text)} { // PM is read as pm
				if t, err := time.Parse(date+clock, typed); err == nil && t.Format(write) != text {
					return t.Format(write)
				}
			}
		}
	}
	return ""
}

// ordinal takes the letters from 7th March.
func ordinal(text string) string {
	words := strings.Fields(text)
	for i, w := range words {
		for _, ending := range []string{"st", "nd", "rd", "th", "st,", "nd,", "rd,", "th,"} {
			if day, found := strings.CutSuffix(w, ending); found && len(day) < 3 &&
				strings.Trim(day, "0123456789") == "" && day != "" {
				words[i] = day
			}
		}
	}
	return strings.Join(words, " ")
}

// withDots is a date with strokes as one of the form day.month.year, which
// leaves no doubt, where only one of its numbers can be a month; else the text.
func withDots(text string) string {
	date, rest, _ := strings.Cut(text, " ")
	first, second, year, ok := threeNumbers(date)
	switch {
	case !ok || year < 1000:
		return text
	case first > 12 && second <= 12, first == second:
	case second > 12 && first <= 12:
		first, second = second, first
	default:
		return text
	}
	return strings.TrimSpace(fmt.Sprintf("%d.%d.%d %s", first, second, year, rest))
}

func threeNumbers(date string) (a, b, c int, ok bool) {
	parts := strings.Split(date, "/")
	if len(parts) != 3 {
		return 0, 0, 0, false
	}
	var numbers [3]int
	for i, part := range parts {
		n, err := strconv.Atoi(part)
		if err != nil {
			return 0, 0, 0, false
		}
		numbers[i] = n
	}
	return numbers[0], numbers[1], numbers[2], true
}

// momentHint is what to do about a moment of which a part is missing or in doubt.
func (r *reading) momentHint(text string, f *field) string {
	date, clock, _ := strings.Cut(text, " ")
	if a, b, year, ok := threeNumbers(date); ok && year >= 1000 && a >= 1 && b >= 1 && a <= 12 && b <= 12 {
		return fmt.Sprintf("Write %04d-%02d-%02d or %04d-%02d-%02d, whichever is meant%s.", year, a, b, year, b, a,
			thenTheTime(clock))
	}
	if t, err := time.Parse("15:4", text); err == nil {
		if r.brewed == "" {
			return "Write the day before it, as 2026-03-07 " + t.Format("15:04") + "."
		}
		return fmt.Sprintf("Write %s %s, if it was on brew day; else put its own day before it.", r.brewed,
			t.Format("15:04"))
	}
	if t, err := time.Parse("2006-01", text); err == nil {
		if f.key == "best_by" {
			return writeIfMeant(t.AddDate(0, 1, -1).Format("2006-01-02"))
		}
		return "Write a day of it, as " + t.Format("2006-01") + "-15."
	}
	if oneOf(strings.ToLower(text), "today", "now", "yesterday", "this morning", "tonight", "last night") {
		return "Write the date: tomorrow that will be another day."
	}
	return ""
}

func thenTheTime(clock string) string {
	if clock == "" {
		return ""
	}
	return ", and then the time, as 08:00"
}
