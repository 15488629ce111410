package main

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// report tells how many faults of each package were noticed, and which were not;
// it fails where more survived than may.
func report(faults []*fault, o options, there int, out io.Writer) error {
	known, err := reasons(o.survivors)
	if err != nil {
		return err
	}
	type count struct{ drawn, chosen, survived int }
	counts := map[string]*count{}
	var all count
	var strange []string
	for _, f := range faults {
		if counts[f.pkg] == nil {
			counts[f.pkg] = &count{}
		}
		for _, c := range []*count{counts[f.pkg], &all} {
			if f.drawn {
				c.drawn++
			} else {
				c.chosen++
			}
			if f.noticed == "" {
				c.survived++
			}
		}
		if f.noticed == "" && known[f.String()] == "" {
			strange = append(strange, f.String())
		}
	}
	fmt.Fprintf(out, "\n%d faults could be put in; by seed %d:\n", there, o.seed)
	line := func(name string, c *count) {
		tried := c.drawn + c.chosen
		fmt.Fprintf(out, "%-28s %4d drawn %4d chosen %4d survived  %3.0f %% noticed\n", name, c.drawn, c.chosen, c.survived,
			100*float64(tried-c.survived)/float64(tried))
	}
	for _, p := range slices.Sorted(maps.Keys(counts)) {
		line(p, counts[p])
	}
	line("all", &all)
	if share := 100 * float64(all.survived) / float64(max(len(faults), 1)); share > o.most {
		return fmt.Errorf("%.0f in a hundred survived, and %.0f may", share, o.most)
	}
	if o.survivors != "" && len(strange) > 0 {
		return fmt.Errorf("%s gives no reason why these survive:\n%s", o.survivors, strings.Join(strange, "\n"))
	}
	return nil
}

// reasons reads the file of survivors: a reason holds for all the faults that stand
// above it, up to the reason before.
func reasons(name string) (map[string]string, error) {
	all, err := lines(name)
	if err != nil {
		return nil, err
	}
	known := map[string]string{}
	var above []string
	given := false
	for _, line := range all {
		reason := strings.TrimSpace(line)
		switch {
		case reason != line:
			given = true
			for _, fault := range above {
				known[fault] += reason + " "
			}
		case given:
			above, given = []string{line}, false
		default:
			above = append(above, line)
		}
	}
	return known, nil
}
