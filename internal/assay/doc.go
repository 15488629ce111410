// Package assay holds one gyle's figures to limits and puts what comes of it into
// words: what rules, causes, proposals and timetables all need to ask.
//
// A Case is a worked sheet together with the units that are spoken in and the habits
// that are in force. From it come the containers a finding may be about (Live: filled
// and not yet empty), the deeds done so far (Deeds), the course of the fermentation
// (HeatReadings), the targets of aim and style, and what there is to pour.
//
// Over, Under and Outside compare a figure with a limit and answer with a Certainty:
// what lies within the figure's ± says "may" and not "will".
//
// What is said is written in the units of the journal's settings (units.go), and no
// test depends on them. Constant sentences have their quantities in braces, as
// quantity.Spelling.Text reads them; a figure goes through Case.Measure. A limit that
// must not be passed is never rounded upward by that, nor a pressure downward. What
// was typed is quoted as it was typed.
//
// Habits are the limits of habit and taste, which the settings may move (habits.go);
// what keeps people safe they cannot. The entry goes before a card, a card before the
// settings, and these before the trade's.
package assay
