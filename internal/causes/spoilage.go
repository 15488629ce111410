package causes

import (
	"fmt"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// spoilageCauses are about what else lives in beer, or in the way to the glass.
func spoilageCauses() []Cause {
	return []Cause{
		{
			ID: "spoilage", Name: "something else grows in it", Source: tasteFault,
			Now:  "Let it go if it is unpleasant, and scald whatever it stood in.",
			Next: "Clean and rinse on the day, and replace taps and hoses.",
			Tests: []Test{
				{For: "pH fallen by %s or more since it was racked", Against: "steady within %s", Weight: Measurement,
					Needs: "readings[].ph, at racking and now", of: phFallen, pro: phFell, con: phSteady},
				fellSealed(Measurement),
				{For: "a note of a film or of ropes", Weight: Measurement,
					look: noteOf(silent, "film", "pellicle", "ropy", "ropes", "skin")},
				{For: "sour and at pH %s or under, with no fruit in it", Against: "at pH %s or above", Weight: Measurement,
					Needs: "readings[].ph", of: phIsSour, pro: phSour, con: phNotSour},
				{For: "no cleaning noted within a day of filling, where others are noted; it may",
					Against: "cleaned within a day of filling; it may", Weight: Circumstance, Needs: "done[].did cleaned", look: filledUnclean},
				{For: "found in one container and not in another", Against: "found in all that were tasted", Weight: Circumstance,
					Needs: "tastings[].package", look: oneContainer},
			},
		},
		{
			ID: "dirty-line", Name: "the line, the tap or the glass was not clean", Source: assay.BarChecklist + "; " + tasteFault,
			Now:  "Clean the line and take a fresh glass; compare it with one drawn straight from the container.",
			Next: "Clean the line within a week of each session, and clean both ends.",
			Tests: []Test{
				{For: say("the line last cleaned over %s before the glass", assay.LinesEvery), Against: say("within %s", assay.LinesEvery),
					Weight: Measurement, Needs: "done[].did cleaned, what line", look: lineOld},
				{For: "found through the pump, and not in what was poured", Against: "found in what was poured without a line",
					Weight: Measurement, Needs: "tastings[].through, of a glass without the line", look: throughLine},
			},
		},
	}
}

// phFallen compares the pH at racking with the last one read since.
func phFallen(x *exam) reading {
	was, ok := x.PhAtRacking()
	now, later := x.phSince()
	if !ok || !later {
		return without(unknown)
	}
	// One meter: what it is off by is in both, and half of the doubt of each is
	// left (common practice, no source).
	says := fmt.Sprintf("its pH is %s, and was %s when it was racked", assay.Bare(now), assay.Bare(was))
	now.Value = was.Value - now.Value
	return reading{Figure: now, says: says}
}

// phSince is the last pH read after racking of what the word was found in, or of
// the whole.
func (x *exam) phSince() (last figures.Figure, ok bool) {
	at := x.rackedAt()
	if !at.Written() {
		return last, false
	}
	for _, r := range x.Gyle.Readings {
		f, read := figures.AsRead(r.PH)
		if !read || !r.When.Written() || !x.Come(r.When) || !r.When.Time.After(assay.EndOf(at)) {
			continue
		}
		of := func(k figures.Container) bool { return k.Index == r.Package.N }
		if !r.Package.Written() || slices.ContainsFunc(x.from(), of) {
			last, ok = f, true
		}
	}
	return last, ok
}

// phIsSour asks whether the beer's own pH is that of a sour beer; fruit brings
// such a pH by itself.
func phIsSour(x *exam) reading {
	if fruit, _ := x.fruited(); fruit != "" || !x.says("sour", "vinegary") {
		return without(silent)
	}
	f, ok := x.phSince()
	if !ok {
		f, ok = x.PhAtRacking()
	}
	return x.measured(f, ok, "its pH is %s")
}

func filledUnclean(x *exam) Sign {
	if _, logged := x.LastCleaned(assay.AnyDeed); !logged {
		return unknown
	}
	sign := unknown
	for _, k := range x.from() {
		filled := x.Filled(k)
		switch {
		case !filled.Written():
			continue
		case !x.CleanedNear(filled, assay.AnyDeed):
			return hints(For, fmt.Sprintf("no cleaning is noted within a day of filling %s", x.called(k)), filled.Where)
		}
		sign = hints(Against, fmt.Sprintf("cleaning is noted on the day of filling %s, or the day before", x.called(k)), filled.Where)
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
		says := fmt.Sprintf("it was found in %s, and not said of %s", x.called(with[0]), x.called(without[0]))
		return hints(For, says, x.found[0].Where)
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
