package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"gylebook/internal/site/view"
)

// What the pages of a gyle say, for a terminal. It is the pages' own model that is
// printed here, so that the two never tell different stories.

// printMissing says what one more reading would give. A figure that is missing of
// several parts is named once.
func printMissing(out paper, missing []view.Missing) {
	var order []string
	lacking := map[string][]view.Missing{}
	for _, m := range missing {
		by := "With " + strings.Join(m.Needs, " and ")
		if len(m.Needs) == 0 {
			by = "Withheld, since " + m.Because
		}
		if lacking[by] == nil {
			order = append(order, by)
		}
		lacking[by] = append(lacking[by], m)
	}
	if len(order) > 0 {
		out.heading("Missing")
	}
	for _, by := range order {
		out.hanging("  ", "    ", by+": "+strings.Join(labelsOf(lacking[by]), ", "))
	}
}

// labelsOf names what is missing, each figure once, with its part where there is only
// one.
func labelsOf(missing []view.Missing) []string {
	parts := map[string]int{}
	for _, m := range missing {
		parts[m.Label]++
	}
	var labels []string
	for _, m := range missing {
		label := midSentence(m.Label)
		if m.Of != "" && parts[m.Label] == 1 {
			label += " (" + m.Of + ")"
		}
		if !slices.Contains(labels, label) {
			labels = append(labels, label)
		}
	}
	return labels
}

// midSentence is a label as it stands within a sentence.
func midSentence(label string) string {
	first, size := utf8.DecodeRuneInString(label)
	second, _ := utf8.DecodeRuneInString(label[size:])
	if unicode.IsUpper(second) {
		return label
	}
	return string(unicode.ToLower(first)) + label[size:]
}

// printVerdict says whether the beer is finished or only quiet, and on what evidence.
func printVerdict(out paper, v *view.Verdict) {
	if v == nil {
		return
	}
	out.heading("Finished, or only quiet?")
	out.hanging("  ", "  ", strings.TrimSpace(v.Says+" "+v.Do))
	for _, e := range v.Evidence {
		text := e.Text
		if e.Line > 0 {
			text += fmt.Sprintf(" (line %d)", e.Line)
		}
		out.hanging("  ", "    ", text)
	}
}

// The most that the terminal tells of one word that was found: the page has the rest.
const (
	mostCauses = 3
	mostNeeds  = 4
)

// printDiagnosis tells for each word that tasters found what may lie behind it, by the
// entry's own readings.
func printDiagnosis(out paper, g view.Gyle) {
	if len(g.Diagnoses) == 0 {
		return
	}
	out.heading("Why it tastes so")
	told := map[string]bool{}
	for _, d := range g.Diagnoses {
		out.hanging("  ", "    ", d.Word+", said by "+d.Said)
		printCauses(out, d, told)
	}
	if g.Strange != "" {
		out.hanging("  ", "    ", g.Strange)
	}
}

// printCauses are the likeliest, each with the strongest reading on either side, and
// what would tell more. What was told under an earlier word is only named.
func printCauses(out paper, d view.Diagnosis, told map[string]bool) {
	shown, needs := d.Causes, d.Settle
	if d.Nothing == "" {
		shown = slices.DeleteFunc(slices.Clone(shown), func(s view.Suspect) bool { return s.Standing != "Likely" && s.Standing != "Possible" })
		needs = nil
	} else {
		out.hanging("    ", "      ", midSentence(strings.TrimSuffix(d.Nothing, ".")))
	}
	for i, s := range shown {
		needs = append(needs, s.Needs...)
		if i >= mostCauses {
			continue
		}
		lines := strongest(s)
		name, same := strings.ToLower(s.Standing)+": "+s.Name, s.Name+strings.Join(lines, "")
		if told[same] {
			name, lines = name+", as above", nil
		}
		told[same] = true
		out.hanging("    ", "      ", name)
		for _, line := range lines {
			out.hanging("      ", "        ", line)
		}
	}
	if more := len(shown) - mostCauses; more > 0 {
		out.hanging("    ", "      ", fmt.Sprintf("and %d more", more))
	}
	if d.Nothing != "" && d.Open != "" {
		out.hanging("    ", "      ", "not known either way: "+d.Open)
	}
	if len(needs) > 0 {
		out.hanging("    ", "      ", "would tell more: "+wouldTell(needs))
	}
}

// strongest are the readings that say the most for a cause and against it.
func strongest(s view.Suspect) []string {
	var lines []string
	for _, side := range []string{"for", "against"} {
		line, rank := "", 0
		for _, group := range s.Signs {
			voice, sign := strings.ToLower(group.Voice), group.Signs[0]
			if strings.TrimPrefix(voice, "may be ") != side || line != "" && sign.Rank > rank {
				continue
			}
			line, rank = voice+": "+sign.Says, sign.Rank
			if sign.Place != "" {
				line += " (" + sign.Place + ")"
			}
		}
		if line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// wouldTell are the keys that causes wait for, each once.
func wouldTell(keys []string) string {
	var needs []string
	for _, key := range keys {
		if !slices.Contains(needs, key) {
			needs = append(needs, key)
		}
	}
	if more := len(needs) - mostNeeds; more > 1 {
		needs = append(needs[:mostNeeds], fmt.Sprintf("%d more", more))
	}
	return strings.Join(needs, "; ")
}

// printNextTime is what the figures propose for the gyle after this.
func printNextTime(out paper, all []view.Proposal) {
	for i, p := range all {
		if i == 0 {
			out.heading("Next time")
		}
		out.hanging("  ", "    ", sentences(p.Gap, p.Change, expected(p)))
		for _, set := range p.Sets {
			out.hanging("    ", "      ", set)
		}
	}
}

// expected is the figure to expect of a proposal, as a sentence.
func expected(p view.Proposal) string {
	if p.Expect.Value == "" {
		return ""
	}
	return "To expect: " + midSentence(p.Label) + " " + p.Expect.String() + "."
}
