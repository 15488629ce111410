package main

import (
	"context"
	"os"
	"strings"
	"testing"
)

// TestLookedUp: of the words that brewers look up, fourteen in fifteen or more
// are answered with the right thing.
func TestLookedUp(t *testing.T) {
	raw, err := os.ReadFile("testdata/looked-up.txt")
	if err != nil {
		t.Fatal(err)
	}
	all, right := 0, 0
	for line := range strings.Lines(string(raw)) {
		words, want, is := strings.Cut(strings.TrimSpace(line), " > ")
		if !is {
			continue
		}
		all++
		var out, faults strings.Builder
		none := func(string) string { return "" }
		exit := run(context.Background(), append([]string{"words"}, strings.Fields(words)...), strings.NewReader(""), &out,
			&faults, none)
		if exit == exitDone && strings.Contains(strings.ToLower(out.String()), strings.ToLower(want)) {
			right++
			continue
		}
		t.Logf("%s: exit %d, nothing of %s: %s", words, exit, want, faults.String())
	}
	if all < 150 || right*15 < all*14 {
		t.Errorf("%d of %d words are answered, want 14 in 15", right, all)
	}
}
