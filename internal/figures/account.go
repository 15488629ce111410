package figures

import (
	"math"
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Account is what one container took in, gave off and holds, line by line as a brewer
// would keep it: of carbon dioxide what is dissolved, above the beer and still to come.
// It is the likely account, from which the figures have their values; their bounds go
// by what is left open at its worst.
type Account struct {
	Container Container
	Lines     []AccountLine
}

// AccountLine is one thing that happened. Held is what there is after it: all that came
// in by the lines above and by this one, less all that went out.
type AccountLine struct {
	When    time.Time     // zero where nobody says
	Where   journal.Where // the line of the entry that it is from, not written where it is from several
	What    string
	In, Out q.Mass // carbon dioxide, g
	Held    q.Mass
	Drawn   q.Volume // beer that left
	Beer    q.Volume // beer that is left
}

// Account is the account of a container; false where a number that it needs is not
// known, or is yet to come.
func (i *Inquiry) Account(c Container) (Account, bool) {
	r := i.reckon(c)
	if r.lack != nil {
		return Account{}, false
	}
	w, x := r.likely, valuesOf(r.numbers)
	account := Account{Container: c}
	var before walked
	for k := range w.posts {
		w.until = k + 1
		after, err := w.through(x)
		if err != nil {
			return Account{}, false
		}
		if p := &w.posts[k]; p.only != inBoundOnly && p.what != holdingValve {
			account.Lines = append(account.Lines, lineOf(p, before, after))
		}
		before = after
	}
	return account, true
}

// lineOf is what a posting changed.
func lineOf(p *posting, before, after walked) AccountLine {
	l := AccountLine{
		When: p.at, Where: p.where, What: p.says, Held: after.gas(), Beer: after.Beer,
		Drawn: max(before.Beer-after.Beer, 0),
	}
	change := after.gas() - before.gas()
	if p.what == filling {
		l.What = "filled, with the gas that the beer held and will give"
	}
	if math.Abs(float64(change)) < 1e-9 {
		return l
	}
	l.In, l.Out = max(change, 0), max(-change, 0)
	return l
}

// gas is all the carbon dioxide of a container, what is still to come with it.
func (s *walked) gas() q.Mass { return (s.CO2 + s.sugar + s.fall).Mass() }
