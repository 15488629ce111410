package publish

import (
	"bytes"
	"testing"
)

// What stands in a list or a record is either refused or written back byte for
// byte, so that nothing in it is guessed at.

func FuzzList(f *testing.F) {
	f.Add(sums(before).bytes())
	f.Add(list{}.bytes())
	f.Add([]byte(listFormat + "\nxx  a\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		l, err := parseList(text)
		if err == nil && !bytes.Equal(l.bytes(), text) {
			t.Errorf("%q came back as %q", text, l.bytes())
		}
	})
}

func FuzzRecord(f *testing.F) {
	one, two := sum{1}, sum{2}
	f.Add(recordBytes([]change{{"a", &one, &two}, {"b/c d", nil, &two}, {"c", &one, nil}, {"d", nil, nil}}))
	f.Add(recordBytes(nil))
	f.Add([]byte(recordFormat + "\n- - ../a\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		changes, err := parseRecord(text)
		if err == nil && !bytes.Equal(recordBytes(changes), text) {
			t.Errorf("%q came back as %q", text, recordBytes(changes))
		}
	})
}
