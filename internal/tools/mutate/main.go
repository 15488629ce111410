// Mutate puts small faults into the house, one at a time, and tells which of them
// no test notices.
//
//	go run -C internal/tools ./mutate [flags] [PACKAGE…]
//
// A PACKAGE is a path such as internal/quantity; without any it is all of them. The
// faults that may be put in are those that find.go knows: a comparison that takes
// in its limit or leaves it out, or is turned round; a sum for a difference; a
// condition that is negated, or of which one half is dropped; a statement or an
// early return that is left out; a number that is off by one, or a twentieth; a
// word in a condition that is another word. Of all that there are, -random are
// drawn by -seed, and those that -chosen names are added.
//
// All of them are woven into one copy of the source, each behind a switch that an
// environment variable throws (weave.go), so that every package's tests are built
// once. Then each test is run once with all switches off, to see which faults it
// passes by (trial.go). A fault is tried on the tests that pass it by and on no
// others: those of its own package first, then those of the packages that import
// it, in short mode, until one fails. A fault on which none fails has survived.
//
// A survivor may be the same program in other words, or not worth a test. The file
// -survivors tells why: the faults as they are printed here, and below them, indented,
// the reason. Mutate ends with 1 where a fault survived that is not in it, or with
// -most, where more of them survived than so many in a hundred.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// options are what the command line says.
type options struct {
	root, chosen, survivors string
	random, workers         int
	seed                    uint64
	most                    float64
	list, own               bool
	packages                []string
}

func main() {
	o, err := parse(os.Args[1:])
	if err == nil {
		err = run(o, os.Stdout)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

func parse(args []string) (options, error) {
	var o options
	f := flag.NewFlagSet("mutate", flag.ContinueOnError)
	f.StringVar(&o.root, "root", filepath.Join("..", ".."), "the module's folder")
	f.IntVar(&o.random, "random", 200, "how many faults are drawn")
	f.Uint64Var(&o.seed, "seed", 1, "by which they are drawn")
	f.StringVar(&o.chosen, "chosen", "", "a file of faults to try beside them, one a line, as -list prints them")
	f.StringVar(&o.survivors, "survivors", "", "a file of faults that may survive, each with its reason")
	f.Float64Var(&o.most, "most", 100, "how many in a hundred may survive")
	f.IntVar(&o.workers, "workers", 2, "how many faults are tried at a time")
	f.BoolVar(&o.own, "own", false, "try each fault on the tests of its own package alone, which is quick")
	f.BoolVar(&o.list, "list", false, "print all faults that there are, and try none")
	err := f.Parse(args)
	o.packages = f.Args()
	return o, err
}

// run does what the options say.
func run(o options, out io.Writer) error {
	house, err := load(o.root)
	if err != nil {
		return err
	}
	all := house.faults(o.packages)
	if len(all) == 0 {
		return errors.New("there is nothing in these packages to put a fault into")
	}
	if o.list {
		for _, f := range all {
			fmt.Fprintln(out, f)
		}
		return nil
	}
	tried, err := choose(all, o)
	if err != nil {
		return err
	}
	bench, err := house.weave(tried, out)
	if err != nil {
		return err
	}
	defer os.RemoveAll(bench.dir)
	if err := bench.try(o.workers, o.own); err != nil {
		return err
	}
	return report(bench.faults, o, len(all), out)
}

// choose draws faults by chance, and adds the chosen ones.
func choose(all []*fault, o options) ([]*fault, error) {
	chance := rand.New(rand.NewPCG(o.seed, 0))
	var tried []*fault
	for _, i := range chance.Perm(len(all))[:min(o.random, len(all))] {
		all[i].drawn = true
		tried = append(tried, all[i])
	}
	wanted, err := lines(o.chosen)
	if err != nil {
		return nil, err
	}
	byName := map[string]*fault{}
	for _, f := range all {
		byName[f.String()] = f
	}
	for _, name := range wanted {
		f := byName[name]
		if f == nil {
			return nil, fmt.Errorf("%s: there is no such fault (any more): %s", o.chosen, name)
		}
		if !slices.Contains(tried, f) {
			tried = append(tried, f)
		}
	}
	slices.SortFunc(tried, func(a, b *fault) int { return strings.Compare(a.String(), b.String()) })
	return tried, nil
}

// lines is the lines of a file that say something; none where no file is named.
func lines(name string) ([]string, error) {
	if name == "" {
		return nil, nil
	}
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var all []string
	for line := range strings.Lines(string(text)) {
		if line = strings.TrimRight(line, "\n"); strings.TrimSpace(line) != "" && !strings.HasPrefix(line, "#") {
			all = append(all, line)
		}
	}
	return all, nil
}
