package book

import (
	"math"
	"slices"

	"gylebook/internal/causes"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/proposals"
)

// Document is all that a gyle's readings say, in the published form: what
// figures --json prints and figures.json holds.
type Document struct {
	figures.Document
	Diagnosis  []diagnosisJSON  `json:"diagnosis"`
	NextTime   []proposalJSON   `json:"next_time"`
	Unproposed []unproposedJSON `json:"unproposed"`
}

type diagnosisJSON struct {
	Word    string      `json:"word"`
	As      []string    `json:"as,omitempty"` // how tasters put it, where otherwise
	Tasters int         `json:"tasters"`      // how many said so
	Of      int         `json:"of"`           // how many tasted
	Ask     string      `json:"ask,omitempty"`
	Remarks []string    `json:"remarks,omitempty"`
	Causes  []causeJSON `json:"causes"`
}

type causeJSON struct {
	ID       string     `json:"id"`
	Name     string     `json:"name"`
	Standing string     `json:"standing"` // likely, possible, open or unlikely
	Weight   float64    `json:"weight"`   // what speaks for it less what speaks against
	Signs    []signJSON `json:"signs"`
	Now      string     `json:"now,omitempty"`
	Next     string     `json:"next"`
	Source   string     `json:"source"`
}

type signJSON struct {
	Voice  string  `json:"voice"`         // for, against, neither or unknown
	May    bool    `json:"may,omitempty"` // within its own doubt of the limit
	Weight float64 `json:"weight,omitempty"`
	Says   string  `json:"says,omitempty"`
	File   string  `json:"file,omitempty"`
	Line   int     `json:"line,omitempty"`
	Needs  string  `json:"needs,omitempty"` // the key whose reading would tell
}

type proposalJSON struct {
	Figure figures.ID  `json:"figure"`
	Of     string      `json:"of,omitempty"`
	Gap    string      `json:"gap"`
	Cause  string      `json:"cause"`
	Change string      `json:"change"`
	Sets   []setJSON   `json:"sets"`
	Expect expectJSON  `json:"expect"`
	Short  string      `json:"short,omitempty"`
	Know   string      `json:"know"`
	Source string      `json:"source"`
	From   []placeJSON `json:"from"`
}

// setJSON is one value of an entry as figures --set takes it.
type setJSON struct {
	Key   string `json:"key"`
	Value string `json:"value"`
}

type expectJSON struct {
	Value     float64  `json:"value"`
	PlusMinus *float64 `json:"plus_minus"`
	Unit      string   `json:"unit"`
}

type placeJSON struct {
	Key  string `json:"key"`
	File string `json:"file,omitempty"`
	Line int    `json:"line"`
}

type unproposedJSON struct {
	Figure figures.ID `json:"figure"`
	Why    string     `json:"why"`
}

// Publish is the document of a gyle with the notices of it. What quotes a brewer or
// a taster goes through hush, which takes out what is private.
func Publish(s *figures.Sheet, notices []notice.Notice, hush func(string) string) Document {
	out := Document{
		Document:  figures.DocumentOf(s, notices),
		Diagnosis: []diagnosisJSON{}, NextTime: []proposalJSON{}, Unproposed: []unproposedJSON{},
	}
	heard := causes.Hear(s.Gyle)
	for _, d := range causes.Diagnose(s, heard) {
		out.Diagnosis = append(out.Diagnosis, diagnosisOf(d, heard.Tasters, s.Gyle.File, hush))
	}
	proposals, unproposed := proposals.Appraise(s)
	for _, p := range proposals {
		out.NextTime = append(out.NextTime, proposalOf(p, s.Gyle.File))
	}
	for _, u := range unproposed {
		out.Unproposed = append(out.Unproposed, unproposedJSON(u))
	}
	return out
}

func diagnosisOf(d causes.Diagnosis, of int, file string, hush func(string) string) diagnosisJSON {
	out := diagnosisJSON{
		Word: hush(d.Word), Tasters: d.Tasters, Of: of, Ask: d.Ask, Remarks: d.Remarks,
		Causes: make([]causeJSON, 0, len(d.Suspects)),
	}
	for _, spelt := range d.Spelt {
		out.As = append(out.As, hush(spelt))
	}
	for _, s := range d.Suspects {
		cause := causeJSON{
			ID: s.ID, Name: s.Name, Standing: s.Standing().String(), Weight: s.Weight,
			Now: s.Now, Next: s.Advice(), Source: s.Source, Signs: make([]signJSON, 0, len(s.Signs)),
		}
		for _, sign := range s.Signs {
			one := signJSON{
				Voice: sign.Voice.String(), May: sign.May, Weight: sign.Weight, Says: hush(sign.Says),
				Needs: sign.Needs, Line: sign.Where.Line,
			}
			if sign.Where.File != file {
				one.File = sign.Where.File
			}
			cause.Signs = append(cause.Signs, one)
		}
		out.Causes = append(out.Causes, cause)
	}
	return out
}

func proposalOf(p proposals.Proposal, file string) proposalJSON {
	out := proposalJSON{
		Figure: p.Figure, Of: p.Of, Gap: p.Gap, Cause: p.Cause, Change: p.Change,
		Short: p.Short, Know: p.Know, Source: p.Source,
		Expect: expectJSON{Value: p.Expect.Value, Unit: p.Expect.Unit}, Sets: make([]setJSON, 0, len(p.Sets)),
		From: make([]placeJSON, 0, len(p.From)),
	}
	if p.Expect.HasPlusMinus() && !math.IsInf(p.Expect.PlusMinus, 0) {
		out.Expect.PlusMinus = &p.Expect.PlusMinus
	}
	for _, set := range p.Sets {
		out.Sets = append(out.Sets, setJSON(set))
	}
	for _, w := range slices.DeleteFunc(slices.Clone(p.From), func(w journal.Where) bool { return !w.Written() }) {
		place := placeJSON{Key: w.Key, Line: w.Line}
		if w.File != file {
			place.File = w.File
		}
		out.From = append(out.From, place)
	}
	return out
}
