package book

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// missedEntry fermented further than its aim, and its tasters found it so; Wren's
// name stands in a note that a sign quotes.
const missedEntry = `---
gyle: 1
beer: Any
brewed: 2026-03-07
aim: {volume: 21 L, og: 1.042, fg: 1.012}
grist: [{malt: pale malt, weight: 3.9 kg, extract: 300 Ldeg/kg, colour: 6 EBC}]
mash: {liquor: 10 L, grain_at: 16 C, rests: [{at: 64 C, for: 60 min}]}
yeast: [{yeast: any, pitched: 2026-03-07 14:30}]
fermenter: {volume: 21 L, gravity: 1.042, sample_at: 20 C}
readings:
  - {when: 2026-03-14 09:00, gravity: 1.008, temp: 20 C, note: "Wren smelt the skin on it: a white film"}
  - {when: 2026-03-17 09:00, gravity: 1.008, temp: 20 C}
racked: {on: 2026-03-17, volume: 20 L, temp: 18 C}
tastings:
  - {when: 2026-04-05, by: Wren, found: [dry, sour, Wren-like]}
  - {when: 2026-04-05, by: Teal, found: [too dry]}
---
`

// TestPublish: the document has the figures' keys and the judgements beside them,
// and what it quotes has gone through hush.
func TestPublish(t *testing.T) {
	d := journal.ReadFile("gyles/1.md", []byte(missedEntry), nil)
	if len(d.Errors) > 0 {
		t.Fatal(d.Errors)
	}
	s := figures.Work(d.Gyle, figures.Context{Larder: journal.NewLarder(nil), Now: time.Date(2026, 4, 6, 12, 0, 0, 0, time.UTC)})
	hush := func(text string) string {
		return strings.ReplaceAll(strings.ReplaceAll(text, "Wren", "a friend"), "wren", "a friend")
	}
	raw, err := figures.Encode(Publish(s, nil, hush))
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(strings.ToLower(string(raw)), "wren") {
		t.Error("a name that is private is in the document")
	}
	var got struct {
		Gyle      int               `json:"gyle"`
		Figures   []json.RawMessage `json:"figures"`
		Diagnosis []diagnosisJSON   `json:"diagnosis"`
		NextTime  []proposalJSON    `json:"next_time"`
	}
	if err := json.Unmarshal(raw, &got); err != nil {
		t.Fatal(err)
	}
	if got.Gyle != 1 || len(got.Figures) == 0 || len(got.Diagnosis) != 3 || len(got.NextTime) != 1 {
		t.Fatalf("gyle %d with %d figures, %d words and %d proposals", got.Gyle, len(got.Figures), len(got.Diagnosis), len(got.NextTime))
	}
	dry := got.Diagnosis[0]
	if dry.Word != "dry" || dry.Tasters != 2 || dry.Of != 2 || len(dry.As) != 1 || len(dry.Causes) == 0 {
		t.Fatalf("the word that both found is %+v", dry)
	}
	if c := dry.Causes[0]; c.ID != "fermented-far" || c.Standing != "likely" || c.Signs[0].Voice != "for" || c.Signs[0].Line != 12 || c.Signs[0].File != "" {
		t.Errorf("the likeliest cause is %+v", c)
	}
	p := got.NextTime[0]
	if p.Figure != "fg" || len(p.Sets) != 1 || p.Sets[0].Key != "mash.rests[0].at" || p.Expect.Value < 1.008 || p.Expect.PlusMinus == nil || len(p.From) == 0 {
		t.Errorf("the proposal is %+v", p)
	}
	// What it proposes can be asked of the entry as it stands.
	if set := p.Sets[0]; len(journal.ReadFileSet("gyles/1.md", []byte(missedEntry), nil, []string{set.Key + "=" + set.Value}).Errors) > 0 {
		t.Errorf("%s=%s is no change that an entry takes", set.Key, set.Value)
	}
}
