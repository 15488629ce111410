package rules_test

import (
	"fmt"
	"testing"
	"time"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/causes"
	"gylebook/internal/figures"
	"gylebook/internal/planning"
	"gylebook/internal/proposals"
	"gylebook/internal/rules"
)

// sentence is one text that a brewer reads, and whose it is.
type sentence struct{ of, text string }

// everySentence is every text that is said of a gyle: findings, verdict, proposals,
// diagnoses and timetables.
func everySentence(s *figures.Sheet) []sentence {
	var all []sentence
	say := func(of string, texts ...string) {
		for i, text := range texts {
			if text != "" {
				all = append(all, sentence{fmt.Sprintf("%s %d", of, i), text})
			}
		}
	}
	for _, n := range rules.Examine(s) {
		say(n.ID, n.Says, n.Why, n.Do)
	}
	if v, ok := rules.FinishedOrQuiet(s); ok {
		say("verdict", v.Says, v.Do)
		for _, e := range v.Evidence {
			say("evidence", e.Says)
		}
	}
	proposals, unproposed := proposals.Appraise(s)
	for _, p := range proposals {
		say("proposal for "+string(p.Figure), p.Gap, p.Cause, p.Change, p.Short, p.Know)
		for _, set := range p.Sets {
			say("proposal for "+string(p.Figure)+", set", set.Value)
		}
	}
	for _, u := range unproposed {
		say("no proposal for "+string(u.Figure), u.Why)
	}
	for _, d := range causes.Diagnose(s, causes.Hear(s.Gyle)) {
		say("remark on "+d.Word, d.Remarks...)
		for _, suspect := range d.Suspects {
			say("cause "+suspect.ID, suspect.Now, suspect.Next, suspect.Advice())
			for _, sign := range suspect.Signs {
				say("sign of "+suspect.ID, sign.Says)
			}
		}
	}
	for _, t := range planning.Timetables(s) {
		for _, step := range t.Steps {
			say("timetable", step.Says, step.Do, step.Slips)
		}
	}
	return all
}

// exampleSheets are the sheets of every rule's and cause's examples.
func exampleSheets(t testing.TB) map[string]*figures.Sheet {
	all := map[string]*figures.Sheet{}
	for id, e := range healthy.Examples(t, "testdata/examples.yaml") {
		all["rule "+id] = e.Raised(t)
	}
	for id, e := range healthy.Examples(t, "../causes/testdata/examples.yaml") {
		all["cause "+id] = e.Raised(t)
	}
	return all
}

// journalSheets are the journals that are kept here, each gyle on some days of its life.
func journalSheets(t testing.TB) map[string]*figures.Sheet {
	all := map[string]*figures.Sheet{}
	for _, dir := range []string{"testdata/cellar-book", "../causes/testdata/diagnosis", "../../testdata/gyles-by-hand", "../../testdata/journal", "../../journal"} {
		j := readAll(dir)
		for _, g := range j.Gyles {
			for _, days := range []int{-3, 0, 2, 9, 25, 70, 400} {
				begun := g.Brewed.Middle()
				if begun.IsZero() {
					begun = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
				}
				now := begun.AddDate(0, 0, days)
				all[fmt.Sprintf("%s/%s on day %d", dir, g.File, days)] = figures.Work(g, figures.Context{Larder: j.Larder, Settings: j.Settings, Now: now})
			}
		}
	}
	return all
}
