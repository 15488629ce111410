package assay

import (
	"math"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// SlowedBy tells whether, at a moment, the gravity had come within its last ten
// points.
func (c *Case) SlowedBy(m journal.Moment) bool {
	readings := c.Sightings()
	if len(readings) == 0 {
		return c.Stage > figures.Working
	}
	last := readings[len(readings)-1].Gravity.Value.Points()
	then := last
	if og, ok := c.Find(figures.IDOG, ""); ok {
		then = q.Gravity(og.Value).Points()
	}
	for _, r := range readings {
		if !r.When.After(m.Middle()) {
			then = r.Gravity.Value.Points()
		}
	}
	return then-last <= LastPoints.Number
}

// Airings are the times that air got at the beer, in words, and the line of the first:
// of racking, if the beer was racked, and of the containers given, each called as the
// caller says.
func (c *Case) Airings(racked bool, containers []figures.Container, called func(figures.Container) string) (times []string, where journal.Where) {
	tell := func(line journal.Where, what string) {
		if len(times) == 0 {
			where = line
		}
		times = append(times, what)
	}
	if moved := c.Gyle.Racked.Moved; racked && moved.Is(journal.MovedOpen) {
		tell(moved.Where, "racked open")
	}
	for _, d := range c.Deeds(journal.Stirred, journal.Opened) {
		if c.SlowedBy(d.When) {
			tell(d.Where, d.Did.String()+" on "+d.When.Time.Format("2 January"))
		}
	}
	for _, k := range containers {
		if c.PartFilled(k) {
			tell(WhereOf(k), "room for air in "+called(k))
		}
	}
	return times, where
}

// PartFilled tells whether a container that keeps its shape was left with more
// room than it should have, and with air in it.
func (c *Case) PartFilled(k figures.Container) bool {
	f, ok := c.Find(figures.IDHeadspace, k.Key)
	capacity := c.CapacityOf(k)
	if !ok || capacity <= 0 || k.Package.Purged.Yes() || k.Package.Gas.Set.Written() {
		return false
	}
	f.Value, f.PlusMinus = 100*f.Value/capacity, 100*DoubtOf(f.PlusMinus)/capacity
	return Over(f, HeadspaceHigh) == Surely
}

// Live are the containers that are filled and not yet empty: nobody need be told
// about the others.
func (c *Case) Live() []figures.Container {
	var live []figures.Container
	for _, k := range c.Containers() {
		if c.IsFilled(k) && !c.Spent(k) && !k.Is(journal.Bucket) {
			live = append(live, k)
		}
	}
	return live
}

// PartyAhead tells whether a party is planned and not over.
func (c *Case) PartyAhead() bool {
	on := c.Gyle.Party.On
	return on.Written() && c.Now.Before(EndOf(on).Add(12*time.Hour))
}

// PintsToPour is what is left, or what the gyle should come to: less what stays in
// the fermenter, by this brewer's own gyles once three are known, and what no
// container gives up.
func (c *Case) PintsToPour() (figures.Figure, bool) {
	if f, ok := c.Find(figures.IDPintsLeft, ""); ok {
		return f, true
	}
	litres := c.Gyle.Fermenter.Volume
	if !litres.Written() {
		litres = c.Gyle.Aim.Volume
	}
	f, ok := figures.AsRead(litres)
	lost := UsualLoss()
	if own := c.Past.Losses; own.Enough() {
		lost = own.Median
	}
	share := pourable.Number / 100 / q.UKPint.Litres()
	f.Value, f.PlusMinus = math.Max(f.Value-lost, 0)*share, math.Max(f.PlusMinus*share, pintsOff)
	return f, ok && c.Stage < figures.Maturing
}

// UnitsInAPint is by what the beer came to, else by the aim.
func (c *Case) UnitsInAPint() (float64, bool) {
	if f, ok := c.Find(figures.IDUnitsPerPint, ""); ok && !f.Provisional {
		return f.Value, true
	}
	abv := c.Gyle.Aim.ABV
	return float64(abv.Value) * q.UKPint.Litres(), abv.Written()
}

// IsFilled tells whether a container has been filled, or may have been where nobody says.
func (c *Case) IsFilled(k figures.Container) bool {
	if on := c.Filled(k); on.Written() {
		return !on.Time.After(c.Now)
	}
	return c.Stage >= figures.Maturing || c.MayBeFilled(k)
}

func (c *Case) BegunAsBeer() bool {
	return len(c.Gyle.DrawnFrom) > 0 && len(c.Gyle.Readings) == 0
}

// WhereOf is the line of a container that a finding about it points at.
func WhereOf(k figures.Container) journal.Where {
	if k.Package.Vessel.Written() {
		return k.Package.Vessel.Where
	}
	return k.Package.Where
}
