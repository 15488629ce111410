package site

import (
	"math"
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/causes"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/site/view"
)

// diagnosed is why the beer tastes as its tasters found, as far as the readings
// can tell. Words that lead to no cause come last, in one sentence.
func (w pageWriter) diagnosed(g *book.Gyle) (all []view.Diagnosis, unknown string) {
	heard := causes.Hear(g.Gyle)
	told := map[string]string{} // the word under which a cause was told in full
	var strange []string
	for _, d := range causes.Diagnose(g.Sheet, heard) {
		if len(d.Suspects) == 0 {
			strange = append(strange, "“"+w.scrub(d.Word)+"”")
			continue
		}
		all = append(all, w.diagnosis(g, d, heard.Tasters, told))
	}
	if len(strange) > 0 {
		unknown = "No causes are known of " + inWords(strange) + "."
	}
	return all, unknown
}

func (w pageWriter) diagnosis(g *book.Gyle, d causes.Diagnosis, tasters int, told map[string]string) view.Diagnosis {
	said, who := w.whoFound(g, d.Saying, tasters)
	out := view.Diagnosis{Word: sentenceHead(d.Word), Said: said, Who: who, Glass: w.glass(g, d), Ask: d.Ask}
	var open []string
	for _, s := range d.Suspects {
		if !slices.ContainsFunc(s.Signs, func(sign causes.Sign) bool { return sign.Says != "" }) {
			open = append(open, s.Name)
			out.Settle = append(out.Settle, s.Needs()...)
			continue
		}
		out.Causes = append(out.Causes, w.suspect(g, d.Word, s, told))
	}
	if !slices.ContainsFunc(d.Suspects, func(s causes.Suspect) bool { return s.Has(causes.For) }) {
		out.Nothing = "Nothing in the readings speaks for any of its causes."
	}
	out.Open = strings.Join(open, "; ")
	return out
}

// suspect is one cause as a page shows it. What is the same as under an earlier
// word is not said again.
func (w pageWriter) suspect(g *book.Gyle, word string, s causes.Suspect, told map[string]string) view.Suspect {
	out := view.Suspect{Standing: standingWords[s.Standing()], Name: s.Name, Href: w.to("workings/index.html") + "#c-" + s.ID}
	for _, voice := range []struct {
		word  string
		voice causes.Voice
		may   bool
	}{{"For", causes.For, false}, {"May be for", causes.For, true}, {"Against", causes.Against, false}, {"May be against", causes.Against, true}, {"Neither for nor against", causes.Silent, false}} {
		if voice.voice == causes.Silent && len(out.Signs) > 0 {
			continue // what tells nothing is worth a line only where nothing else does
		}
		group := view.SignGroup{Voice: voice.word}
		for rank, sign := range s.Signs {
			if sign.Voice == voice.voice && sign.May == voice.may {
				shown := w.sign(g, sign)
				shown.Rank = rank
				group.Signs = append(group.Signs, shown)
			}
		}
		if len(group.Signs) > 0 {
			out.Signs = append(out.Signs, group)
		}
	}
	same := s.ID + saidOf(out.Signs)
	if out.As = told[same]; out.As == "" {
		told[same] = word
	} else {
		out.Href = "" // it stands there
	}
	if s.Standing() != causes.Unlikely {
		out.Needs = s.Needs()
	}
	if s.Standing() <= causes.Possible {
		now := stated("Now: ", strings.TrimSuffix(uncapital(s.Now), "."))
		if g.Sheet.Stage == figures.Empty {
			now = ""
		}
		out.Do = phrase(" ", now, "Next time: "+uncapital(s.Advice()))
	}
	return out
}

var standingWords = map[causes.Standing]string{causes.Likely: "Likely", causes.Possible: "Possible", causes.Open: "Not shown", causes.Unlikely: "Unlikely"}

func saidOf(groups []view.SignGroup) string {
	text := ""
	for _, group := range groups {
		text += group.Voice
		for _, s := range group.Signs {
			text += s.Says
		}
	}
	return text
}

