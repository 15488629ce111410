package causes

import (
	"testing"

	"gylebook/internal/assay/healthy"
)

// BenchmarkDiagnose is one gyle's tastings, three words of them, into causes. Its
// floor is BenchmarkHear, which only gathers the words.
func BenchmarkDiagnose(b *testing.B) {
	s := healthy.Sheet(b, "pouring", "2026-03-28", "tastings[0].found[+]=thin", "tastings[0].found[+]=hazy", "tastings[0].found[+]=sour")
	for b.Loop() {
		if got := Diagnose(s, Hear(s.Gyle)); len(got) != 3 {
			b.Fatalf("%d diagnoses", len(got))
		}
	}
}

// BenchmarkHear gathers the same words.
func BenchmarkHear(b *testing.B) {
	s := healthy.Sheet(b, "pouring", "2026-03-28", "tastings[0].found[+]=thin", "tastings[0].found[+]=hazy", "tastings[0].found[+]=sour")
	for b.Loop() {
		if got := Hear(s.Gyle); len(got.Sayings) != 3 {
			b.Fatalf("%d words", len(got.Sayings))
		}
	}
}
