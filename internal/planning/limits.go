package planning

import "gylebook/internal/assay"

var limits assay.Limits

// Limits are the limits of this room. The days between the steps of a timetable stand
// with its steps.
func Limits() []*assay.Limit { return limits.All() }

var (
	strongFrom = limits.Add("strong-from", 1.060, "SG", "original gravity from which a beer wants a fortnight more",
		assay.CommonPractice)
	laterLow = limits.Add("party-later-low", 0.5, "UK pints", "the least that a guest drinks in each hour after the first",
		assay.PartyPages)
	laterHigh = limits.Add("party-later-high", 0.75, "UK pints", "the most that a guest drinks in each hour after the first",
		assay.PartyPages)
)
