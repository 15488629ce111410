package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"gylebook/internal/book"
	"gylebook/internal/causes"
	"gylebook/internal/proposals"
)

// The most that the terminal tells of one word that was found: the page has the
// rest.
const (
	mostCauses = 3
	mostNeeds  = 4
)

// printDiagnosis tells for each word that tasters found what may lie behind it, by
// the entry's own readings.
func printDiagnosis(out paper, g *book.Gyle) {
	heard := causes.Hear(g.Gyle)
	told, begun := map[string]bool{}, false
	var strange []string
	for _, d := range causes.Diagnose(g.Sheet, heard) {
		if len(d.Suspects) == 0 {
			strange = append(strange, "“"+d.Word+"”")
			continue
		}
		if !begun {
			begun = true
			fmt.Fprintf(out, "\n%s\n", out.ink(bold, "Why it tastes so"))
		}
		out.hanging("  ", "    ", whoFound(d.Saying, heard.Tasters))
		printCauses(out, g, d, told)
	}
	if begun && len(strange) > 0 {
		out.hanging("  ", "    ", "No causes are known of "+strings.Join(strange, ", ")+".")
	}
}

// whoFound is a word with how many said so, and what that is worth.
func whoFound(s causes.Saying, tasters int) string {
	text := fmt.Sprintf("%s, said by %d of %s", capitalised(s.Word), s.Tasters, count(tasters, "taster", "tasters"))
	if s.Agreed() {
		return text + ": they agree"
	}
	return text + ": a hint"
}

// printCauses are the likeliest, each with the strongest reading on either side,
// and what would tell more. What was told under an earlier word is only named.
func printCauses(out paper, g *book.Gyle, d causes.Diagnosis, told map[string]bool) {
	shown := append(d.Standing(causes.Likely), d.Standing(causes.Possible)...)
	if len(shown) == 0 {
		out.hanging("    ", "      ", "nothing in the readings speaks for any of its causes")
		shown = d.Suspects
	}
	needs := wouldTell(shown)
	more := max(0, len(shown)-mostCauses)
	for _, s := range shown[:len(shown)-more] {
		lines := strongest(g, s)
		name, same := s.Standing().String()+": "+s.Name, s.ID+strings.Join(lines, "")
		if told[same] {
			name, lines = name+", as above", nil
		}
		told[same] = true
		out.hanging("    ", "      ", name)
		for _, line := range lines {
			out.hanging("      ", "        ", line)
		}
	}
	if more > 0 {
		out.hanging("    ", "      ", fmt.Sprintf("and %d more", more))
	}
	if needs != "" {
		out.hanging("    ", "      ", "would tell more: "+needs)
	}
}

// strongest are the readings that say the most for a cause and against it.
func strongest(g *book.Gyle, s causes.Suspect) []string {
	var lines []string
	for _, voice := range []causes.Voice{causes.For, causes.Against} {
		if i := slices.IndexFunc(s.Signs, func(sign causes.Sign) bool { return sign.Voice == voice }); i >= 0 {
			lines = append(lines, signLine(g, s.Signs[i]))
		}
	}
	return lines
}

// signLine is one reading, what it speaks for, and where it stands.
func signLine(g *book.Gyle, s causes.Sign) string {
	text := s.Voice.String() + ": " + s.Says
	if s.May {
		text = "may be " + text
	}
	switch {
	case s.Where.Line == 0:
	case s.Where.File != g.File:
		text += fmt.Sprintf(" (%s)", s.Where.Place)
	default:
		text += fmt.Sprintf(" (line %d)", s.Where.Line)
	}
	return text
}

// wouldTell are the readings that some causes wait for.
func wouldTell(of []causes.Suspect) string {
	var needs []string
	for _, s := range of {
		for _, need := range s.Needs() {
			if !slices.Contains(needs, need) {
				needs = append(needs, need)
			}
		}
	}
	if more := len(needs) - mostNeeds; more > 1 {
		needs = append(needs[:mostNeeds], fmt.Sprintf("%d more", more))
	}
	return strings.Join(needs, "; ")
}

// printNextTime is what the figures propose for the gyle after this.
func printNextTime(out paper, g *book.Gyle) {
	for i, p := range proposals.Propose(g.Sheet) {
		if i == 0 {
			fmt.Fprintf(out, "\n%s\n", out.ink(bold, "Next time"))
		}
		out.hanging("  ", "    ", sentences(p.Gap, p.Change, expected(g, p)))
		if p.Key != "" {
			out.hanging("    ", "      ", p.Key+": "+p.Value)
		}
	}
}

// capitalised is a word at the head of a sentence.
func capitalised(word string) string {
	first, size := utf8.DecodeRuneInString(word)
	return string(unicode.ToUpper(first)) + word[size:]
}

// expected is the figure to expect of a proposal, as a sentence.
func expected(g *book.Gyle, p proposals.Proposal) string {
	spelt := p.Expect.Spelt(unitsOf(g.Sheet))
	if spelt.Value == "" {
		return ""
	}
	return fmt.Sprintf("To expect: %s %s.", midSentence(p.Expect.Label), spelt)
}
