package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// A suite is the tests of one package, built with all faults in it.
type suite struct {
	pkg, binary, folder string
	ready               sync.Once
	err                 error
	trials              []trial
}

// A trial is one test: how long it takes with all faults off, and which it passes
// by.
type trial struct {
	name   string
	took   time.Duration
	passes map[int]bool
}

// suite is the tests of a package, once each has run by itself with all faults off.
func (b *bench) suite(pkg string) (*suite, error) {
	b.mu.Lock()
	s := b.suites[pkg]
	if s == nil {
		inside := b.house.inside(pkg)
		s = &suite{
			pkg: pkg, folder: filepath.Join(b.house.root, filepath.FromSlash(inside)),
			binary: filepath.Join(b.dir, strings.ReplaceAll(inside, "/", "_")+".test"),
		}
		b.suites[pkg] = s
	}
	b.mu.Unlock()
	s.ready.Do(func() { s.err = b.prepare(s) })
	return s, s.err
}

// prepare builds a suite and runs its tests.
func (b *bench) prepare(s *suite) error {
	start := time.Now()
	build := exec.Command("go", "test", "-c", "-vet=off", "-overlay", b.overlay, "-o", s.binary, s.pkg)
	build.Dir = b.house.root
	if text, err := build.CombinedOutput(); err != nil {
		return fmt.Errorf("building the tests of %s: %w\n%s", s.pkg, err, text)
	}
	if _, err := os.Stat(s.binary); err != nil {
		return nil // it has none
	}
	list := exec.Command(s.binary, "-test.list", "^(Test|Example|Fuzz)")
	list.Dir = s.folder
	names, err := list.Output()
	if err != nil {
		return fmt.Errorf("listing the tests of %s: %w", s.pkg, err)
	}
	for _, name := range strings.Fields(string(names)) {
		if err := b.watch(s, name); err != nil {
			return err
		}
	}
	b.say("%s: %d tests have run by themselves, after %v", b.house.inside(s.pkg), len(s.trials),
		time.Since(start).Round(time.Second))
	return nil
}

// watch runs a test by itself with all faults off, and notes which it passes by.
func (b *bench) watch(s *suite, name string) error {
	note := s.binary + ".passed"
	if err := os.RemoveAll(note); err != nil {
		return err
	}
	start := time.Now()
	ok, err := s.run(-1, []string{name}, 10*time.Minute, note)
	if err != nil {
		return err
	}
	if !ok {
		b.say("%s of %s fails with all faults off, and is left out", name, s.pkg)
		return nil
	}
	t := trial{name: name, took: time.Since(start), passes: map[int]bool{}}
	text, err := os.ReadFile(note)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	for _, field := range strings.Fields(string(text)) {
		number, err := strconv.Atoi(field)
		if err != nil {
			return err
		}
		t.passes[number] = true
	}
	s.trials = append(s.trials, t)
	return nil
}

// run runs some of the tests with one fault on, and tells whether they passed.
func (s *suite) run(number int, tests []string, limit time.Duration, note string) (bool, error) {
	ctx, cancel := context.WithTimeout(context.Background(), limit+10*time.Second)
	defer cancel()
	run := exec.CommandContext(ctx, s.binary, "-test.run", "^("+strings.Join(tests, "|")+")$", "-test.short",
		"-test.failfast", "-test.timeout", limit.String())
	run.Dir = s.folder
	run.Env = append(os.Environ(), switchVariable+"="+strconv.Itoa(number), passedVariable+"="+note)
	run.WaitDelay = time.Second
	var said bytes.Buffer
	run.Stdout, run.Stderr = &said, &said
	err := run.Run()
	var exit *exec.ExitError
	switch {
	case err == nil:
		return true, nil
	case errors.As(err, &exit) || ctx.Err() != nil || errors.Is(err, exec.ErrWaitDelay):
		return false, nil
	}
	return false, err
}

// try tries every fault, several at a time, on the tests of its own package and,
// unless own, of those above it, and says which survive. A fault that could not be
// tried is an error: it has not survived anything.
func (b *bench) try(workers int, own bool) error {
	todo := make(chan *fault)
	var wait sync.WaitGroup
	var failed error
	for range max(workers, 1) {
		wait.Go(func() {
			for f := range todo {
				if err := b.notice(f, own); err != nil {
					b.mu.Lock()
					failed = cmp.Or(failed, fmt.Errorf("not tried: %s: %w", f, err))
					b.mu.Unlock()
				} else if f.noticed == "" {
					b.say("survived: %s (line %d, passed by %d tests)", f, f.line, f.passers)
				}
			}
		})
	}
	for _, f := range b.faults {
		todo <- f
	}
	close(todo)
	wait.Wait()
	return failed
}

// say prints a line.
func (b *bench) say(format string, args ...any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	fmt.Fprintf(b.out, format+"\n", args...)
}

// notice finds the package whose tests notice a fault, the nearest first, and of its
// tests the quick ones first.
func (b *bench) notice(f *fault, own bool) error {
	packages := b.house.above(f.pkg)
	if own {
		packages = packages[:1]
	}
	for _, pkg := range packages {
		s, err := b.suite(pkg)
		if err != nil {
			return err
		}
		trials := slices.DeleteFunc(slices.Clone(s.trials), func(t trial) bool { return !t.passes[f.number] })
		slices.SortFunc(trials, func(x, y trial) int { return cmp.Compare(x.took, y.took) })
		f.passers += len(trials)
		half := (len(trials) + 1) / 2
		for _, some := range [][]trial{trials[:half], trials[half:]} {
			if ok, err := s.passes(f.number, some); err != nil || !ok {
				f.noticed = pkg
				return err
			}
		}
	}
	return nil
}

// passes tells whether some trials pass with a fault on. One that takes ten times
// as long as without it never ends.
func (s *suite) passes(number int, some []trial) (bool, error) {
	if len(some) == 0 {
		return true, nil
	}
	var names []string
	limit := 20 * time.Second
	for _, t := range some {
		names = append(names, t.name)
		limit += 10 * t.took
	}
	return s.run(number, names, limit, os.DevNull)
}
