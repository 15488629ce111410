package site

import (
	"html/template"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"gylebook/templates"
)

// TestTemplatesFitTheirStructs executes every template on an empty page and on
// one with something in every field, so that a name that is not in the struct
// shows in whichever branch it stands.
func TestTemplatesFitTheirStructs(t *testing.T) {
	own, err := builtIn()
	if err != nil {
		t.Fatal(err)
	}
	for name, empty := range pageTemplates() {
		if err := try(own.pages[name], empty); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestEveryTemplateIsAPageOrAPart(t *testing.T) {
	files, err := readAll(templates.Files)
	if err != nil {
		t.Fatal(err)
	}
	for name := range files {
		if strings.HasSuffix(name, ".html") && !isPart(name) && pageTemplates()[name] == nil {
			t.Errorf("%s is of no page", name)
		}
	}
	for name := range pageTemplates() {
		if files[name] == nil {
			t.Errorf("there is no %s", name)
		}
	}
	for _, name := range []string{"style.css", "book.js"} {
		if len(files[name]) == 0 {
			t.Errorf("%s did not arrive", name)
		}
	}
}

func TestTemplateFunctionsAreBounded(t *testing.T) {
	allowed := functions()
	for _, name := range []string{
		"now", "date", "ago", "toDate", "mustToDate", "dateModify", "randInt", "shuffle", "randAlpha", "uuidv4", "bcrypt", "htpasswd", "genPrivateKey", "derivePassword", "encryptAES",
		"env", "expandenv", "getHostByName", "osBase", "keys", "values", "set", "unset", "repeat", "until", "untilStep", "seq", "indent", "nindent", "wrap", "default", "trunc", "fail", "regexMatch", "dict", "merge", "toJson",
	} {
		if _, ok := allowed[name]; ok {
			t.Errorf("templates may call %s", name)
		}
	}
	if len(allowed) > 40 {
		t.Errorf("%d functions", len(allowed))
	}
	// All that is allowed works.
	if _, err := template.New("").Funcs(allowed).Parse(`{{join ", " (list "a" "b")}}{{upper "a"}}{{ternary "a" "b" true}}`); err != nil {
		t.Error(err)
	}
}

// layered is the page of a gyle with replacement templates, and the notices.
func layered(t *testing.T, layer fs.FS) (string, []string) {
	t.Helper()
	s := build(t, archive(t, "testdata/site/small.txtar"), Options{Templates: layer})
	text := page(t, s, "gyles/2/index.html")
	var said []string
	for _, n := range s.Notices() {
		if n.ID == "template-fault" {
			said = append(said, n.String())
		}
	}
	return text, said
}

func TestATemplateIsReplaced(t *testing.T) {
	text, said := layered(t, entries("gyle.html", `{{define "main"}}<h1>{{.Beer}}, my way</h1>{{end}}`))
	if len(said) > 0 {
		t.Error(said)
	}
	wants(t, text, "<h1>Towpath Mild, my way</h1>", "The Lock-side Book", "!Aim and got")
}

func TestAPartIsReplaced(t *testing.T) {
	text, said := layered(t, entries("parts/table.html", `{{define "table"}}<p>a table of {{len .Rows}}</p>{{end}}{{define "link"}}{{.Text}}{{end}}`))
	if len(said) > 0 {
		t.Error(said)
	}
	wants(t, text, "<p>a table of 2</p>")
}

func TestTheStylesheetIsReplaced(t *testing.T) {
	s := build(t, entries(), Options{Templates: entries("style.css", "p { color: red }")})
	if got := page(t, s, "style.css"); got != "p { color: red }" {
		t.Error(got)
	}
}

func TestFaultyTemplatesFallBack(t *testing.T) {
	for _, c := range []struct {
		name  string
		layer fstest.MapFS
		says  []string
	}{
		{"a name that replaces nothing", entries("gile.html", ""), []string{"templates/gile.html", "replaces nothing"}},
		{"no template at all", entries("gyle.html", "{{define \"main\"}}\n{{if}}{{end}}"), []string{"templates/gyle.html:2", "missing value for if"}},
		{"a field that is not there", entries("gyle.html", "{{define \"main\"}}<h1>\n\n{{.Beeer}}</h1>{{end}}"), []string{"templates/gyle.html:3", "Beeer"}},
		{"a field in a branch that is not taken", entries("gyle.html", "{{define \"main\"}}{{if .Draft}}{{.Nothing}}{{end}}{{end}}"), []string{"templates/gyle.html:1", "Nothing"}},
		{"a part with a fault", entries("parts/notice.html", "{{define \"notices\"}}{{.Wrong}}{{end}}{{define \"notice\"}}{{end}}"), []string{"templates/parts/notice.html:1", "Wrong"}},
		{"a function that is not allowed", entries("gyle.html", "{{define \"main\"}}{{now}}{{end}}"), []string{"templates/gyle.html:1", `"now" not defined`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text, said := layered(t, c.layer)
			wants(t, text, "Aim and got", "Towpath Mild")
			all := strings.Join(said, "\n")
			if len(said) == 0 {
				t.Fatal("nothing was said")
			}
			wants(t, all, c.says...)
		})
	}
}

func TestATemplateFaultIsOnTheBoard(t *testing.T) {
	s := build(t, archive(t, "testdata/site/small.txtar"), Options{Templates: entries("gyle.html", "{{define \"main\"}}{{.Nope}}{{end}}")})
	wants(t, page(t, s, "board/index.html"), "A replacement template cannot be used", "templates/gyle.html:1")
}

// TestFullFillsEverything holds the sample of the checks to have no empty field.
func TestFullFillsEverything(t *testing.T) {
	own, err := builtIn()
	if err != nil {
		t.Fatal(err)
	}
	page := template.Must(own.pages["gyle.html"], nil)
	var b strings.Builder
	if err := page.ExecuteTemplate(&b, "base.html", full(pageTemplates()["gyle.html"])); err != nil {
		t.Fatal(err)
	}
	for _, part := range []string{"p-errors", "p-seeing", "p-lesser", "p-aims", "p-story", "p-course", "p-tastings", "p-next", "p-lineage", "p-used", "p-costs", "p-photos", "p-workings", "p-missing", "cautions", "live.js"} {
		if !strings.Contains(b.String(), part) {
			t.Errorf("the full page has no %s", part)
		}
	}
}

// TestTemplatesWithoutEndAreStopped: one that calls itself, or goes round for ever, is named
// with its line, and the built-in page stands in for it.
func TestTemplatesWithoutEndAreStopped(t *testing.T) {
	twice := `{{define "x"}}{{if lt (len .) 40}}{{template "x" (print . "x")}}{{template "x" (print . "y")}}{{end}}{{end}}` +
		"\n\n" + `{{template "x" ""}}`
	for _, c := range []struct{ what, file, source, want string }{
		{"itself", "base.html", "\n\n{{template \"base.html\" .}}", "base.html:3: "},
		{"itself, twofold", "base.html", twice, "base.html:1: "},
		{"a range", "gyle.html", "\n\n{{range 1000000000000}}{{end}}", "gyle.html:3: "},
		{"ranges in ranges", "gyle.html", "\n{{range 1000000}}\n{{range 1000000}}{{end}}{{end}}", "gyle.html:3: "},
		{"many words", "gyle.html", "\n{{range 100000}}" + strings.Repeat("word ", 1000) + "{{end}}", "gyle.html: "},
	} {
		source := c.source
		if c.file != "base.html" {
			source = `{{define "main"}}` + source + `{{end}}`
		}
		text, said := layered(t, fstest.MapFS{c.file: {Data: []byte(source)}})
		if len(said) != 1 || !strings.Contains(said[0], "templates/"+c.want+"error: ") || !strings.Contains(text, "<main") {
			t.Errorf("%s: %d faults, want %s: %.300s; page %.100q", c.what, len(said), c.want, said, text)
		}
	}
}

// FuzzTemplate: whatever a replacement says, there is a page.
func FuzzTemplate(f *testing.F) {
	f.Add(`{{define "main"}}{{range 3}}{{.}}{{end}}{{end}}`)
	f.Add(`{{template "base.html" .}}`)
	f.Add(`{{define "main"}}<a href="{{.Title}}" onclick="f({{.Root}})">{{with .Page}}{{else}}{{end}}{{end}}`)
	f.Add(`{{block "main" .}}{{break}}{{end}}{{/* x */}}<script>{{.}}`)
	f.Fuzz(func(t *testing.T, source string) {
		theme, err := newTheme(fstest.MapFS{"about.html": {Data: []byte(source)}, "gyle.html": {Data: []byte(source)}})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := theme.page("gyle.html", pageTemplates()["gyle.html"]); err != nil {
			t.Errorf("no page: %v", err)
		}
	})
}
