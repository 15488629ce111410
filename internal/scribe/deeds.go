package scribe

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// containers are the words for what beer is filled into, by the kind of vessel.
var containers = []struct {
	kind  journal.VesselKind
	words []string // what people say
	deed  string   // what they call filling it
}{
	{journal.Bottle, []string{"bottle", "bottles"}, "bottled"},
	{journal.Keg, []string{"keg", "kegs", "corny", "cornies"}, "kegged"},
	{journal.Cask, []string{"cask", "casks", "pin", "pins", "firkin", "firkins"}, "casked"},
	{journal.SoftBag, []string{"bag", "bags", "polypin", "polypins"}, "bagged"},
	{journal.PressureBarrel, []string{"barrel", "barrels"}, "barrelled"},
}

// deed makes jottings' words of deeds that are said without what the entry says
// already: which container, how long, what kind of thing.
func (e ear) deed(tokens []token) ([]token, error) {
	first := strings.ToLower(tokens[0].text)
	for _, c := range containers {
		if first == c.deed {
			return e.filling(c.kind, tokens[1:])
		}
	}
	switch {
	case first == "filled" && len(tokens) > 1:
		for _, c := range containers {
			if at := slices.IndexFunc(tokens[1:], func(t token) bool { return isOne(t, c.words) }); at >= 0 &&
				!slices.ContainsFunc(tokens, func(t token) bool { return t.quoted }) {
				return e.filling(c.kind, slices.Delete(slices.Clone(tokens[1:]), at, at+1), tokens[at+1].text)
			}
		}
	case first == "boiled" && len(tokens) == 1:
		return e.boiled()
	case first == "mash" && len(tokens) > 1 && beginsNumber(tokens[1].text):
		if _, _, err := parses(ofHeat, plainJoin(tokens[1:1+max(1, quantityRun(tokens[1:]))])); err == nil {
			return append(tokensOf([]string{"mash", "at"}), tokens[1:]...), nil
		}
	case first == "added" && len(tokens) > 1:
		return e.added(tokens[1:])
	}
	return e.which(tokens)
}

func isOne(t token, words []string) bool {
	return !t.quoted && slices.Contains(words, strings.ToLower(t.text))
}

// container tells whether a word means any container.
func container(t token) bool {
	for _, c := range containers {
		if isOne(t, c.words) {
			return true
		}
	}
	return false
}

// vessel is the card of a package's vessel, as far as its name tells.
func vessel(name string) *journal.Card { return journal.NewLarder(nil).Card(journal.CardVessel, name) }

// ofKind tells whether a package is of a kind, and called so by the word said.
func ofKind(p journal.Package, kind journal.VesselKind, called string) bool {
	name := strings.ToLower(p.Vessel.Name)
	if stem := strings.TrimSuffix(called, "s"); stem == "pin" || stem == "firkin" {
		return strings.Contains(name, stem)
	}
	if card := vessel(p.Vessel.Name); card != nil {
		return card.Vessel.Is.Word == kind
	}
	return strings.Contains(name, string(kind))
}

// filling makes of bottled 24 what filled would have: the container that is
// planned, or one of the size that was said.
func (e ear) filling(kind journal.VesselKind, rest []token, called ...string) ([]token, error) {
	word := strings.Join(called, "")
	rest = slices.DeleteFunc(rest, func(t token) bool { return isOne(t, fillers) || isOne(t, []string{"x", "into"}) || kindWord(t, kind) })
	size := ""
	for i := 0; i < len(rest) && kind == journal.Bottle; i++ {
		run := quantityRun(rest[i:])
		if unit, _, err := parses(ofVolume, plainJoin(rest[i:i+run])); run > 0 && err == nil && unit != "" {
			if _, volume, _ := parses(ofVolume, plainJoin(rest[i:i+run])); volume > largestBottle {
				return nil, fmt.Errorf("%s is no bottle: say how many, as filled %q "+
					"24", plainJoin(rest[i:i+run]), sizes[kind])
			}
			size = "bottle " + plainJoin(rest[i:i+run])
			rest = slices.Delete(rest, i, i+run)
			break
		}
	}
	var planned []string
	for _, p := range e.gyle.Packages {
		same := size == "" || alike(p.Vessel.Name, size)
		if same && ofKind(p, kind, word) && !p.On.Written() && !slices.Contains(planned, p.Vessel.Name) {
			planned = append(planned, p.Vessel.Name)
		}
	}
	switch {
	case len(planned) == 1:
		size = planned[0]
	case len(planned) > 1:
		return nil, fmt.Errorf("the entry plans %s: say which, as filled %q %s", strings.Join(planned, " and "),
			planned[0], plainJoin(rest))
	case size == "" && (word == "pin" || word == "firkin"):
		size = word
	case size == "":
		return nil, fmt.Errorf("no %s is planned in the entry: say its size, as filled %q %s", kind,
			sizes[kind], plainJoin(rest))
	}
	return append([]token{{text: "filled"}, {text: size, quoted: true}}, rest...), nil
}

