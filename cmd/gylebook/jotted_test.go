package main

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const kegAndBottles = `---
gyle: 1
beer: Said twice
brewed: 2026-03-01
yeast: [{yeast: dried ale, pitched: 2026-03-01 14:00}]
fermenter: {vessel: bucket, volume: 21 L, gravity: 1.042}
readings:
  - {when: 2026-03-06 09:00, gravity: 1.012, temp: 19 C}
  - {when: 2026-03-09 09:00, gravity: 1.012, temp: 19 C}
racked: {on: 2026-03-12, volume: 20 L, temp: 18 C}
packages:
  - {vessel: bottle 500 mL, count: 39, on: 2026-03-12}
cellared: {at: 12 C, from: 2026-03-12, warmest: 16 C}
---
`

// TestWhatIsJottedIsAsTyped: what jot writes gives the figures that the same thing typed
// by hand gives.
func TestWhatIsJottedIsAsTyped(t *testing.T) {
	for _, c := range []struct{ jotted, typed, after string }{
		{"primed sucrose 80 g", "priming: {sugar: sucrose, weight: 80 g}\n", "cellared:"},
		{"primed sucrose each 2 g", "priming: {sugar: sucrose, each: 2 g}\n", "cellared:"},
		{"vented package 0 12C", "done:\n  - {when: 2026-04-02 12:00, did: vented, package: 0, at: 12 C}\n", "cellared:"},
	} {
		t.Run(c.jotted, func(t *testing.T) {
			byHand := figuresOf(t, strings.Replace(kegAndBottles, c.after, c.typed+c.after, 1), "")
			byJot := figuresOf(t, kegAndBottles, c.jotted)
			if len(byHand) == 0 || len(byHand) != len(byJot) {
				t.Errorf("%d figures by hand, %d by jot", len(byHand), len(byJot))
			}
			for id, value := range byHand {
				if math.Abs(byJot[id]-value) > 1e-9 {
					t.Errorf("%s: %g by hand, %g by jot", id, value, byJot[id])
				}
			}
		})
	}
}

// figuresOf is an entry's figures as JSON has them, after something was jotted.
func figuresOf(t *testing.T, entry, jotted string) map[string]float64 {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{"index.md": "---\njournal: Any\ntime_zone: UTC\n---\n", "1.md": entry} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	command := func(args ...string) string {
		var out, faults strings.Builder
		none := func(string) string { return "" }
		args = append(args, "--journal", dir, "--now", "2026-04-02T12:00:00Z")
		if exit := run(context.Background(), args, strings.NewReader(""), &out, &faults, none); exit != exitDone {
			t.Fatalf("%v ends with %d: %s", args, exit, faults.String())
		}
		return out.String()
	}
	if jotted != "" {
		command(append([]string{"jot", "1"}, strings.Fields(jotted)...)...)
	}
	var read struct {
		Figures []struct {
			ID, Of string
			Value  any
		}
	}
	if err := json.Unmarshal([]byte(command("figures", "1", "--json")), &read); err != nil {
		t.Fatal(err)
	}
	all := map[string]float64{}
	for _, f := range read.Figures {
		if v, is := f.Value.(float64); is {
			all[f.ID+" "+f.Of] = v
		}
	}
	return all
}
