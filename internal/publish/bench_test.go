package publish

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"testing"
)

// The benchmarks handle 1,000 pages of 10 KB, each in a folder of its own,
// written by as many goroutines as there are processors. The plain ones are
// what a site generator without this package would do: os.MkdirAll and
// os.WriteFile, over the old files, with nothing synced.
//
// An ext4 file system without a journal searches for inodes that were not freed
// a moment ago, so that publications in close succession, as here, come out some
// three times as slow on it as on one with a journal.

const benchPages = 1000

func benchSite() (paths []string, body func(i, edition int) []byte) {
	filler := bytes.Repeat([]byte("malt and hops "), 10_000/14)
	for i := range benchPages {
		paths = append(paths, fmt.Sprintf("gyles/%d/index.html", i))
	}
	return paths, func(i, edition int) []byte {
		return fmt.Appendf(slices.Clone(filler), "%d of %d", i, edition)
	}
}

// atOnce calls do for 0 to n-1 on all processors.
func atOnce(b *testing.B, n int, do func(i int) error) {
	var wait sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		wait.Go(func() {
			for i := w; i < n; i += workers {
				if err := do(i); err != nil {
					b.Error(err)
				}
			}
		})
	}
	wait.Wait()
}

// BenchmarkPublish changes none, one or all of the pages of a site that is
// there, or writes it for the first time.
func BenchmarkPublish(b *testing.B) {
	paths, body := benchSite()
	for _, bench := range []struct {
		name    string
		changed int
		opts    Options
	}{
		{"unchanged", 0, Options{}},
		{"one changed", 1, Options{}},
		{"one changed, rolled", 1, ways["roll"].opts},
		{"all changed", benchPages, Options{}},
		{"all changed, rolled", benchPages, ways["roll"].opts},
		{"all changed, not synced", benchPages, Options{hooks: hooks{sync: &noSync}}},
	} {
		b.Run(bench.name, func(b *testing.B) {
			dir := filepath.Join(b.TempDir(), "site")
			benchPublish(b, dir, Options{}, paths, func(i int) []byte { return body(i, 0) })
			for edition := 1; b.Loop(); edition++ {
				benchPublish(b, dir, bench.opts, paths, func(i int) []byte {
					if i < bench.changed {
						return body(i, edition)
					}
					return body(i, 0)
				})
			}
		})
	}
	b.Run("first", func(b *testing.B) {
		for around := b.TempDir(); b.Loop(); {
			dir, err := os.MkdirTemp(around, "")
			if err != nil {
				b.Fatal(err)
			}
			benchPublish(b, filepath.Join(dir, "site"), Options{}, paths, func(i int) []byte { return body(i, 0) })
		}
	})
}

func benchPublish(b *testing.B, dir string, opts Options, paths []string, body func(i int) []byte) {
	e, err := Begin(dir, opts)
	if err != nil {
		b.Fatal(err)
	}
	atOnce(b, len(paths), func(i int) error { return e.Put(paths[i], body(i)) })
	if _, err := e.Commit(); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkPlain writes all pages again, or for the first time.
func BenchmarkPlain(b *testing.B) {
	paths, body := benchSite()
	plain := func(dir string, edition int) {
		atOnce(b, len(paths), func(i int) error {
			name := filepath.Join(dir, filepath.FromSlash(paths[i]))
			if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
				return err
			}
			return os.WriteFile(name, body(i, edition), 0o644)
		})
	}
	b.Run("again", func(b *testing.B) {
		dir := b.TempDir()
		plain(dir, 0)
		for edition := 1; b.Loop(); edition++ {
			plain(dir, edition)
		}
	})
	b.Run("first", func(b *testing.B) {
		for around := b.TempDir(); b.Loop(); {
			dir, err := os.MkdirTemp(around, "")
			if err != nil {
				b.Fatal(err)
			}
			plain(dir, 0)
		}
	})
}