// largestBottle is the most, in litres, that is taken for a bottle's size and not
// for the beer in all of them: common practice, no source.
const largestBottle = 3

// sizes are how a container of each kind may be named.
var sizes = map[journal.VesselKind]string{journal.Bottle: "bottle 500 mL", journal.Keg: "keg 19 " +
	"L", journal.Cask: "pin",
	journal.SoftBag: "soft bag 10 L", journal.PressureBarrel: "pressure barrel 25 L"}

func kindWord(t token, kind journal.VesselKind) bool {
	for _, c := range containers {
		if c.kind == kind && isOne(t, c.words) {
			return true
		}
	}
	return false
}

// alike tells whether two names of vessels are of one kind and size.
func alike(a, b string) bool {
	x, y := vessel(a), vessel(b)
	if x == nil || y == nil {
		return strings.EqualFold(a, b)
	}
	return x.Vessel.Is.Word == y.Vessel.Is.Word && math.Abs(float64(x.Vessel.Size.Value-y.Vessel.Size.Value)) < 1e-6
}

// which puts package N for a container that is called by its kind, where the
// place has a container and the entry has one such; and a number of bottles for
// what was poured of them.
func (e ear) which(tokens []token) ([]token, error) {
	place, used, err := placeOf(tokens)
	if err != nil {
		return tokens, nil
	}
	_, has := place.keys()["package"]
	if !has && !place.apart || place.loose == "what" || place.loose == "found" || place.loose == "hop" {
		return tokens, nil
	}
	for at := used; at < len(tokens); at++ {
		for _, c := range containers {
			if !isOne(tokens[at], c.words) {
				continue
			}
			number, err := e.only(c.kind, strings.ToLower(tokens[at].text))
			if err != nil {
				return nil, err
			}
			out := slices.Delete(slices.Clone(tokens), at, at+1)
			if place.list == "poured" && at > used && beginsNumber(tokens[at-1].text) {
				if out[at-1].text, err = e.bottles(number, tokens[at-1].text); err != nil {
					return nil, err
				}
				out = append(out[:at-1], append(tokensOf(strings.Fields(out[at-1].text)), out[at:]...)...)
			}
			return append(out, token{text: "package"}, token{text: fmt.Sprint(number)}), nil
		}
	}
	return tokens, nil
}

// only is the number of the one package of a kind.
func (e ear) only(kind journal.VesselKind, called string) (int, error) {
	found := -1
	for i, p := range e.gyle.Packages {
		switch {
		case !ofKind(p, kind, called):
		case found >= 0:
			return 0, fmt.Errorf("%s may be package %d or %d: say which, as package %d", called, found, i, found)
		default:
			found = i
		}
	}
	if found < 0 {
		return 0, fmt.Errorf("the entry has no %s among its packages; fill it first, as filled "+
			"%q", called, sizes[kind])
	}
	return found, nil
}

// bottles is the beer in so many of a package's containers.
func (e ear) bottles(number int, count string) (string, error) {
	p := e.gyle.Packages[number]
	n, err := q.Parse[q.Number](count)
	size := p.Fill.Value
	if card := vessel(p.Vessel.Name); size == 0 && card != nil {
		size = card.Vessel.Size.Value
	}
	if err != nil || size == 0 {
		return "", fmt.Errorf("%s: how much is in one is not known; say the volume, as poured 1 L", p.Vessel.Name)
	}
	return q.Plain(float64(n.Value)*float64(size)) + " L", nil
}

// boiled is the time since the boil began, where the entry has that.
func (e ear) boiled() ([]token, error) {
	began := e.gyle.Copper.Started
	at, err := time.Parse(form, e.when.Text)
	if !began.Written() || began.DateOnly || err != nil {
		return nil, errors.New("boiled: say how long, such as boiled 60 min")
	}
	then, err := time.Parse(form, began.Time.Format(form))
	minutes := at.Sub(then).Minutes()
	if err != nil || minutes <= 0 || minutes > longestBoil {
		return nil, errors.New("boiled: say how long, such as boiled 60 min; the entry's start does not tell it")
	}
	return tokensOf([]string{"boiled", q.Plain(minutes), "min"}), nil
}

// longestBoil is the time in minutes up to which the clock is believed for a boil.
const longestBoil = 300

// placeCalled is the place of these words.
func placeCalled(words string) Place {
	places := Places()
	return places[slices.IndexFunc(places, func(p Place) bool { return p.Words == words })]
}
