package journal

import (
	"testing"
	"time"
)

// TestAskedForNearNamesAndAnsweredAgain: what was asked can be asked of another
// larder while it is still being kept in mind.
func TestAskedForNearNamesAndAnsweredAgain(t *testing.T) {
	ours := NewLarder(nil).Overheard()
	if len(ours.Near("hop", "goldngs")) == 0 {
		t.Fatal("no hop near goldngs")
	}
	ours.Card("malt", "pale malt")
	ours.All("yeast")
	done := make(chan bool, 1)
	go func() { done <- ours.AnsweredAlike(NewLarder(nil)) }()
	select {
	case alike := <-done:
		if !alike {
			t.Error("two empty larders answer differently")
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it waits for itself")
	}
	card := &Card{}
	card.Kind.Word, card.Name.Text = "hop", "goldngs"
	if ours.AnsweredAlike(NewLarder([]*Card{card})) {
		t.Error("a card of the very name that was asked for makes no difference")
	}
}
