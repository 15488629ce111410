package journal

import (
	"fmt"
	"net/url"
	"path"
	"reflect"
	"slices"
	"strings"
	"time"
	_ "time/tzdata" // a zone is the same on every machine

	"go.yaml.in/yaml/v4"

	"gylebook/internal/notice"
	"gylebook/internal/quantity"
)

// defaultSettings is those of a journal that has none.
func defaultSettings() *Settings { return &Settings{Zone: time.UTC} }

// readSettings reads the settings, and checks what their types cannot.
func (r *reading) readSettings(root *yaml.Node, entry Entry) *Settings {
	s := &Settings{Entry: entry, Zone: time.UTC}
	r.settings = s // sums of money are in its currency
	r.mapping(root, plans().settings, reflect.ValueOf(s).Elem(), "")
	if s.TimeZone.Written() {
		s.Zone = r.zoneOf(s.TimeZone)
	}
	if a := s.Address; a.Written() && !isAddress(a.Text) {
		r.report(a.Place, idNotAnAddress, a.Key,
			fmt.Sprintf("address: %s: expected a web address such as https://beer.example/log/", quote(a.Text)),
			writeIfMeant(addressIn(a.Text)))
		s.Address = Text{}
	}
	if c := s.Currency; c.Written() && !isCurrency(c.Text) {
		r.report(c.Place, idUnknownWord, c.Key,
			fmt.Sprintf("currency: %s: expected three letters such as GBP", quote(c.Text)), "")
		s.Currency = Text{}
	}
	s.Altitude = withinBounds(r, s.Altitude, lowestLand, highestTown, "expected a height above the sea where people live")
	s.AirPressure = withinBounds(r, s.AirPressure, thinnestAir, thickestAir,
		"expected what a barometer shows there, about 101 kPa at the sea and 95 kPa at 500 m")
	r.checkLimits(&s.Limits)
	s.Ignore = r.patterns(s.Ignore)
	s.Keep = r.patterns(s.Keep)
	s.privateUnread = slices.ContainsFunc(r.errors,
		func(n notice.Notice) bool { return strings.HasPrefix(n.Of, "private") })
	return s
}

// The heights at which people live: the shore of the Dead Sea and the highest
// towns of the Andes, with some room (public geography, from memory). The air's
// pressure there, and the highest that was measured anywhere, 1084 hPa (World
// Meteorological Organization, archive of extremes, from memory), with some room.
const (
	lowestLand  quantity.Height      = -450
	highestTown quantity.Height      = 5500
	thinnestAir quantity.AirPressure = 50
	thickestAir quantity.AirPressure = 111
)

// withinBounds is a value of the settings, not written where it lies beyond what can be.
func withinBounds[Q quantity.Quantity](r *reading, v Value[Q], low, high Q, expected string) Value[Q] {
	if !v.Written() || v.Value >= low && v.Value <= high {
		return v
	}
	r.report(v.Place, idNotANumber, v.Key, v.Key+": this cannot be: "+expected, "")
	return Value[Q]{}
}

// zoneOf is the time zone of a name, UTC where there is none.
func (r *reading) zoneOf(name Text) *time.Location {
	zone, err := time.LoadLocation(name.Text)
	if err != nil || name.Text == "Local" || name.Text == "" {
		r.report(name.Place, idNotAZone, name.Key,
			fmt.Sprintf("time_zone: %s: expected a place such as Europe/London, and UTC is used", quote(name.Text)),
			"Write CONTINENT/CITY as on a computer's clock.")
		return time.UTC
	}
	return zone
}

func isAddress(text string) bool {
	u, err := url.Parse(text)
	return err == nil && (u.Scheme == "http" || u.Scheme == "https") && u.Host != "" && u.RawQuery == "" &&
		u.Fragment == "" && u.User == nil
}

// addressIn is the address that was likely to be meant, "" where none was.
func addressIn(text string) string {
	if fix := "https://" + text; !strings.Contains(text, ":") && strings.Contains(text, ".") &&
		!strings.Contains(text, " ") && isAddress(fix) {
		return fix
	}
	return ""
}

