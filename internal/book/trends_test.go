package book

import (
	"gylebook/internal/figures"
	"math"
	"testing"
)

func TestTrends(t *testing.T) {
	files := brewedOften(4)
	files["gyles/9.md"] = "gyle: 9\nbeer: Slip\nbrewed: 2026-01-01\naim: {og: 1045}\nyeast: {yeast: other ale, pitched: 2026-01-01}\nfermenter: {volume: 20 L, gravity: 1.040}"
	b := open(t, files)
	tr := b.Trends()
	for name, s := range map[string]Series{"brewhouse yield": tr.BrewhouseYield, "mash yield": tr.MashYield} {
		if len(s.Points) != 4 || s.Learned.Gyles != 4 || s.Unit != "%" {
			t.Errorf("%s: %d points, %+v", name, len(s.Points), s.Learned)
		}
		for i, p := range s.Points {
			f, _ := p.Gyle.Sheet.Find(s.ID, "")
			if p.Value != f.Value || p.PlusMinus != f.PlusMinus || p.Gyle.Number.N != i+1 {
				t.Errorf("%s: point %d is %+v", name, i, p)
			}
		}
	}
	if len(tr.Attenuation) != 1 || tr.Attenuation[0].Subject != b.Subject("yeast", "nobodys ale") || len(tr.Attenuation[0].Points) != 4 {
		t.Errorf("attenuation: %+v", tr.Attenuation)
	}
	for i, s := range tr.Losses {
		if i < len(lossSteps) && s.Of != lossSteps[i] || len(s.Points) != 4 {
			t.Errorf("losses %d: %s with %d points", i, s.Of, len(s.Points))
		}
	}
	ids := map[figures.ID]bool{}
	for _, s := range tr.Aims {
		ids[s.ID] = true
		for _, p := range s.Points {
			if math.Abs(p.Value-(p.Got-p.Aim)) > 1e-12 || p.Gyle.Number.N == 9 {
				t.Errorf("%s: %+v is not got less aim of a gyle with an aim that can be", s.ID, p)
			}
		}
	}
	for _, a := range aims() {
		if !ids[a.id] {
			t.Errorf("no series for the aim of %s", a.id)
		}
	}
}
