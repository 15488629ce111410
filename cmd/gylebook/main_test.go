package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write what the scripts' comparisons got in place of what they want")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"gylebook": main})
}

// TestScripts runs the program as a brewer would: each file in testdata/script
// is one story, with its journal in it.
func TestScripts(t *testing.T) {
	repository, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join(repository, "testdata", "script"),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *update,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
		Setup: func(env *testscript.Env) error {
			env.Setenv("SOURCE_DATE_EPOCH", "1780315200") // 2026-06-01 12:00 UTC
			for _, v := range os.Environ() {
				if strings.HasPrefix(v, "GYLEBOOK_MUTANT") { // what internal/tools/mutate has on is on in the commands too
					env.Vars = append(env.Vars, v)
				}
			}
			env.Setenv("GORACE", "atexit_sleep_ms=0") // under the race detector each call would end with a second's sleep
			return nil
		},
	})
}

// exits is a command of the scripts: exits CODE COMMAND ARGUMENT… runs a command
// and fails unless it ends with just that code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits code command argument...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var ended *exec.ExitError
		if !errors.As(err, &ended) {
			ts.Fatalf("running %s: %v", args[1], err)
		}
		got = ended.ExitCode()
	}
	if got != want {
		ts.Fatalf("%s ended with exit code %d, want %d", args[1], got, want)
	}
}
