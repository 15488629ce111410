package store

import (
	"errors"
	"strings"
	"testing"
	"time"
)

var counts = Kind[int]{Name: "count", Rounds: 2}

// counting is a making that counts how often it was made.
func counting(made *int) func() int { return func() int { *made++; return *made } }

func TestAValueIsMadeOnce(t *testing.T) {
	s, made := New(nil), 0
	for range 3 {
		if got := Do(s, &counts, KeyOf("a"), counting(&made)); got != 1 {
			t.Errorf("the value is %d", got)
		}
	}
	if Do(s, &counts, KeyOf("b"), counting(&made)); made != 2 {
		t.Errorf("made %d times under two keys", made)
	}
	if got := Do(s, &Kind[string]{Name: "word"}, KeyOf("a"), func() string { return "another" }); got != "another" {
		t.Errorf("a value of another kind has the key of one: %q", got)
	}
	if Do(nil, &counts, KeyOf("a"), counting(&made)); made != 3 {
		t.Error("no store keeps something")
	}
}

func TestAValueThatIsNotStillSoIsMadeAnew(t *testing.T) {
	s, made := New(nil), 0
	for _, still := range []bool{true, true, false, true} {
		DoWhile(s, &counts, KeyOf("a"), func(int) bool { return still }, counting(&made))
	}
	if got := Do(s, &counts, KeyOf("a"), counting(&made)); got != 2 {
		t.Errorf("the value is %d, want that made when the first was not so any more", got)
	}
}

func TestAValueOutlivesItsRounds(t *testing.T) {
	s, made := New(nil), 0
	once := func() int { return Do(s, &counts, KeyOf("a"), counting(&made)) }
	once()
	for range 5 {
		s.Turn()
		s.Turn()
		if once() != 1 {
			t.Fatal("made anew although it was asked for every second round")
		}
	}
	for range counts.Rounds + 1 {
		s.Turn()
	}
	if len(s.held) != 0 {
		t.Errorf("%d values are still held", len(s.held))
	}
	if once() != 2 {
		t.Error("kept for longer than its rounds")
	}
}

// letters writes words as they are.
type letters struct{ t *testing.T }

func (letters) Encode(s string) ([]byte, error) { return []byte(s), nil }

func (letters) Decode(data []byte) (string, error) {
	if strings.Contains(string(data), "spoilt") {
		return "", errors.New("spoilt")
	}
	return string(data), nil
}

func TestValuesWithACodecOutliveTheProcess(t *testing.T) {
	words := &Kind[string]{Name: "word", Codec: letters{t}}
	folder := Folder(t.TempDir())
	made := 0
	say := func(shelf Shelf, key, word string) string {
		return Do(New(shelf), words, KeyOf(key), func() string { made++; return word })
	}
	for range 2 {
		if got := say(folder, "a", "a word"); got != "a word" || made != 1 {
			t.Errorf("%q, made %d times", got, made)
		}
	}
	if say(nil, "a", "a word"); made != 2 {
		t.Error("kept without a shelf")
	}
	say(folder, "b", "spoilt")
	if got := say(folder, "b", "sound"); got != "sound" {
		t.Errorf("what cannot be read again is used: %q", got)
	}
}

func TestWhatFailedIsNotKept(t *testing.T) {
	s, fails := New(nil), errors.New("fails")
	for _, want := range []error{fails, nil} {
		got, err := Try(s, &counts, KeyOf("a"), func() (int, error) { return 1, want })
		if err != want || got != 1 {
			t.Errorf("%d %v, want 1 %v", got, err, want)
		}
	}
}

func TestKeysTellValuesApart(t *testing.T) {
	type inner struct{ x, y float64 }
	type outer struct {
		Name  string
		In    *inner
		List  []inner
		ByID  map[string]inner
		When  time.Time
		Any   any
		Flags [2]bool
	}
	zone := time.FixedZone("east", 3600)
	noon := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	all := []outer{
		{},
		{Name: "a"},
		{In: &inner{}},
		{In: &inner{x: 1}},
		{In: &inner{y: 1}},
		{List: []inner{{}}},
		{List: []inner{{}, {}}},
		{ByID: map[string]inner{"a": {x: 1}, "b": {}}},
		{ByID: map[string]inner{"b": {x: 1}, "a": {}}},
		{When: noon},
		{When: noon.Add(1)},
		{When: noon.In(zone)},
		{Any: 1},
		{Any: "1"},
		{Any: uint8(1)},
		{Flags: [2]bool{true, false}},
		{Flags: [2]bool{false, true}},
	}
	seen := map[Key]int{}
	for i, v := range all {
		if other, is := seen[KeyOf(v)]; is {
			t.Errorf("%+v and %+v have one key", v, all[other])
		}
		seen[KeyOf(v)] = i
	}
	if KeyOf("ab", "c") == KeyOf("a", "bc") {
		t.Error("texts run into each other")
	}
	same := func() outer {
		return outer{In: &inner{x: 2}, ByID: map[string]inner{"b": {x: 1}, "a": {}, "c": {}}, When: noon}
	}
	if one, other := same(), same(); KeyOf(one) != KeyOf(other) {
		t.Error("one value has two keys")
	}
}

// TestKeysAreTheSameEverywhere holds keys to what they were when the shelf was filled:
// SHA-256 of the bytes written out by hand, by sha256sum.
func TestKeysAreTheSameEverywhere(t *testing.T) {
	const want = "81bba0891b928c255d8941d317d3ae8cab0aee2f89a9458864cdf2ac9894ef0b"
	if got := KeyOf("malt", 7).String(); got != want {
		t.Errorf("the key is %s, want %s", got, want)
	}
}

func TestNoKeyOfWhatTellsNothing(t *testing.T) {
	type ring struct{ next *ring }
	round := &ring{}
	round.next = round
	for what, v := range map[string]any{"a function": func() {}, "a channel": make(chan int), "a ring": round} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s has a key", what)
				}
			}()
			KeyOf(v)
		}()
	}
}
