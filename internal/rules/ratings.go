package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// placeTaken says what was taken for the place of a container that nobody names, as the
// end of a reason.
func (c *inspection) placeTaken(k figures.Container) string {
	if c.PlaceNamed(k) {
		return ""
	}
	return c.Text(" Nothing says where it stands: {25 °C} is taken until you do (cellared.warmest).")
}

// placeTooHot is of what stands, or will, where no pressure can be worked out.
func placeTooHot(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		heat, at := c.WarmestPlace(k)
		if !c.tooHot(k) {
			continue
		}
		found = append(found, Found{
			Severity: notice.Danger, Where: at, Of: k.Key,
			Says: fmt.Sprintf("%s stands, or will, at %s; over %s nobody can say how hard it presses.",
				the(k), c.Heat(heat.Celsius()), c.Heat(hottestPlace.Number)),
			Do: "Keep away from it, and keep others away, until the place has cooled; then, goggles and gloves on, " +
				"bring it into the cold without shaking it. Note where it stands then (done: moved).",
		})
	}
	return found
}

func (c *inspection) tooHot(k figures.Container) bool {
	heat, at := c.WarmestPlace(k)
	return at.Written() && heat.Celsius() > hottestPlace.Number
}

// mostReckoned is how many volumes a pressure can be worked out for: see
// brewing.RigidPressure.
const mostReckoned = 10.0

// beyondReckoning is so much gas that no pressure is given for it: far over what
// anything of a home brewery takes.
func (c *inspection) beyondReckoning(k figures.Container) (Found, bool) {
	f, ok := c.Find(figures.IDGasInAll, k.Key)
	if !ok || assay.Over(f, mostReckoned) < assay.Probably {
		return Found{}, false
	}
	return Found{
		Severity: notice.Danger, Where: assay.WhereOf(k), Of: k.Key,
		Says: fmt.Sprintf("There will be %s in %s: more than a pressure can be given for.", c.Measure(f), k.Called()),
		Why:  "No container of a home brewery is made for that.",
		Do:   "Keep away from it while it is warm. Chill it where it stands, then vent it slowly, your face turned away, and again the next day.",
	}, true
}

// ceiling is the pressure above which a container of a kind, without a maker's
// figure, is no longer merely "not shown safe". They are no ratings: steel kegs
// and casks are made for more, but nobody here knows this one (common practice,
// no source). A cask's lies between what the trade does daily, 1.2 vol at 18 °C,
// which the formula with all of the trapped air puts at 1.35 bar, and a keystone
// reported to have blown at 17 °C and about 1.7 vol, which it puts at 1.9. Bottles
// have their own rule, in volumes.
func ceiling(k figures.Container) *assay.Limit {
	switch {
	case k.Is(journal.Keg):
		return kegCeiling
	case k.Is(journal.Cask):
		return caskCeiling
	}
	return unratedBar
}

// hurts is the pressure that an upper bound may not pass in a container without a
// maker's figure. A cask's or keg's ceiling is for what is likely: what a summer's day
// and all doubts together come to is held against overCeiling, since the trade
// fills both daily and they hold (common practice, no source).
func hurts(k figures.Container) float64 {
	if k.Is(journal.Keg, journal.Cask) {
		return overCeiling.Number / 100 * ceiling(k).Number
	}
	return ceiling(k).Number
}

func ratingUnknown(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		if !k.Rigid() || k.Is(journal.PressureBarrel) || k.Vessel != nil && k.Vessel.Rated.Written() {
			continue
		}
		f, ok := c.Find(figures.IDPressureWarmest, k.Key)
		out := Found{
			Severity: notice.Look, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("No maker's figure is known for %s, so it is not shown safe.", k.Called()),
			Why:  "What it takes cannot be guessed from its looks.",
			Do:   "Find the maker's rating and note it on a vessel card (rated); keep it cool until then.",
		}
		if !ok {
			if beyond, is := c.beyondReckoning(k); is {
				out = beyond
			}
			found = append(found, out)
			continue
		}
		out.Why = fmt.Sprintf("At the warmest it reaches %s; what it takes cannot be guessed from its looks.", c.Measure(f))
		over := assay.Over(f, ceiling(k))
		if !k.Is(journal.Bottle) && (over >= assay.Probably || assay.Over(f, hurts(k)) >= assay.Perhaps) {
			out.Severity = notice.Danger
			out.Says = fmt.Sprintf("At the warmest %s %s reach %s, and nobody knows what it takes.", k.Called(), over.Verb("will", "may"), c.Measure(f))
			out.Why = "A container without a maker's figure counts as one that takes nothing." + c.placeTaken(k)
			out.Do = c.relief(k) + " Find the maker's rating before you fill it again."
		}
		found = append(found, out)
	}
	return found
}
