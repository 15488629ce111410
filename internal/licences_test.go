package house_test

import (
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// licences is every module that the program or its tests are made of, with its licence as
// its own file states it.
var licences = map[string]string{
	"dario.cat/mergo":                          "BSD",
	"github.com/BurntSushi/toml":               "MIT",
	"github.com/Masterminds/goutils":           "Apache-2.0",
	"github.com/Masterminds/semver/v3":         "MIT",
	"github.com/Masterminds/sprig/v3":          "MIT",
	"github.com/adrg/frontmatter":              "MIT",
	"github.com/agnivade/levenshtein":          "MIT",
	"github.com/alecthomas/kong":               "MIT",
	"github.com/chromedp/cdproto":              "MIT",
	"github.com/chromedp/chromedp":             "MIT",
	"github.com/fsnotify/fsnotify":             "BSD",
	"github.com/go-json-experiment/json":       "BSD",
	"github.com/google/go-cmp":                 "BSD",
	"github.com/google/uuid":                   "BSD",
	"github.com/huandu/xstrings":               "MIT",
	"github.com/kovidgoyal/go-parallel":        "BSD",
	"github.com/kovidgoyal/go-shm":             "BSD",
	"github.com/kovidgoyal/imaging":            "MIT",
	"github.com/mitchellh/copystructure":       "MIT",
	"github.com/mitchellh/reflectwalk":         "MIT",
	"github.com/rogpeppe/go-internal":          "BSD",
	"github.com/rwcarlsen/goexif":              "BSD",
	"github.com/santhosh-tekuri/jsonschema/v6": "Apache-2.0",
	"github.com/shopspring/decimal":            "MIT",
	"github.com/spf13/cast":                    "MIT",
	"github.com/yuin/goldmark":                 "MIT",
	"go.yaml.in/yaml/v4":                       "Apache-2.0",
	"golang.org/x/crypto":                      "BSD",
	"golang.org/x/image":                       "BSD",
	"golang.org/x/net":                         "BSD",
	"golang.org/x/sync":                        "BSD",
	"golang.org/x/sys":                         "BSD",
	"golang.org/x/term":                        "BSD",
	"golang.org/x/text":                        "BSD",
	"golang.org/x/tools":                       "BSD",
	"gonum.org/v1/gonum":                       "BSD",
	"gopkg.in/yaml.v2":                         "Apache-2.0",
	"pgregory.net/rapid":                       "MPL-2.0",
	"rsc.io/qr":                                "BSD",
}

// forTestsAlone are modules that must not be in the program.
var forTestsAlone = []string{
	"github.com/google/go-cmp", "pgregory.net/rapid", "github.com/rogpeppe/go-internal", "github.com/chromedp/chromedp",
	"github.com/santhosh-tekuri/jsonschema/v6",
}

// licenceMarks are words that tell a licence, the more telling first.
var licenceMarks = []struct{ has, is string }{
	{"Apache License", "Apache-2.0"},
	{"Mozilla Public License", "MPL-2.0"},
	{"GNU ", "GNU"},
	{"Permission is hereby granted, free of charge", "MIT"},
	{"Permission to use, copy, modify, and/or distribute", "ISC"},
	{"Redistribution and use in source and binary forms", "BSD"},
}

// modulesOf are the modules that packages need, with the folder of each.
func modulesOf(t *testing.T, args ...string) map[string]string {
	t.Helper()
	args = append([]string{"list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Dir}}{{end}}{{end}}"}, args...)
	command := exec.Command("go", args...)
	command.Dir = ".."
	out, err := command.Output()
	if err != nil {
		t.Skip("the go command is not at hand:", err)
	}
	all := map[string]string{}
	for line := range strings.Lines(string(out)) {
		if path, dir, ok := strings.Cut(strings.TrimSpace(line), " "); ok {
			all[path] = dir
		}
	}
	return all
}

// licenceIn is the licence that a module's own file states.
func licenceIn(dir string) string {
	entries, _ := os.ReadDir(dir)
	for _, entry := range entries {
		name := strings.ToLower(entry.Name())
		if !strings.HasPrefix(name, "licen") && !strings.HasPrefix(name, "copying") {
			continue
		}
		text, _ := os.ReadFile(filepath.Join(dir, entry.Name()))
		plain := strings.Join(strings.Fields(string(text)), " ")
		for _, mark := range licenceMarks {
			if strings.Contains(plain, mark.has) {
				return mark.is
			}
		}
	}
	return ""
}

func TestLicencesAreListed(t *testing.T) {
	found := map[string]string{}
	for path, dir := range modulesOf(t, "-test", "./...") {
		found[path] = licenceIn(dir)
	}
	for _, path := range slices.Sorted(maps.Keys(found)) {
		if licences[path] != found[path] || found[path] == "" {
			t.Errorf("\t%q: %q, listed as %q", path, found[path], licences[path])
		}
	}
	for path := range licences {
		if _, is := found[path]; !is {
			t.Errorf("%s is listed and not needed any more", path)
		}
	}
}

func TestTheProgramHoldsNoTestLibrary(t *testing.T) {
	in := modulesOf(t, "./cmd/gylebook")
	for _, path := range forTestsAlone {
		if _, is := in[path]; is {
			t.Errorf("%s is in the program", path)
		}
	}
}
