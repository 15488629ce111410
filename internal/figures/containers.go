package figures

import (
	"slices"

	"fmt"
	"strings"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Container is one package with what its card and the gyle-wide keys supply.
type Container struct {
	Index   int
	Key     string // packages[1]
	Package *journal.Package
	Card    *journal.Card   // nil where neither the brewer nor the larder knows the vessel
	Vessel  *journal.Vessel // the card's facts, nil likewise
	Alike   bool            // another line of the gyle has its name
}

// containersOf are the gyle's packages with their cards.
func (b *bench) containersOf() []Container {
	containers := make([]Container, 0, len(b.Gyle.Packages))
	for i := range b.Gyle.Packages {
		p := &b.Gyle.Packages[i]
		c := Container{Index: i, Key: packageKey(i), Package: p, Card: b.card("vessel", p.Vessel)}
		if c.Card != nil {
			c.Vessel = c.Card.Vessel
		}
		containers = append(containers, c)
	}
	toldApart(containers)
	return containers
}

// toldApart tells which containers share a name with another line.
func toldApart(containers []Container) {
	lines := map[string]int{}
	for _, c := range containers {
		lines[c.Name()]++
	}
	for i := range containers {
		containers[i].Alike = lines[containers[i].Name()] > 1
	}
}

func packageKey(i int) string {
	k := key("packages", i, "")
	return k[:len(k)-1]
}

// Is tells whether the container is of a kind: bottle, soft bag, cask …
func (c Container) Is(kinds ...journal.VesselKind) bool {
	return c.Vessel != nil && c.Vessel.Is.Is(kinds...)
}

// Rigid tells whether the container keeps its shape under pressure. One that
// nobody knows is taken as rigid, the more dangerous.
func (c Container) Rigid() bool { return !c.Is(journal.SoftBag, journal.Bucket) }

// Count is how many alike there are.
func (c Container) Count() int {
	if c.Package.Count.Written() {
		return max(c.Package.Count.N, 0)
	}
	return 1
}

// Name is what a brewer calls it: soft bag 10 L, 24 × bottle 500 mL.
func (c Container) Name() string {
	switch {
	case c.Card != nil && c.Card.Name.Text != "":
		return c.Card.Name.Text
	case c.Package.Vessel.Name != "":
		return c.Package.Vessel.Name
	}
	return "container"
}

// Called is how a sentence names it: the 10 L soft bag, each 500 mL bottle, the
// blue keg; with the number that package: has for it where another line has its name.
func (c Container) Called() string {
	name := c.Name()
	if kind := builtInKind(name); kind != "" {
		name = strings.TrimSpace(name[len(kind):]) + " " + kind
	}
	name = strings.TrimSpace(name)
	if len(name) > 4 && strings.EqualFold(name[:4], "the ") {
		name = name[4:] // the old barrel has its article in its name
	}
	if c.Alike {
		name += fmt.Sprintf(" (package %d)", c.Index)
	}
	if c.Count() > 1 {
		return "each " + name
	}
	return "the " + name
}

// builtInKind is the kind at the start of a built-in vessel's name, KIND SIZE.
func builtInKind(name string) string {
	for _, kind := range journal.VesselKinds() {
		if strings.HasPrefix(name, string(kind)+" ") && strings.ContainsAny(name, "0123456789") {
			return string(kind)
		}
	}
	return ""
}

// Filled is when it was filled: its own day, else the gyle's racking, else the first
// moment at which something is said of it that only a filled container can be.
func (s *Sheet) Filled(c Container) journal.Moment {
	if c.Package.On.Written() {
		return c.Package.On
	}
	if s.Gyle.Racked.On.Written() {
		return s.Gyle.Racked.On
	}
	return filledBy(s.Gyle, c.Index)
}

// Conditioned is where it stood to condition, its own or the gyle's.
func (s *Sheet) Conditioned(c Container) journal.Conditioned {
	if c.Package.Condition.Written() {
		return c.Package.Condition
	}
	return s.Gyle.Condition
}

// Cellared is where it is kept cool, its own or the gyle's.
func (s *Sheet) Cellared(c Container) journal.Cellared {
	if c.Package.Cellared.Written() {
		return c.Package.Cellared
	}
	return s.Gyle.Cellared
}

// Broached is when it was opened for serving, by its own line, else the gyle's.
func (s *Sheet) Broached(c Container) journal.Moment {
	if c.Package.Broached.Written() {
		return c.Package.Broached
	}
	return s.Gyle.Served.Broached
}

// Emptied is when it ran out.
func (s *Sheet) Emptied(c Container) journal.Moment {
	if c.Package.Emptied.Written() || len(s.Gyle.Packages) > 1 && !s.Gyle.Served.Emptied.Written() {
		return c.Package.Emptied
	}
	return s.Gyle.Served.Emptied
}

// priming is the container's own priming, else the gyle's; own tells which.
func (s *Sheet) priming(c Container) (p *journal.Priming, own bool) {
	if c.Package.Priming.Written() || s.Gyle.Unreadable(c.Key+".priming").Key == c.Key+".priming" {
		return &c.Package.Priming, true
	}
	return &s.Gyle.Priming, false
}

// capacity is what it holds to the brim: by its card, else unknown.
func (b *bench) capacity(c Container) Estimate[q.Volume] {
	if c.Vessel == nil || !c.Vessel.Capacity.Written() {
		return missing[q.Volume](c.Key + ".vessel")
	}
	if c.Card.BuiltIn {
		return b.byVesselsName(c, c.Vessel.Capacity.Value, 0.01, "the brim of a "+c.Card.Name.Text, "makers differ by 1 % (common practice, no source)")
	}
	return read(b, c.Vessel.Capacity, c.Vessel.Capacity.Key, ofFill)
}

// byVesselsName is a volume that follows from what the entry calls the vessel,
// and so rests on that line, with its doubt as a share of it.
func (b *bench) byVesselsName(c Container, v q.Volume, doubt float64, what, reason string) Estimate[q.Volume] {
	return input(b, v, Input{What: what, Where: c.Package.Vessel.Where, Uncertainty: standard(float64(v) * doubt), Unit: "L", Reason: reason})
}

// brimOver is how much more than its nominal contents a rigid container holds to
// the brim (common practice, no source).
const brimOver = 1.05

// fill is the beer in each: as typed; for a bottle its nominal contents; where all
// containers are alike, its share of what was racked.
func (b *bench) fill(c Container) Estimate[q.Volume] {
	return b.ofContainer[c.Index].fill.once(func() Estimate[q.Volume] { return b.fillOf(c) })
}

func (b *bench) fillOf(c Container) Estimate[q.Volume] {
	switch {
	case c.Package.Fill.Written():
		return read(b, c.Package.Fill, c.Package.Fill.Key, ofFill)
	case c.Is(journal.Bottle) && c.Vessel.Capacity.Written():
		nominal := c.Vessel.Capacity.Value / brimOver
		return b.byVesselsName(c, nominal, 0.02, "the fill of "+c.Name(), "filled to its nominal contents by eye, ± 2 % (common practice, no source)")
	case len(b.Gyle.Packages) == 1 && c.Count() == 1:
		return b.rackedVolume()
	case b.filledAlike():
		return b.shareOfRacked(c)
	}
	return missing[q.Volume](c.Key + ".fill")
}

// filledAlike tells whether all containers are of one name and none of them has a fill
// noted.
func (b *bench) filledAlike() bool {
	return !slices.ContainsFunc(b.Gyle.Packages, func(p journal.Package) bool {
		return p.Fill.Written() || p.Vessel.Name != b.Gyle.Packages[0].Vessel.Name
	})
}

// rackedVolume is what was racked; for beer drawn from another gyle, what was
// drawn.
func (b *bench) rackedVolume() Estimate[q.Volume] {
	racked := read(b, b.Gyle.Racked.Volume, "racked.volume", ofVolume)
	if racked.known || !b.begunAsBeer() {
		return racked
	}
	total := exactly(q.Volume(0))
	for i := range b.Gyle.DrawnFrom {
		d := &b.Gyle.DrawnFrom[i]
		total = sum(b, total, read(b, d.Volume, keyOf(d.Volume.Where, "drawn_from", i, "volume"), ofVolume))
	}
	return total
}

// contents is the beer in all containers of one line.
func (b *bench) contents(c Container) Estimate[q.Volume] {
	return b.ofContainer[c.Index].contents.once(func() Estimate[q.Volume] {
		return times[q.Volume](b, b.fill(c), float64(c.Count()))
	})
}

// aboutPackage tells whether a deed was done to the container, or to all.
func aboutPackage(d *journal.Deed, c Container) bool {
	return !d.Package.Written() || d.Package.N == c.Index
}

// sealedHeat is the beer's heat when a container was closed: as racked, else a
// cool room's.
func (b *bench) sealedHeat() Estimate[q.Temperature] {
	if b.Gyle.Racked.Temp.Written() {
		return read(b, b.Gyle.Racked.Temp, "racked.temp", ofHeat)
	}
	return customary(b, q.Celsius(18), 4, "°C", "the beer's heat when sealed", "not written: taken as 18 ± 4 °C, a cool room")
}

// past tells whether a moment has come.
func (s *Sheet) past(m journal.Moment) bool {
	return m.Written() && !m.Time.After(s.Now)
}
