package figures

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"time"

	"gylebook/internal/notice"
)

// JSON is a document of figures in the published form. The same sheet gives the
// same bytes.
func JSON(s *Sheet, notices []notice.Notice) ([]byte, error) {
	return Encode(DocumentOf(s, notices))
}

// Encode writes a document, or what holds one and more, as it is published: indented,
// one value a line. No text in it is a tag, for whoever lets it stand in a page.
func Encode[D any](document D) ([]byte, error) {
	var buffer bytes.Buffer
	encoder := json.NewEncoder(&buffer)
	encoder.SetIndent("", " ")
	if err := encoder.Encode(document); err != nil {
		return nil, fmt.Errorf("writing the figures: %w", err)
	}
	return buffer.Bytes(), nil
}

// Document is a gyle's figures and notices in the published form. Values are
// unrounded numbers in the unit beside them, dates RFC 3339; plus_minus is U = 2u,
// null where none makes sense; upper
// is the bound that 97.5 in 100 lie under with all that is left open at its worst, null
// for figures without one; lower is that of a margin or a slack, which they lie above.
type Document struct {
	Gyle     int           `json:"gyle"`
	Beer     string        `json:"beer"`
	File     string        `json:"file"`
	Stage    string        `json:"stage"`
	Figures  []figureJSON  `json:"figures"`
	Findings []NoticeJSON  `json:"findings"`
	Missing  []missingJSON `json:"missing"`
}

// DocumentOf is the document of a sheet.
func DocumentOf(s *Sheet, notices []notice.Notice) Document {
	g := s.Gyle
	out := Document{
		Gyle: g.Number.N, Beer: g.Beer.Text, File: g.File, Stage: s.Stage.String(),
		Figures: make([]figureJSON, 0, len(s.Figures)), Findings: NoticesJSON(notices, g.File),
		Missing: make([]missingJSON, 0, len(s.Missing)),
	}
	for _, f := range s.Figures {
		out.Figures = append(out.Figures, figureOut(f, g.File))
	}
	for _, m := range s.Missing {
		needs := m.Needs
		if needs == nil {
			needs = []string{}
		}
		out.Missing = append(out.Missing, missingJSON{Figure: m.Figure, Of: m.Of, Needs: needs, Because: m.Because})
	}
	return out
}

type figureJSON struct {
	ID          ID         `json:"id"`
	Of          string     `json:"of"`
	Label       string     `json:"label"`
	Value       any        `json:"value"` // a number, or a date as text
	PlusMinus   *float64   `json:"plus_minus"`
	Upper       *float64   `json:"upper"`
	Lower       *float64   `json:"lower,omitempty"`
	Unit        string     `json:"unit"`
	Provisional bool       `json:"provisional"`
	Note        string     `json:"note,omitempty"`
	Working     string     `json:"working"`
	Source      string     `json:"source"`
	From        []fromJSON `json:"from"`
}

type fromJSON struct {
	Key  string `json:"key"`
	File string `json:"file,omitempty"`
	Line int    `json:"line"`
}

type missingJSON struct {
	Figure  ID       `json:"figure"`
	Of      string   `json:"of,omitempty"`
	Needs   []string `json:"needs"`
	Because string   `json:"because,omitempty"`
}

func figureOut(f Figure, file string) figureJSON {
	out := figureJSON{
		ID: f.ID, Of: f.Of, Label: f.Label, Value: f.Value, Unit: f.Unit, Provisional: f.Provisional, Note: f.Note,
		Working: f.Working(), Source: f.Source, From: []fromJSON{},
	}
	if f.Unit == dateUnit {
		out.Value = f.Date.Format(time.RFC3339)
	}
	if f.HasPlusMinus() && !math.IsInf(f.PlusMinus, 0) {
		out.PlusMinus = &f.PlusMinus
	}
	if f.HasUpper() && !math.IsInf(f.Upper, 0) {
		out.Upper = &f.Upper
	}
	if f.HasLower() && !math.IsInf(f.Lower, 0) {
		out.Lower = &f.Lower
	}
	for _, w := range f.From() {
		from := fromJSON{Key: w.Key, Line: w.Line}
		if w.File != file {
			from.File = w.File
		}
		out.From = append(out.From, from)
	}
	return out
}

// NoticeJSON is a notice in the published form.
type NoticeJSON struct {
	ID       string          `json:"id"`
	Of       string          `json:"of,omitempty"`
	Also     []string        `json:"also,omitempty"`
	Severity notice.Severity `json:"severity"`
	File     string          `json:"file,omitempty"`
	Line     int             `json:"line"`
	Column   int             `json:"column,omitempty"`
	Says     string          `json:"says"`
	Why      string          `json:"why"`
	Do       string          `json:"do"`
	Source   string          `json:"source"`
	Accepted string          `json:"accepted,omitempty"`
}

// NoticesJSON is notices in the published form, the file left out where it is
// the given one; an empty name gives every file.
func NoticesJSON(notices []notice.Notice, file string) []NoticeJSON {
	out := make([]NoticeJSON, 0, len(notices))
	for _, n := range notices {
		j := NoticeJSON{
			ID: n.ID, Of: n.Of, Also: strings.Fields(n.Also), Severity: n.Severity, File: n.Place.File, Line: n.Place.Line, Column: n.Place.Column,
			Says: n.Says, Why: n.Why, Do: n.Do, Source: n.Source, Accepted: n.Accepted,
		}
		if j.File == file {
			j.File = ""
		}
		out = append(out, j)
	}
	return out
}
