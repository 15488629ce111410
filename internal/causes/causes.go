package causes

import (
	"fmt"
	"regexp"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// Cause is one thing that may lie behind what tasters find, as declared. Nothing
// is ever held to be a cause for want of another: it is believed as far as its
// tests speak for it, and no further.
type Cause struct {
	ID   string
	Name string // what would be the case, as a clause: "it fermented further than was meant"
	// Now is what can be done with the beer there is, a sentence, or ""; Next is what
	// to do next time. As declared they have their quantities in braces, which
	// Diagnose writes out in the settings' units.
	Now, Next string
	Source    string
	Tests     []Test
}

// Test is one question that a cause puts to the readings of one gyle. What it
// answers is a Sign.
type Test struct {
	// For is when it speaks for the cause, for the Workings page, and Against when
	// against it; "" for never. As declared they have a verb for the limit, pro or con,
	// that Causes prints into them.
	For, Against string
	Weight       Weight
	Needs        string // the key whose reading would answer it; two that would do, with "or" between
	// Next is what to do next time where this test is what speaks loudest for the
	// cause, "" where that is the cause's own; with braces as Cause.Next.
	Next string
	// Most tests hold a reading against two limits: at pro or beyond, it speaks for the
	// cause; at con or short of it, against.
	of       func(x *exam) reading
	pro, con *assay.Limit
	// look is any other test.
	look func(x *exam) Sign
}

// reading is what a test holds against its limits, and the clause that says it.
type reading struct {
	figures.Figure
	says string
	// bounds are the reading's own pro and con, where a card has them.
	bounds *[2]float64
	// instead is what the test answers where there is nothing to hold.
	instead Sign
	// overtaken tells that it was so once and is no longer: it speaks against nothing.
	overtaken bool
}

// Weight is how much a test tells.
type Weight int

// A Circumstance makes a cause likelier or less so. A Measurement is of the thing
// itself, and weighs twice as much (common practice, no source).
const (
	Circumstance Weight = 1
	Measurement  Weight = 2
)

// Voice is what a test says of a cause.
type Voice int

// Silent: the readings are there and lie between the two, or have nothing to do
// with it. Unknown: they are missing.
const (
	Silent Voice = iota
	For
	Against
	Unknown
)

// Sign is what one test found in one gyle.
type Sign struct {
	Voice Voice
	// May says that the reading lies within its own doubt of the limit, or that
	// something is concluded from what is not in the entry.
	May   bool
	Says  string        // what is the case, with the reading and its ±, as a clause
	Where journal.Where // the line it rests on; none for what is not there
	Needs string        // for Unknown: the key whose reading would tell
	// Weight is that of the test, and half of it where the sign is a may.
	Weight float64
	next   string // the test's Next
}

// Causes lists every cause, in the order of a gyle's life. It is made anew at
// each call, so that nobody can change it.
func Causes() []Cause {
	all := slices.Concat(
		recipeCauses(), liquorCauses(), mashCauses(), copperCauses(), hopCauses(),
		yeastCauses(), fermentationCauses(), rackingCauses(), hazeCauses(), gasCauses(),
		spoilageCauses(), airCauses(), servingCauses(),
	)
	for _, c := range all {
		for i := range c.Tests {
			t := &c.Tests[i]
			t.For, t.Against = printed(t.For, t.pro), printed(t.Against, t.con)
		}
	}
	return all
}

// verb is where a limit is printed.
var verb = regexp.MustCompile(`%[.0-9]*[sdq]`)

// printed is a text with a limit in it, if it has room for one.
func printed(text string, limit *assay.Limit) string {
	if limit == nil || !verb.MatchString(text) {
		return text
	}
	return fmt.Sprintf(text, limit)
}

// say is a text with limits in it that are not its test's own.
func say(format string, limits ...any) string { return fmt.Sprintf(format, limits...) }

// causeNamed is the cause of an id, in a list of causes.
func causeNamed(all []Cause, id string) (Cause, bool) {
	i := slices.IndexFunc(all, func(c Cause) bool { return c.ID == id })
	if i < 0 {
		return Cause{}, false
	}
	return all[i], true
}

// sign is what the test finds, weighed. One that is never said to speak against its
// cause does not: the other way round the reading is what most are, and tells nothing.
func (t Test) sign(x *exam) Sign {
	s := t.found(x)
	switch {
	case s.Voice == Unknown && s.Needs == "":
		s.Needs = t.Needs
	case s.Voice == For, s.Voice == Against && t.Against != "":
		s.Weight, s.next = float64(t.Weight), x.Text(t.Next)
		if s.May {
			s.Weight /= 2
		}
	case s.Voice != Unknown && t.Against == "":
		return silent
	}
	return s
}

func (t Test) found(x *exam) Sign {
	if t.look != nil {
		return t.look(x)
	}
	r := t.of(x)
	if r.says == "" {
		return r.instead
	}
	s := x.held(r, t.pro, t.con)
	if s.Voice == Against && r.overtaken {
		return silent
	}
	return s
}

// onlyFor is a test that says nothing where it does not speak for its cause: not even
// what it needs.
func onlyFor(look func(*exam) Sign) func(*exam) Sign {
	return func(x *exam) Sign {
		if s := look(x); s.Voice == For {
			return s
		}
		return silent
	}
}

// held is a reading held against its own bounds, where it has them, else two limits.
func (x *exam) held(r reading, pro, con *assay.Limit) Sign {
	if r.bounds != nil {
		return x.judged(r, r.bounds[0], r.bounds[1])
	}
	return x.judged(r, pro.In(r.Unit), con.In(r.Unit))
}

var (
	silent  = Sign{Voice: Silent}
	unknown = Sign{Voice: Unknown}
)

// tells is a sign that rests on no figure's doubt.
func tells(v Voice, says string, where journal.Where) Sign {
	return Sign{Voice: v, Says: says, Where: where}
}

// hints is a sign that may mean it.
func hints(v Voice, says string, where journal.Where) Sign {
	return Sign{Voice: v, May: true, Says: says, Where: where}
}

// judged holds a reading against two limits. It is sure only where all of its ± lies on
// its own side of the middle between the two, and else may. A pro below con turns both
// round.
func (x *exam) judged(r reading, pro, con float64) Sign {
	value, doubt := r.Value, assay.DoubtOf(r.PlusMinus)
	if pro < con {
		value, pro, con = -value, -pro, -con
	}
	s, middle := Sign{Says: r.says, Where: x.LastOf(r.Figure)}, (pro+con)/2
	switch {
	case value >= pro-rounding:
		s.Voice, s.May = For, value-doubt < middle-rounding
	case value <= con+rounding:
		s.Voice, s.May = Against, value+doubt > middle+rounding
	}
	return s
}

// rounding lets a reading that stands exactly at a limit count as at it, whatever
// binary fractions make of 1.010 less 1.008.
const rounding = 1e-6

// String is the voice's word in the published form.
func (v Voice) String() string { return [...]string{"neither", "for", "against", "unknown"}[v] }
