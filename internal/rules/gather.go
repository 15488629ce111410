package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// group is what several rules see of one slip: too much gas, or a beer that is not
// shown to be done. Of a group each container is told the gravest thing only, and what
// several containers of a kind are told alike is told once.
type group int

const (
	alone      group = iota
	ofGas            // how much gas there is, and whether the container takes it
	ofFinished       // whether the beer was done when it was closed in
)

// raised is a finding with the rule that raised it.
type raised struct {
	Found
	rule Rule
	turn int // of the rule, in the order of rules
}

// gather makes of each slip one finding, with one thing to do.
func (c *inspection) gather(all []raised) []raised {
	all = slices.DeleteFunc(all, func(r raised) bool { return c.onlyPlanned(r) })
	for i := range all {
		c.outlived(&all[i])
	}
	for _, g := range []group{ofGas, ofFinished} {
		all = gravestOf(all, g)
	}
	return c.joined(all)
}

// onlyPlanned tells of a warning short of danger about a container that may be filled
// or not: nobody says.
func (c *inspection) onlyPlanned(r raised) bool {
	k, ok := c.containerOf(r.Of)
	return ok && r.rule.group != alone && r.Severity < notice.Danger && c.Stage < figures.Maturing && c.MayBeFilled(k)
}

func (c *inspection) containerOf(of string) (figures.Container, bool) {
	for _, k := range c.Containers() {
		if k.Key == of {
			return k, true
		}
	}
	return figures.Container{}, false
}

// outlived eases a warning about beer that is over a year old and was tasted long after
// it came to rest: it has shown what it does, or is drunk.
func (c *inspection) outlived(r *raised) {
	k, ok := c.containerOf(r.Of)
	if !ok || r.rule.group == alone || r.Severity < notice.Look {
		return
	}
	filled := c.Filled(k)
	if !filled.Written() || c.Now.Sub(filled.Time) < longFilled.Duration() || !c.tastedSince(k, filled.Time.Add(cameToRest.Duration())) {
		return
	}
	r.Severity = notice.Look
	r.Do = "If any of it is left: keep it cold and open it over a sink, goggles on. If none is, note when it ran out (emptied)."
}

func (c *inspection) tastedSince(k figures.Container, at time.Time) bool {
	of := func(w journal.Whole) bool { return !w.Written() || w.N == k.Index }
	for _, t := range c.Gyle.Tastings {
		if of(t.Package) && c.Come(t.When) && t.When.Time.After(at) {
			return true
		}
	}
	for _, p := range c.Gyle.Poured {
		if of(p.Package) && c.Come(p.When) && p.When.Time.After(at) {
			return true
		}
	}
	return false
}

// gravestOf leaves of a group the gravest for each container. Sugar worked out wrong for
// the whole gyle is said instead of what follows from it short of danger; that it was not
// done is said of each container instead of the gyle.
func gravestOf(all []raised, g group) []raised {
	worst := map[string]raised{}
	for _, r := range all {
		if r.rule.group != g {
			continue
		}
		if was, ok := worst[r.Of]; !ok || graver(r, was) {
			worst[r.Of] = r
		}
	}
	whole, is := worst[""]
	return slices.DeleteFunc(all, func(r raised) bool {
		if r.rule.group != g {
			return false
		}
		if w := worst[r.Of]; w.turn != r.turn {
			return true
		}
		if g == ofFinished {
			return r.Of == "" && len(worst) > 1
		}
		return is && r.Of != "" && r.Severity < notice.Danger && whole.Severity >= r.Severity
	})
}

func graver(a, b raised) bool {
	return cmp.Or(cmp.Compare(a.Severity, b.Severity), cmp.Compare(b.turn, a.turn)) > 0
}

// joined tells once what containers of a kind are told alike: the sentence of each,
// and what to do about the gravest of them.
func (c *inspection) joined(all []raised) []raised {
	var out []raised
	for _, r := range all {
		at := slices.IndexFunc(out, func(o raised) bool { return c.alike(o, r) })
		if r.rule.group == alone || at < 0 {
			out = append(out, r)
			continue
		}
		out[at].also = strings.TrimSpace(out[at].also + " " + r.Of)
		if out[at].Says != r.Says {
			out[at].saidAlike = append(out[at].saidAlike, r.Says)
		}
	}
	for i := range out {
		r := &out[i]
		for n, says := range r.saidAlike {
			if left := len(r.saidAlike) - n; n == mostSaid && left > 1 {
				r.Says += fmt.Sprintf(" So with %d more of them.", left)
				break
			}
			r.Says += " " + says
		}
	}
	return out
}

// mostSaid is of how many containers more a warning says each by itself: whoever has wet
// hands reads no hundred sentences.
const mostSaid = 4

// alike tells whether two findings are one slip seen in two containers of a kind.
func (c *inspection) alike(a, b raised) bool {
	ka, okA := c.containerOf(a.Of)
	kb, okB := c.containerOf(b.Of)
	return a.turn == b.turn && a.Severity == b.Severity && okA && okB && kindOf(ka) == kindOf(kb)
}

func kindOf(k figures.Container) journal.VesselKind {
	if k.Vessel == nil {
		return ""
	}
	return k.Vessel.Is.Word
}
