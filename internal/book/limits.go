package book

import (
	"gylebook/internal/assay"
	"gylebook/internal/causes"
	"gylebook/internal/planning"
	"gylebook/internal/proposals"
	"gylebook/internal/rules"
)

// LimitGroup are the limits that one kind of judgement holds against.
type LimitGroup struct {
	Title  string
	Limits []*assay.Limit
}

// Limits are all limits, by what holds against them.
func Limits() []LimitGroup {
	return []LimitGroup{
		{"several of these", assay.Shared()},
		{"warnings", rules.Limits()},
		{"causes of what is tasted", causes.Limits()},
		{"changes for the next gyle", proposals.Limits()},
		{"the way to a party", planning.Limits()},
	}
}