// patterns keeps the patterns that can be matched.
func (r *reading) patterns(all []Text) []Text {
	var good []Text
	for _, p := range all {
		if _, err := path.Match(p.Text, ""); err != nil || p.Text == "" {
			r.report(p.Place, idNotAPattern, p.Key,
				fmt.Sprintf("%s: %s: expected a pattern of file names such as drafts/*.md", p.Key, quote(p.Text)),
				"Close the bracket.")
			continue
		}
		good = append(good, p)
	}
	return good
}

// passesOver tells whether the ignore patterns name this path. A pattern with
// a slash is held against the whole path, one without against the last part;
// what names a folder names all in it.
func (s *Settings) passesOver(name string) bool {
	for _, p := range s.Ignore {
		pattern := strings.Trim(strings.TrimPrefix(p.Text, "./"), "/")
		against := name
		if !strings.Contains(pattern, "/") {
			against = path.Base(name)
		}
		if ok, err := path.Match(pattern, against); ok && err == nil {
			return true
		}
	}
	return false
}

// Private is what is never published.
type Private struct{ Tasters, Costs, Photos, Party bool }

// hides tells whether a word of the private list is among these.
func (p Private) hides(word string) bool {
	return word != "" && map[PrivatePart]bool{
		PrivateTasters: p.Tasters, PrivateCosts: p.Costs, PrivatePhotos: p.Photos, PrivateParty: p.Party,
	}[PrivatePart(word)]
}

// Privacy is what these settings say is never published: tasters and costs
// unless they say otherwise, and everything where they could not be read.
func (s *Settings) Privacy() Private {
	usual := s.Private == nil
	says := func(part PrivatePart) bool {
		return s.Unread || s.privateUnread ||
			slices.ContainsFunc(s.Private, func(c Choice[PrivatePart]) bool { return c.Is(part) })
	}
	return Private{
		Tasters: usual || says(PrivateTasters), Costs: usual || says(PrivateCosts),
		Photos: says(PrivatePhotos), Party: says(PrivateParty),
	}
}

// checkLimits takes out of the settings' limits what is none.
func (r *reading) checkLimits(l *Limits) {
	for _, of := range []*Value[quantity.Duration]{&l.LevelFor, &l.ReadingsEvery, &l.LinesCleanedEvery, &l.CleanFor,
		&l.SettleFor, &l.OpenedHopsKeep} {
		*of = aboveNought(r, *of)
	}
	l.PintsEach, l.ConditionWithin = aboveNought(r, l.PintsEach), aboveNought(r, l.ConditionWithin)
	l.MashHeat, l.WorksAt, l.ServeAt = twoEnds(r, l.MashHeat), twoEnds(r, l.WorksAt), twoEnds(r, l.ServeAt)
	l.MashPH, l.Yield = twoEnds(r, l.MashPH), twoEnds(r, l.Yield)
	if v := l.LevelFor; v.Written() && v.Value < LevelAtLeast {
		says := fmt.Sprintf("%s: %s hours is too short, and 48 hours stand: gravities that agree for less have not "+
			"shown that a beer is done, and what is bottled unfinished bursts", v.Key, quantity.Plain(v.Value.Hours()))
		r.report(v.Place, idTooShort, v.Key, says, "Write 48 h or longer, or leave it out.")
		l.LevelFor = Value[quantity.Duration]{}
	}
}

// aboveNought is a limit, not written where it is nought or less.
func aboveNought[Q quantity.Quantity](r *reading, v Value[Q]) Value[Q] {
	if !v.Written() || v.Value > 0 {
		return v
	}
	r.report(v.Place, idNotANumber, v.Key, v.Key+": expected more than nought", "")
	return Value[Q]{}
}

// twoEnds is a range, not written where its ends are one: no reading would ever be
// right.
func twoEnds[Q quantity.Quantity](r *reading, v RangeOf[Q]) RangeOf[Q] {
	if !v.Written() || v.High > v.Low {
		return v
	}
	r.report(v.Place, idNotANumber, v.Key, v.Key+": one number: expected a range, from the lower end to the higher", "")
	return RangeOf[Q]{}
}
