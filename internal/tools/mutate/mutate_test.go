package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// sample is a small module: a package with faults that its tests notice, that those
// above it notice, and that nobody does.
var sample = map[string]string{
	"go.mod": "module sample\n\ngo 1.24\n",
	"low/low.go": `package low

import "sync"

const limit = 10

var names = [...]string{1: "pin", 2: "keg"}

var mu sync.Mutex

// Size has a limit, which its own test looks at from both sides.
func Size(n int) string {
	mu.Lock()
	defer mu.Unlock()
	if n < limit {
		return "small"
	}
	return "large"
}

// Sum is looked at by the test above alone.
func Sum(a, b float64) float64 { return a + b }

// Idle does nothing that a test could miss.
func Idle(word string) string {
	if word == "pint" || len(word) > 2000 {
		word = names[1]
	}
	return word
}

// Least is of several types.
func Least[T int | float64](a, b T) T {
	for i := range 3 {
		if i > 1 {
			break
		}
	}
	if b < a {
		return b
	}
	return a
}
`,
	"low/low_test.go": `package low

import "testing"

func TestSize(t *testing.T) {
	if Size(9) != "small" || Size(10) != "large" {
		t.Fatal()
	}
}

func TestLeast(t *testing.T) {
	if Least(1, 2) != 1 || Least(2.5, 1.5) != 1.5 {
		t.Fatal()
	}
}

func TestBroken(t *testing.T) { t.Fatal("it always does") }
`,
	"high/high.go": `package high

import "sample/low"

// Twice is of a package above.
func Twice(a float64) float64 { return low.Sum(a, a) }
`,
	"high/high_test.go": `package high

import "testing"

func TestTwice(t *testing.T) {
	if Twice(2) != 4 {
		t.Fatal()
	}
}
`,
}

// inSample writes the module.
func inSample(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range sample {
		if err := os.MkdirAll(filepath.Join(dir, filepath.Dir(name)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func TestFaultsThatThereAre(t *testing.T) {
	var out strings.Builder
	if err := run(options{root: inSample(t), list: true, packages: []string{"low"}}, &out); err != nil {
		t.Fatal(err)
	}
	got := strings.Split(strings.TrimSpace(out.String()), "\n")
	for _, want := range []string{
		"low/low.go Size: n < limit → n <= limit",
		"low/low.go Size: n < limit → n >= limit",
		`low/low.go Size: return "small" → nothing`,
		"low/low.go Sum: a + b → a - b",
		`low/low.go Idle: "pint" → "pint~"`,
		`low/low.go Idle: word == "pint" || len(word) > 2000 → len(word) > 2000`,
		`low/low.go Idle: if word == "pint" || len(word) > 2000 → if not`,
		"low/low.go Idle: word = names[1] → nothing",
		"low/low.go Least: break → nothing",
		"low/low.go Least: return b → nothing",
	} {
		if !slices.Contains(got, want) {
			t.Errorf("there is no %s among\n%s", want, out.String())
		}
	}
	for _, unwanted := range []string{"mu.Lock", "names:", "return \"large\" → nothing", "return a → nothing", "defer"} {
		if strings.Contains(out.String(), unwanted) {
			t.Errorf("there is %s", unwanted)
		}
	}
}

func TestFaultsThatSurvive(t *testing.T) {
	dir := inSample(t)
	note := func(name, text string) string {
		file := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return file
	}
	chosen := []string{"low/low.go Size: n < limit → n <= limit", "low/low.go Sum: a + b → a - b",
		`low/low.go Idle: "pint" → "pint~"`, "low/low.go Least: b < a → b <= a"}
	survives := chosen[2] + "\n\tNo test asks for a pint.\n" + chosen[3] + "\n\tOf two alike either is the least.\n"
	o := options{root: dir, packages: []string{"low"}, chosen: note("chosen", strings.Join(chosen, "\n")),
		survivors: note("survivors", survives), most: 50, workers: 2}
	var out strings.Builder
	if err := run(o, &out); err != nil {
		t.Errorf("%v\n%s", err, out.String())
	}
	for _, want := range []string{"TestBroken of sample/low fails with all faults off", "survived: " + chosen[2],
		"survived: " + chosen[3], "50 % noticed"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("it does not say %s:\n%s", want, out.String())
		}
	}
	shared := o // one reason for both
	shared.survivors = note("survivors", chosen[2]+"\n"+chosen[3]+"\n\tNobody asks.\n\tNor ever will.\n"+chosen[0]+"\n")
	if err := run(shared, &out); err != nil {
		t.Errorf("a reason that two share: %v", err)
	}
	for _, c := range []struct {
		change func(*options)
		says   string
	}{
		{func(o *options) { o.own = true }, "in a hundred survived"},
		{func(o *options) { o.most = 49 }, "50 in a hundred survived, and 49 may"},
		{func(o *options) { o.survivors = note("survivors", chosen[2]+"\n\tNobody asks.\n") },
			"gives no reason why these survive:\n" + chosen[3]},
		{func(o *options) { o.chosen = note("chosen", "low/low.go Gone: a → b") }, "there is no such fault"},
		{func(o *options) { o.packages = []string{"nowhere"} }, "nothing in these packages"},
	} {
		other := o
		c.change(&other)
		if err := run(other, &out); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, want %s", err, c.says)
		}
	}
}

// TestNothingIsTriedOnTestsThatDoNotBuild: what could not be tried has not survived.
func TestNothingIsTriedOnTestsThatDoNotBuild(t *testing.T) {
	dir := inSample(t)
	if err := os.WriteFile(filepath.Join(dir, "high/broken_test.go"), []byte("package high\n\nvar none = nothing\n"),
		0o644); err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	err := run(options{root: dir, packages: []string{"low"}, random: 1000, most: 100, workers: 2}, &out)
	if err == nil || !strings.Contains(err.Error(), "not tried: ") || strings.Contains(out.String(), "survived") {
		t.Errorf("%v\n%s", err, out.String())
	}
}

// TestAllFaultsOfTheSample weaves all of them at once: each compiles, and with all
// of them off the tests pass.
func TestAllFaultsOfTheSample(t *testing.T) {
	var out strings.Builder
	if err := run(options{root: inSample(t), random: 1000, most: 100, workers: 2}, &out); err != nil {
		t.Fatalf("%v\n%s", err, out.String())
	}
	for _, unwanted := range []string{"TestSize of", "TestLeast of", "TestTwice of", "not tried"} {
		if strings.Contains(out.String(), unwanted) {
			t.Errorf("it says %s:\n%s", unwanted, out.String())
		}
	}
}
