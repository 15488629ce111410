package notice

import "fmt"

// FaultID is the id of a fault of gylebook's own, found while it worked on something of
// the journal.
const FaultID = "gylebook-fault"

// Fault is the notice of a fault of ours (thrown is what was recovered) at doing something
// with the file of a place: it takes away that one thing and nothing else.
func Fault(place Place, doing string, thrown any) Notice {
	return Notice{
		Place: place, Severity: Unreadable, ID: FaultID,
		Says: fmt.Sprintf("gylebook failed at %s: %v.", doing, thrown),
		Why: "What it would have said about this is missing until that is mended; " +
			"nothing else is touched by it.",
		Do:     "Report it with a copy of the file: it is a fault of gylebook, not of the file.",
		Source: "gylebook's own check",
	}
}