// sign is a reading. In the terminal it has its place, a line of the entry by its
// number, one of another file by its name too; a page spares its visitors that.
func (w pageWriter) sign(g *book.Gyle, s causes.Sign) view.Sign {
	out := view.Sign{Says: w.scrub(s.Says)}
	if s.Where.Line == 0 || !w.spell.forTerminal {
		return out
	}
	out.Place = lineNames(g, []journal.Where{s.Where})
	return out
}

// whoFound is by how many a word was found, and what their agreeing is worth, and the
// same with their names unless tasters are private.
func (w pageWriter) whoFound(g *book.Gyle, s causes.Saying, tasters int) (said, who string) {
	said = itoa(s.Tasters) + " of " + counted(tasters, "taster") + ": a hint"
	if s.Agreed() {
		said = strings.TrimSuffix(said, "a hint") + "they agree"
	}
	who = said
	if tasters == 1 {
		who = "the only taster: a hint"
	}
	switch {
	case !w.private.Tasters:
		who = inWords(w.tastersOf(g, s)) + ", " + who
	case s.Tasters == 1:
		who = friend + ", " + who
	}
	return said, sentenceHead(who) + "."
}

// tastersOf are the names to publish of those who found a word.
func (w pageWriter) tastersOf(g *book.Gyle, s causes.Saying) []string {
	var names []string
	for _, i := range s.Tastings {
		name := w.taster(g.Tastings[i].By).Text
		if name == "" {
			name = "somebody"
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// glass says how it was served when it was found so, and what that alone does to
// the taste.
func (w pageWriter) glass(g *book.Gyle, d causes.Diagnosis) string {
	var parts []string
	if heat := w.spanOf(d.Glass.Heat, "°C"); heat != "" {
		parts = append(parts, "in the glass at "+heat)
	}
	switch open := w.spanOf(d.Glass.Open, "days"); {
	case d.Glass.Open.High < 1 && open != "":
		parts = append(parts, "broached that day")
	case open != "":
		parts = append(parts, "broached "+open+" before")
	}
	if age := w.spanOf(d.Glass.Age, "days"); age != "" {
		parts = append(parts, age+" after pitching")
	}
	sentences := []string{stated("Said as ", w.scrub(strings.Join(d.Spelt, ", "))), stated("", sentenceHead(strings.Join(parts, "; ")))}
	for _, p := range d.Glass.Groups {
		parts = parts[:0]
		what := "without a sparkler"
		switch {
		case p.Package >= 0:
			what = "from " + w.packageName(g, p.Package)
		case p.Through != "":
			what = drawnThrough(p.Through)
		case p.Sparkler:
			what = "with a sparkler"
		}
		sentences = append(sentences, sentenceHead(what)+": "+itoa(p.Said)+" of "+itoa(p.Of)+".")
	}
	return phrase(" ", append(sentences, d.Remarks...)...)
}

// spanOf prints a span in a unit: 11 to 13 °C.
func (w pageWriter) spanOf(s causes.Span, unit string) string {
	if !s.Known {
		return ""
	}
	low, high := w.spell.measure(s.Low, math.NaN(), unit, 0), w.spell.measure(s.High, math.NaN(), unit, 0)
	switch {
	case unit == "days" && low.Value == "1" && high.Value == "1":
		return "a day"
	case low.Value == high.Value:
		return high.String()
	}
	return low.Value + " to " + high.String()
}

// sentenceHead is a text with a capital at its head.
func sentenceHead(text string) string {
	for i, r := range text {
		return strings.ToUpper(string(r)) + text[i+len(string(r)):]
	}
	return ""
}

// uncapital is a sentence as part of another.
func uncapital(text string) string {
	for i, r := range text {
		return strings.ToLower(string(r)) + text[i+len(string(r)):]
	}
	return ""
}

// inWords joins names as a sentence does: Ann, Bob and Cy.
func inWords(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}
