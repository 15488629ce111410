package journal

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/adrg/frontmatter"
	"go.yaml.in/yaml/v4"

	"gylebook/internal/notice"
)

// frontMatter is a file taken apart: its front matter and the story below.
type frontMatter struct {
	open, close int // the lines of the two fences; open is 0 where there is no front matter
	text        []byte
	body        []byte
	ok          bool // there is none, or it has both fences where they belong
}

// bodyLine is the line that the body starts on.
func (f frontMatter) bodyLine() int { return f.close + 1 }

// clean makes text of bytes: no byte-order mark, one kind of line end, and
// U+FFFD for what is no text, which is reported. Lines and columns stay true.
func (r *reading) clean(raw []byte) []byte {
	raw = bytes.TrimPrefix(raw, []byte("\uFEFF"))
	if bytes.IndexByte(raw, '\r') >= 0 {
		raw = bytes.ReplaceAll(raw, []byte("\r\n"), []byte("\n"))
		raw = bytes.ReplaceAll(raw, []byte("\r"), []byte("\n"))
	}
	bad := notText(raw)
	if bad < 0 {
		return raw
	}
	text := bytes.Map(textRune, bytes.ToValidUTF8(raw, []byte("\uFFFD")))
	r.source = text
	before := raw[:bad]
	line := bytes.Count(before, []byte("\n"))
	column := utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
	place := notice.Place{File: r.file, Line: line + 1, Column: column + 1}
	r.report(place, idNotText, "", fmt.Sprintf("the byte 0x%02X is no text: expected a file in UTF-8", raw[bad]),
		"Save the file as UTF-8 and type the character again.")
	return text
}

// notText is the index of the first byte that is no text, -1 for none.
func notText(raw []byte) int {
	for i := 0; i < len(raw); {
		c := raw[i]
		if c < utf8.RuneSelf {
			if c < ' ' && c != '\n' && c != '\t' || c == 0x7F {
				return i
			}
			i++
			continue
		}
		rune, size := utf8.DecodeRune(raw[i:])
		if rune == utf8.RuneError && size == 1 || textRune(rune) != rune {
			return i
		}
		i += size
	}
	return -1
}

// textRune is the character itself, or U+FFFD for control characters and for
// what YAML refuses.
func textRune(c rune) rune {
	if c == '\n' || c == '\t' {
		return c
	}
	if unicode.IsControl(c) && c != 0x85 || c == 0xFFFE || c == 0xFFFF || c == 0xFEFF {
		return utf8.RuneError
	}
	return c
}

// split finds the fences. What is wrong with them is reported.
//
// The fences are looked for here first, since the front matter library takes a
// file for one without any where the closing fence is missing, and takes an
// indented --- inside a block of words for the end.
func (r *reading) split(text []byte) frontMatter {
	f := frontMatter{body: text}
	lineNumber, indented := 0, 0
	for rest := text; len(rest) > 0; {
		line, after, _ := bytes.Cut(rest, []byte("\n"))
		rest = after
		lineNumber++
		bare := string(bytes.TrimSpace(line))
		flush := len(line) > 0 && !unicode.IsSpace(rune(line[0]))
		switch {
		case f.open == 0 && bare == "":
		case f.open == 0 && bare == "---" && flush:
			f.open = lineNumber
		case f.open == 0:
			f.ok = r.noFront(lineNumber, bare)
			return f
		case bare == "---" && flush && indented == 0:
			f.close, f.ok = lineNumber, true
			return f
		case bare == "---" && flush:
			f.close, f.body = lineNumber, rest
			f.text = linesBetween(text, f.open, f.close)
			r.report(notice.Place{File: r.file, Line: indented, Column: 1}, idFence, "",
				"an indented --- inside the front matter would end it here", "Write it another way, such as - - -.")
			return f
		case bare == "---" && indented == 0:
			indented = lineNumber
		}
	}
	f.ok = f.open == 0
	if !f.ok {
		r.unclosed(text, f.open)
	}
	return f
}

// noFront tells whether a file that does not begin with --- is an ordinary one:
// front matter of another kind is reported instead of being published.
func (r *reading) noFront(line int, bare string) bool {
	switch bare {
	case "+++", ";;;", "{", "---yaml", "---toml", "---json":
		r.report(notice.Place{File: r.file, Line: line, Column: 1}, idNotYAML, "",
			quote(bare)+" begins front matter of another kind: expected YAML between two lines of ---",
			"Write the keys as YAML between two lines of ---.")
		return false
	}
	return true
}

// unclosed reports front matter that never ends.
func (r *reading) unclosed(text []byte, open int) {
	do := "Put --- on a line of its own below the last key."
	for i, line := range strings.Split(string(text), "\n") {
		if i >= open && strings.TrimRight(line, " \t") == "..." {
			do = fmt.Sprintf("Write --- instead of ... on line %d.", i+1)
			break
		}
	}
	r.report(notice.Place{File: r.file, Line: open, Column: 1}, idUnclosed, "",
		"the front matter that begins here never ends: expected a second ---", do)
}

// linesBetween is the text between two lines.
func linesBetween(text []byte, open, close int) []byte {
	lines := bytes.SplitAfter(text, []byte("\n"))
	return bytes.Join(lines[open:close-1], nil)
}

// parse takes the front matter off a file whose fences are known to be right,
// and makes a tree of it. The tree is nil where there is none or it is no YAML.
func (r *reading) parse(text []byte, f *frontMatter) *yaml.Node {
	if f.open == 0 {
		return nil
	}
	r.offset = f.open
	tree := &yamlTree{}
	format := frontmatter.NewFormat("---", "---", unmarshalTree)
	body, err := frontmatter.MustParse(bytes.NewReader(text), tree, format)
	f.text = tree.text
	if err == nil {
		f.body = body
		return tree.root
	}
	f.body = linesBetween(text, f.close, bytes.Count(text, []byte("\n"))+2)
	r.notYAML(err)
	return nil
}

// lookAgain betters a fault by what stands in the file: where the line of dots
// is, and whether the character that no value may begin with is a tab.
func (r *reading) lookAgain(f *yamlFault, err error) {
	if errors.Is(err, errDocument) {
		for i, line := range bytes.Split(r.source, []byte("\n")) {
			if i >= r.offset && strings.TrimRight(string(line), " \t") == "..." {
				f.line, f.column = i+1-r.offset, 1
				return
			}
		}
	}
	line := []rune(r.line(notice.Place{File: r.file, Line: r.offset + f.line}))
	if f.column >= 1 && f.column <= len(line) && line[f.column-1] == '\t' {
		f.says, f.do = "a tab where the line is indented", "Indent with spaces."
	}
}

// notYAML reports why the front matter is not YAML.
func (r *reading) notYAML(err error) {
	f := faultOf(err)
	r.lookAgain(&f, err)
	place := notice.Place{File: r.file, Line: r.offset + max(f.line, 1), Column: max(f.column, 1)}
	id := idNotYAML
	if errors.Is(err, errTooBig) {
		id = idTooBig
	}
	if f.alias {
		id = idAlias
	}
	r.errors = append(r.errors, notice.Notice{
		Place: place, Severity: notice.Unreadable, ID: id, Says: f.says,
		Why: "Nothing of the front matter can be read.", Do: f.do, Line: r.line(place),
	})
}
