package findings

import (
	"fmt"
	"math"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// pitchRules are about the yeast as it goes in.
func pitchRules() []Rule {
	return []Rule{
		{
			ID: "pitched-warm", Watches: from(figures.Copper), Worst: notice.Mend, Source: commonPractice,
			When:    "pitched more than 3 °C above the yeast's card, or over 24 °C without one (limits.works_at may say otherwise); a note once the first day is over",
			Example: Example{In: "working", Raises: []string{"yeast[0].at=28 C"}, Spares: []string{"yeast[0].at=25 C"}, On: "2026-03-02"},
			look:    pitchedWarm,
		},
		{
			ID: "pitched-cold", Watches: from(figures.Copper), Worst: notice.Mend, Source: commonPractice,
			When:    "pitched below the yeast's card, or under 14 °C without one (limits.works_at may say otherwise); a note once it has begun to fall",
			Example: Example{In: "working", Raises: []string{"yeast[0].at=12 C"}, Spares: []string{"yeast[0].at=16 C"}, On: "2026-03-02"},
			look:    pitchedCold,
		},
		{
			ID: "under-pitched", Watches: from(figures.Copper), Worst: notice.Mend, Source: "home-brewing magazines on pitching rates",
			When:    "under 0.75 million cells per mL and °P (note), or under 0.5 (mend) until the first day is over",
			Example: Example{In: "pitching", Raises: []string{"yeast[0].cells=40e9 cells"}, Spares: []string{"yeast[0].cells=180e9 cells"}, On: "2026-03-01"},
			look:    underPitched,
		},
	}
}

// worksAt is the heat a yeast is happy at, by its card; ok is false where no
// card says.
func (c *Case) worksAt(p journal.Pitch) (low, high float64, ok bool) {
	card := c.Card("yeast", p.Yeast)
	if card == nil || card.Yeast == nil || !card.Yeast.WorksAt.Written() {
		return 0, 0, false
	}
	at := card.Yeast.WorksAt
	return at.Low.Celsius(), at.High.Celsius(), true
}

// workable are the limits of heat for a yeast: its card's with so much to spare
// above, else the settings' or the trade's for ale. A yeast without a card whose name says that it
// is another, or that is no yeast at all, has none.
func (c *Case) workable(p journal.Pitch, spare float64) (low, high float64, whose string) {
	if low, high, ok := c.worksAt(p); ok {
		return low, high + spare, "its card says " + c.units.Between(low, high, "°C")
	}
	if hasWord(p.Yeast.Name, notAle...) {
		return math.Inf(-1), math.Inf(1), ""
	}
	at := c.limits.worksAt
	own := asks(at.own, " by your settings", "")
	if p.Yeast.Written() && c.Card("yeast", p.Yeast) == nil {
		return at.low, at.high, "no card knows it, and for an ale yeast " + c.units.Between(at.low, at.high, "°C") + " is right" + own
	}
	return at.low, at.high, c.units.Between(at.low, at.high, "°C") + " is right for an ale yeast" + own
}

// notAle are words in the names of what ferments at other heats than ale yeast.
var notAle = []string{
	"lager*", "pils*", "helles", "bock", "kveik*", "voss", "lacto*", "brett*", "pedio*", "saison*", "farmhouse", "sour*", "wild*",
	"weiss*", "weizen*", "hefe*", "kölsch*", "koelsch*", "kolsch*", "alt", "altbier*", "champagne", "wine", "cider", "bacteria", "culture", "lambic",
	"steam", "baltic", "turbo", "distill*", "trappist", "abbey", "belgian", "wit*",
}

func pitchedWarm(c *Case) []Found {
	var found []Found
	for _, p := range c.Gyle.Yeast {
		heat, ok := figures.AsRead(p.At)
		_, high, whose := c.workable(p, pitchedOverCard)
		if !ok || over(heat, high) < Probably {
			continue
		}
		f := Found{
			Severity: notice.Mend, Where: c.lastOf(heat),
			Says: fmt.Sprintf("The %s goes in at %s; %s.", p.Yeast.Name, c.measure(heat), whose),
			Why:  "Yeast that starts hot makes solvent and fusel notes, and they stay.",
			Do:   "Cool the wort before the yeast goes in.",
		}
		if c.Stage > figures.Copper {
			f.Says = fmt.Sprintf("The %s went in at %s; %s.", p.Yeast.Name, c.measure(heat), whose)
			f.Do = "Stand it in cold water and bring it down over the next few hours."
			if !c.firstDay(p) || c.cooledSince(high) {
				f = nextTime(f, "cool the wort further before the yeast goes in.")
			}
		}
		found = append(found, f)
	}
	return found
}

// cooledSince tells whether the last reading of the beer's heat is no warmer
// than the limit.
func (c *Case) cooledSince(limit float64) bool {
	last, ok := c.lastHeat()
	return ok && last.Value <= limit
}

func (c *Case) firstDay(p journal.Pitch) bool {
	return c.Stage == figures.Working && c.within(p.Pitched.Middle(), firstDay)
}

func pitchedCold(c *Case) []Found {
	var found []Found
	for _, p := range c.Gyle.Yeast {
		heat, ok := figures.AsRead(p.At)
		low, _, whose := c.workable(p, 0)
		if !ok || under(heat, low) != Surely {
			continue
		}
		f := Found{
			Severity: notice.Mend, Where: c.lastOf(heat),
			Says: fmt.Sprintf("The %s goes in at %s; %s.", p.Yeast.Name, c.measure(heat), whose),
			Why:  "Cold yeast starts slowly, and other things start first.",
			Do:   "Warm the wort before the yeast goes in.",
		}
		if c.Stage > figures.Copper {
			f.Says = fmt.Sprintf("The %s went in at %s; %s.", p.Yeast.Name, c.measure(heat), whose)
			f.Do = "Move it somewhere warmer and wrap it up."
			if c.Stage != figures.Working || c.begun() || c.cooledSince(low) && !c.firstDay(p) {
				f = nextTime(f, "let the wort stay warmer, or warm it before the yeast goes in.")
			}
		}
		found = append(found, f)
	}
	return found
}

// begun tells whether a reading shows the gravity well under way.
func (c *Case) begun() bool {
	_, fallen, ok := c.lastFall()
	return ok && over(fallen, begunBy) >= Probably
}

// vague tells whether a rate is known so little that a packet's own spread is all
// there is to it: nobody need worry over that.
func vague(rate figures.Figure) bool { return rate.PlusMinus > rate.Value/2 }

func underPitched(c *Case) []Found {
	rate, ok := c.Find("pitching-rate", "")
	if !ok || under(rate, pitchLow) < Probably || vague(rate) && under(rate, pitchLow) != Surely {
		return nil
	}
	low := under(rate, pitchLowest)
	f := Found{
		Severity: notice.Note, Where: c.lastOf(rate),
		Says: fmt.Sprintf("The pitch is %s million cells per mL and °P, and 0.75 to 1.0 is the rule for ale.", bare(rate)),
		Why:  "Too little yeast starts late, tires early, and leaves butter and green apple behind.",
		Do:   "Pitch another packet, or a starter, while it is still young.",
	}
	mendable := c.Stage == figures.Copper || c.Stage == figures.Working && c.within(c.PitchedAt(), firstDay)
	switch {
	case !mendable:
		f = nextTime(f, "pitch more yeast, or grow it in a starter.")
	case low >= Probably:
		f.Severity = notice.Mend
	}
	return []Found{f}
}
