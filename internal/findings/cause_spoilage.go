package findings

import (
	"fmt"
	"slices"
	"strings"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// spoilageCauses are about what else lives in beer, or in the way to the glass.
func spoilageCauses() []Cause {
	return []Cause{
		{
			ID: "spoilage", Name: "something else grows in it", Source: tasteFaults,
			Now: "Let it go if it is unpleasant, and scald whatever it stood in.", Next: "Clean and rinse on the day, and replace taps and hoses.",
			Tests: []Test{
				{For: "pH fallen by 0.2 or more since it was racked", Against: "steady within 0.1", Weight: Measurement, Needs: "readings[].ph, at racking and now", look: phFallen},
				{For: "fallen by 2 points or more since it was racked", Against: "by less than a point", Weight: Measurement, Needs: needsGlass, look: fellSealed},
				{For: "a note of a film or of ropes", Weight: Measurement, look: filmNoted},
				{For: "sour and at pH 3.7 or under, with no fruit in it", Against: "at pH 3.9 or above", Weight: Measurement, Needs: "readings[].ph", look: phIsSour},
				{For: "no cleaning noted within a day of filling, where others are noted; it may", Against: "cleaned within a day of filling; it may", Weight: Circumstance, Needs: "done[].did cleaned", look: filledUnclean},
				{For: "found in one container and not in another", Against: "found in all that were tasted", Weight: Circumstance, Needs: "tastings[].package", look: oneContainer},
			},
			Example: CauseExample{Word: "sour", Sets: []string{"readings[+].when=2026-03-27 09:00", "readings[3].ph=3.5", "readings[3].package=0"}},
		},
		{
			ID: "dirty-line", Name: "the line, the tap or the glass was not clean", Source: barChecklist + "; " + tasteFaults,
			Now: "Clean the line and take a fresh glass; compare it with one drawn straight from the container.", Next: "Clean the line within a week of each session, and clean both ends.",
			Tests: []Test{
				{For: "the line last cleaned over 7 days before the glass", Against: "within 7 days", Weight: Measurement, Needs: "done[].did cleaned, what line", look: lineOld},
				{For: "found through the pump, and not in what was poured", Against: "found in what was poured without a line", Weight: Measurement, Needs: "tastings[].package, of a glass without the line", look: throughLine},
			},
			Example: CauseExample{Word: "soapy", Sets: []string{"tastings[0].when=2026-04-20"}, On: "2026-04-21"},
		},
	}
}

// phFallen compares the pH at racking with the last one read since.
func phFallen(x *exam) Sign {
	was, ok := x.phAtRacking()
	now, _, later := x.phSince()
	if !ok || !later {
		return unknown
	}
	fall := now
	// One meter: what it is off by is in both, and half of the doubt of each is
	// left (common practice, no source).
	fall.Value, fall.PlusMinus = was.Value-now.Value, now.PlusMinus
	return x.judged(fall, phFell, phSteady, fmt.Sprintf("its pH is %s, and was %s when it was racked", bare(now), bare(was)))
}

// phSince is the last pH read after racking of what the word was found in, or of
// the whole.
func (x *exam) phSince() (last figures.Figure, where journal.Where, ok bool) {
	at := x.rackedAt()
	if !at.Written() {
		return last, where, false
	}
	for _, r := range x.Gyle.Readings {
		f, read := figures.AsRead(r.PH)
		if !read || !r.When.Written() || !x.Come(r.When) || !r.When.Time.After(endOf(at)) {
			continue
		}
		if r.Package.Written() && !slices.ContainsFunc(x.from(), func(k figures.Container) bool { return k.Index == r.Package.N }) {
			continue
		}
		last, where, ok = f, r.PH.Where, true
	}
	return last, where, ok
}

func filmNoted(x *exam) Sign {
	if what, where, ok := x.noted("film", "pellicle", "ropy", "ropes", "skin"); ok {
		return tells(For, fmt.Sprintf("a note says “%s”", what), where)
	}
	return silent
}

// phIsSour asks whether the beer's own pH is that of a sour beer; fruit brings
// such a pH by itself.
func phIsSour(x *exam) Sign {
	if !x.says("sour", "vinegary") {
		return silent
	}
	f, _, ok := x.phSince()
	if !ok {
		f, ok = x.phAtRacking()
	}
	if says, _ := x.fruited(); !ok || says != "" {
		if says != "" {
			return silent
		}
		return unknown
	}
	return x.judged(f, phSour, phNotSour, fmt.Sprintf("its pH is %s", bare(f)))
}

func filledUnclean(x *exam) Sign {
	_, logged := x.lastCleaned(anything)
	if !logged {
		return unknown
	}
	sign := unknown
	for _, k := range x.from() {
		filled := x.Filled(k)
		switch {
		case !filled.Written():
			continue
		case !x.cleanedNear(filled, anything):
			return hints(For, fmt.Sprintf("no cleaning is noted within a day of filling %s", k.Called()), filled.Where)
		}
		sign = hints(Against, fmt.Sprintf("cleaning is noted on the day of filling %s, or the day before", k.Called()), filled.Where)
	}
	return sign
}

// oneContainer compares containers that were tasted. It only may: who did not say
// it of the other one was silent, and silence is no evidence.
func oneContainer(x *exam) Sign {
	if len(x.Containers()) < 2 {
		return silent
	}
	with, without := x.containersTasted()
	switch {
	case len(with)+len(without) < 2 || len(with) == 0:
		return unknown
	case len(without) > 0:
		return hints(For, fmt.Sprintf("it was found in %s, and not said of %s", with[0].Called(), without[0].Called()), x.found[0].Where)
	}
	return hints(Against, "it was found in every container that was tasted", x.found[0].Where)
}

// containersTasted are the containers in which the word was found, and those that
// were tasted without it, by the tastings that name one.
func (x *exam) containersTasted() (with, without []figures.Container) {
	for _, k := range x.Containers() {
		of := func(t journal.Tasting) bool { return t.Package.Written() && t.Package.N == k.Index }
		switch {
		case slices.ContainsFunc(x.found, of):
			with = append(with, k)
		case slices.ContainsFunc(x.others, of):
			without = append(without, k)
		}
	}
	return with, without
}

// lineOld is how long before the first glass with the word the line was cleaned.
func lineOld(x *exam) Sign {
	t, ok := x.first()
	switch {
	case x.bottled():
		return silent
	case !x.pumped() && !x.tapped() && !x.Gyle.Served.Through.Written():
		return needing("served.through")
	case !ok:
		return needing("tastings[].when")
	}
	var last journal.Deed
	for _, d := range x.deeds("cleaned") {
		if lineDeed(d) && !d.When.Time.After(endOf(t.When)) && (!last.Where.Written() || d.When.Time.After(last.When.Time)) {
			last = d
		}
	}
	if !last.Where.Written() {
		return unknown
	}
	days := max(0, daysApart(last.When.Middle(), t.When.Middle()))
	says := fmt.Sprintf("the line had been cleaned %s before that glass", wholeDays(days))
	if days < 1 {
		says = "the line had been cleaned on that day"
	}
	return x.judged(number(days, 0.5, "days", last.Where), lineWeek, lineWeek, says)
}

// throughLine compares glasses drawn through a line with those poured without.
func throughLine(x *exam) Sign {
	if x.bottled() {
		return tells(Against, "it was poured without a line", x.found[0].Where)
	}
	with, without := x.containersTasted()
	bottle := func(k figures.Container) bool { return k.Is("bottle") }
	switch {
	case slices.ContainsFunc(with, bottle):
		return tells(Against, "it was found in the bottles too, which no line touches", x.found[0].Where)
	case len(with) > 0 && slices.ContainsFunc(without, bottle):
		return hints(For, "it was found through the line, and not said of the bottles", x.found[0].Where)
	}
	return unknown
}

// airCauses are about oxygen, age and light.
func airCauses() []Cause {
	return []Cause{
		{
			ID: "oxygen", Name: "air got at it", Source: tasteFaults,
			Now: "Drink it soon, and keep it cold.", Next: "Move it less, closed, filled from the bottom, with little air above it.",
			Tests: []Test{
				{For: "racked open, stirred, opened or left with room for air, twice or more; once, it may", Against: "racked closed, and none of these", Weight: Measurement, Needs: "racked.moved", look: airedTimes},
			},
			Example: CauseExample{Word: "wet paper", In: "barrelled", Sets: []string{"racked.moved=open", "packages[0].purged=false", "done[+].did=stirred", "done[0].when=2026-03-11"}, Spare: []string{"racked.moved=closed", "packages[0].purged=true"}},
		},
		{
			ID: "age", Name: "it was old, or kept warm", Source: commonPractice + "; once broached, trade sources differ",
			Now: "Drink it up.", Next: "Fill smaller containers, keep them cool, and drink them fresher.",
			Tests: []Test{
				{For: "unopened for longer than its kind of container keeps", Against: "for less than half of that", Weight: Measurement, Needs: "racked.on", look: keptLong},
				{For: "open for longer than its kind of container keeps", Next: "Fill smaller containers, and finish one while it keeps.", Against: "for less than half of that", Weight: Measurement, Needs: "served.broached", look: openTooLong},
				{For: "stored at 18 °C or warmer", Against: "at 13 °C or cooler", Weight: Circumstance, Needs: "cellared.at", look: storedWarm},
			},
			Example: CauseExample{Word: "stale", Sets: []string{"tastings[0].when=2026-04-25", "cellared.at=20 C"}, On: "2026-04-26"},
		},
		{
			ID: "light-struck", Name: "light got at it", Source: tasteFaults,
			Now: "Drink the bottles that stood in the dark.", Next: "Use brown glass, a bag or a cask, and keep it out of the sun.",
			Tests: []Test{
				{For: "clear or green glass", Against: "brown glass, a bag, a cask, a barrel or a keg", Weight: Measurement, Needs: "packages[].vessel, with a card that says the colour of its glass", look: litGlass},
			},
			Example: CauseExample{Word: "skunky", In: "bottled", Sets: []string{"packages[0].vessel=clear bottle"}, Spare: []string{}},
		},
	}
}

// airedTimes counts as oxygen-count does, for containers that are empty by now
// too.
func airedTimes(x *exam) Sign {
	times, where := x.airingsEver()
	racked := x.Gyle.Racked.Moved
	switch {
	case len(times) >= 2:
		return tells(For, "air got at it: "+strings.Join(times, ", "), where)
	case len(times) == 1:
		return hints(For, "air got at it: "+times[0], where)
	case racked.Is("closed"):
		return tells(Against, "it was racked closed, and nothing else that lets air in is noted", racked.Where)
	}
	return unknown
}

func (x *exam) airingsEver() (times []string, where journal.Where) {
	tell := func(at journal.Where, what string) {
		if len(times) == 0 {
			where = at
		}
		times = append(times, what)
	}
	if racked := x.Gyle.Racked; racked.Moved.Is("open") {
		tell(racked.Moved.Where, "racked open")
	}
	for _, d := range x.deeds("stirred", "opened") {
		if x.slowedBy(d.When) {
			tell(d.Where, d.Did.Word+" on "+d.When.Time.Format("2 January"))
		}
	}
	for _, k := range x.from() {
		if x.partFilled(k) {
			tell(whereOf(k), "room for air in "+k.Called())
		}
	}
	return times, where
}

// openTooLong and keptLong look at the first tasting with the word.
func openTooLong(x *exam) Sign {
	days, k, ok := x.openFor()
	switch {
	case ok:
		keeps := figures.KeepingOf(k)
		days.PlusMinus = max(days.PlusMinus, keeps.BroachOff)
		return x.judged(days, keeps.Broached, keeps.Broached/2, fmt.Sprintf("%s had been open for %s; about %s is what its kind keeps", k.Called(), daysOpen(days.Value), q.Plain(keeps.Broached)))
	case x.bottled():
		return silent
	}
	return unknown
}

// daysOpen prints for how long a container was open.
func daysOpen(days float64) string {
	if days < 0.75 {
		return "less than a day"
	}
	return wholeDays(days)
}

func keptLong(x *exam) Sign {
	t, ok := x.first()
	if !ok {
		return needing("tastings[].when")
	}
	k, ok := x.containerOf(t)
	if !ok {
		return needing("tastings[].package")
	}
	filled := x.Filled(k)
	if !filled.Written() {
		return unknown
	}
	keeps := figures.KeepingOf(k)
	days := daysApart(filled.Middle(), t.When.Middle())
	if days < 0 {
		return unknown
	}
	return x.judged(number(days, keeps.KeepsOff, "days", filled.Where), keeps.Keeps, keeps.Keeps/2, fmt.Sprintf("it had been in %s for %s; about %s is what its kind keeps", k.Called(), wholeDays(days), q.Plain(keeps.Keeps)))
}

func storedWarm(x *exam) Sign {
	for _, k := range x.from() {
		kept := x.Cellared(k)
		heat := kept.Warmest
		if !heat.Written() {
			heat = kept.At
		}
		if f, ok := figures.AsRead(heat); ok {
			return x.judged(f, storeWarm, storeCool, fmt.Sprintf("it was kept at %s", measure(f)))
		}
	}
	return unknown
}

func litGlass(x *exam) Sign {
	for _, k := range x.from() {
		switch {
		case k.Vessel != nil && (k.Vessel.Glass.Is("clear") || k.Vessel.Glass.Is("green")):
			return tells(For, fmt.Sprintf("%s is of %s glass", k.Called(), k.Vessel.Glass.Word), whereOf(k))
		case k.Vessel != nil && k.Vessel.Glass.Is("brown"):
			return tells(Against, fmt.Sprintf("%s is of brown glass", k.Called()), whereOf(k))
		case k.Vessel != nil && !k.Is("bottle") && !k.Is("other"):
			return tells(Against, fmt.Sprintf("no light comes into %s", k.Called()), whereOf(k))
		}
	}
	return unknown
}

// servingCauses are about the glass itself.
func servingCauses() []Cause {
	return []Cause{
		{
			ID: "serving", Name: "it was served too cold or too warm", Source: barChecklist,
			Now: "Bring it to 11 to 13 °C and taste it again.", Next: "Note the heat in the glass with each tasting.",
			Tests: []Test{
				{For: "the glass under 9 or over 15 °C", Against: "found at 11 to 13 °C too", Weight: Measurement, Needs: "tastings[].at", look: servedWrong},
			},
			Example: CauseExample{Word: "dull", Sets: []string{"tastings[0].at=18 C"}, Spare: []string{"tastings[0].at=12 C"}},
		},
	}
}

// servedWrong looks at all glasses with the word: one that was served right is
// enough to speak against the serving.
func servedWrong(x *exam) Sign {
	sign := unknown
	for _, t := range x.found {
		f, ok := figures.AsRead(x.heatOf(t))
		if !ok {
			continue
		}
		says := fmt.Sprintf("the glass was at %s", measure(f))
		cold := x.judged(f, serveTooCold, serveRightLow, says)
		warm := x.judged(f, serveTooWarm, serveRightHigh, says)
		switch {
		case cold.Voice == Against && warm.Voice == Against:
			warm.May = cold.May || warm.May
			return warm
		case cold.Voice == For:
			sign = cold
		case warm.Voice == For:
			sign = warm
		case sign.Voice == Unknown:
			sign = silent
		}
	}
	return sign
}
