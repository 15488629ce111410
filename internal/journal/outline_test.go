package journal

import (
	"strings"
	"testing"
)

// shown is a file with the bytes of each single value in « » and of each key in
// ‹ ›, as the outline has them.
func shown(t *testing.T, raw string) string {
	t.Helper()
	o, err := OutlineOf([]byte(raw))
	if err != nil {
		t.Fatalf("%q: %v", raw, err)
	}
	marks := map[int]string{}
	var mark func(p *Part)
	mark = func(p *Part) {
		switch p.Shape {
		case Map:
			for _, k := range p.Keys {
				marks[k.Start] += "‹"
				marks[k.End] += "›"
				mark(k.Value)
			}
		case List:
			for _, part := range p.Parts {
				mark(part)
			}
		default:
			if p.Start == p.End {
				marks[p.Start] += "«»"
				return
			}
			marks[p.Start] += "«"
			marks[p.End] = "»" + marks[p.End]
		}
	}
	mark(o.Root)
	var b strings.Builder
	for i := range len(raw) + 1 {
		b.WriteString(marks[i])
		if i < len(raw) {
			b.WriteByte(raw[i])
		}
	}
	return b.String()
}

func TestOutlineTellsBytes(t *testing.T) {
	for _, c := range []struct{ raw, want string }{
		{"---\ngyle: 1\n---\n", "---\n‹gyle›: «1»\n---\n"},
		{"\uFEFF---\r\nbeer: Übel # so\r\nhops:\r\n---", "\uFEFF---\r\n‹beer›: «Übel» # so\r\n‹hops›:«»\r\n---"},
		{"---\nhops: [{hop: 'a''b', weight: 2 g}, ]\n---\n",
			"---\n‹hops›: [{‹hop›: «'a''b'», ‹weight›: «2 g»}, ]\n---\n"},
		{"---\nnext:\n  - \"a \\\" b\"   # x\n  -   two\n    words\n---\n",
			"---\n‹next›:\n  - «\"a \\\" b\"»   # x\n  -   «two\n    words»\n---\n"},
		{"---\nsummary: |\n  readings: no\n  more\nbeer: b\n---\n",
			"---\n‹summary›: «|\n  readings: no\n  more»\n‹beer›: «b»\n---\n"},
		{"---\nbeer: a\u2028b\nracked: {on: , volume: ~}\n---\n",
			"---\n‹beer›: «a\u2028b»\n‹racked›: {‹on›:«» , ‹volume›: «~»}\n---\n"},
	} {
		if got := shown(t, c.raw); got != c.want {
			t.Errorf("of %q\n got %q\nwant %q", c.raw, got, c.want)
		}
	}
}

func TestOutlineRefuses(t *testing.T) {
	for _, raw := range []string{
		"no front matter\n", "---\ngyle: 1\n", "---\ngyle: [1\n---\n", "---\na: &x 1\nb: *x\n---\n",
		"---\na: &x 1\n---\n", "---\n- a\n---\n", "---\ngyle: \xff\n---\n", "---\na: !!str 1\n---\n",
	} {
		if o, err := OutlineOf([]byte(raw)); err == nil {
			t.Errorf("%q has the outline %+v, want an error", raw, o.Root)
		}
	}
}

func FuzzOutline(f *testing.F) {
	for _, file := range everyKey(f) {
		f.Add([]byte("---\n" + string(file.data) + "\n---\n"))
		f.Add(file.data)
	}
	f.Add([]byte("---\r\ngyle: 1\r\nhops: [{a: ,}]\r\n---\r\n"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		o, err := OutlineOf(raw)
		if err != nil {
			return
		}
		var walk func(p *Part)
		walk = func(p *Part) {
			if p.Start < 0 || p.End < p.Start || p.End > len(raw) {
				t.Fatalf("a part from %d to %d of %d bytes", p.Start, p.End, len(raw))
			}
			for _, part := range p.Parts {
				walk(part)
			}
			for _, k := range p.Keys {
				walk(k.Value)
			}
		}
		walk(o.Root)
	})
}
