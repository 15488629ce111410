package figures

import "testing"

// TestKindsCalled: every word leads to a figure that there is, and no figure's
// own id is another's word.
func TestKindsCalled(t *testing.T) {
	for word, id := range called {
		if KindCalled(word) != id {
			t.Errorf("%s leads to %s, which is no figure", word, id)
		}
	}
	for _, k := range Kinds() {
		if called[string(k.ID)] != "" {
			t.Errorf("%s is a figure, and leads to %s", k.ID, called[string(k.ID)])
		}
	}
	if got := KindCalled("IBU"); got != "bitterness" {
		t.Errorf("IBU is %q", got)
	}
	if got := KindCalled("zymurgy"); got != "" {
		t.Errorf("zymurgy is %q", got)
	}
}
