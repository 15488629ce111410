package findings

import (
	"os"
	"reflect"
	"sync"
	"testing"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// TestPagesMayAskAtOnce: pages are rendered side by side, and several ask of one
// sheet. Each gets what it would get alone, and the sheet stays as it is; the race
// detector sees whoever changes it.
func TestPagesMayAskAtOnce(t *testing.T) {
	j := journal.Read(os.DirFS("../../journal"), journal.Options{})
	now := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	asks := []func(*figures.Sheet) any{
		func(s *figures.Sheet) any { return Diagnose(s, Hear(s.Gyle)) },
		func(s *figures.Sheet) any { _, none := Appraise(s); return none },
		func(s *figures.Sheet) any { v, _ := FinishedOrQuiet(s); return v },
		func(s *figures.Sheet) any { return Timetables(s) },
		func(s *figures.Sheet) any { r, _ := PartyRound(s); return r.Low + r.High + r.Have.Value },
		func(s *figures.Sheet) any { return Allergens(s) },
		func(s *figures.Sheet) any { return Examine(s) },
		func(s *figures.Sheet) any { return len(figures.DocumentOf(s, nil).Figures) },
		func(s *figures.Sheet) any {
			rows := 0
			for range s.LogTrace() {
				rows++
			}
			return rows
		},
		func(s *figures.Sheet) any { return len(s.GravityReadings()) + len(s.Logged()) + len(s.LeftOverTime()) },
	}
	for _, g := range j.Gyles {
		s := figures.Work(g, figures.Context{Larder: j.Larder.Overheard(), Settings: j.Settings, Now: now})
		inputs := len(s.Inputs)
		alone, together := make([]any, len(asks)), make([]any, len(asks))
		for i, ask := range asks {
			alone[i] = ask(figures.Work(g, s.Context))
		}
		var wait sync.WaitGroup
		for i, ask := range asks {
			wait.Go(func() { together[i] = ask(s) })
		}
		wait.Wait()
		for i := range asks {
			if !reflect.DeepEqual(alone[i], together[i]) {
				t.Errorf("gyle %d, ask %d: %v, and alone %v", g.Number.N, i, together[i], alone[i])
			}
		}
		if len(s.Inputs) != inputs {
			t.Errorf("gyle %d: the sheet has %d inputs, and had %d", g.Number.N, len(s.Inputs), inputs)
		}
	}
}
