package figures

import (
	"fmt"
	"math"
	"testing"
)

// TestAccountsBalance: at each line of any account what is held is what came in less what
// went out, nothing is below nought, and its end is what the figures tell.
func TestAccountsBalance(t *testing.T) {
	accounts := 0
	everyHistory(t, func(s *Sheet) string {
		i := s.Inquire()
		for _, c := range s.containers {
			account, ok := i.Account(c)
			if !ok {
				continue
			}
			accounts++
			held := 0.0
			for _, l := range account.Lines {
				held += l.In.Grams() - l.Out.Grams()
				if math.Abs(held-l.Held.Grams()) > 1e-6*max(held, 1) || l.Held < 0 || l.Beer < 0 || l.In > 0 && l.Out > 0 {
					return fmt.Sprintf("%s, %s: %g g by its lines, held %+v", c.Key, l.What, held, l)
				}
			}
			last := account.Lines[len(account.Lines)-1]
			f, ok := s.Find(IDGasInAll, c.Key)
			if all := last.Held.Grams() / 1.977 / last.Beer.Litres(); ok && !c.underValve() && math.Abs(all-f.Value) > 1e-3*max(all, 1) {
				return fmt.Sprintf("%s ends at %g vol, and the figure is %s", c.Key, all, shown(f))
			}
		}
		return ""
	})
	if accounts < 50 {
		t.Errorf("only %d accounts were kept", accounts)
	}
}

func (c Container) underValve() bool { return c.Package.Spunding.Written() }
