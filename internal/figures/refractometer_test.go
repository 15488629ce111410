package figures

import (
	"math"
	"testing"
)

// TestOnlyARefractometer: where nothing but Brix was read, the last of the
// readings is the final gravity, not the first.
func TestOnlyARefractometer(t *testing.T) {
	s := works(t, []byte(`---
gyle: 1
beer: By refractometer
brewed: 2026-03-07
yeast: [{yeast: any, pitched: 2026-03-07 14:00}]
fermenter: {volume: 20 L, gravity: 1.046, sample_at: 20 C}
readings:
  - {when: 2026-03-09 08:00, brix: 9.0, temp: 20 C}
  - {when: 2026-03-12 08:00, brix: 5.8, temp: 20 C}
  - {when: 2026-03-14 08:00, brix: 5.8, temp: 20 C}
  - {when: 2026-03-16 08:00, brix: 5.8, temp: 20 C}
racked: {on: 2026-03-16, volume: 19 L, temp: 18 C}
---
`))
	fg, ok := s.Find("fg", "")
	now, _ := s.Find("gravity-now", "")
	if !ok || math.Abs(fg.Value-now.Value) > 1e-9 || fg.Value > 1.015 {
		t.Errorf("the final gravity is %.4f, the last reading %.4f", fg.Value, now.Value)
	}
	if !s.Stability().Stable {
		t.Error("three equal readings over four days do not stand still")
	}
}

// TestAHydrometerOutranksARefractometer: a later Brix does not take the place of
// a hydrometer's reading.
func TestAHydrometerOutranksARefractometer(t *testing.T) {
	s := works(t, []byte(`---
gyle: 1
beer: By both
brewed: 2026-03-07
yeast: [{yeast: any, pitched: 2026-03-07 14:00}]
fermenter: {volume: 20 L, gravity: 1.046, sample_at: 20 C}
readings:
  - {when: 2026-03-09 08:00, brix: 9.0, temp: 20 C}
  - {when: 2026-03-12 08:00, gravity: 1.012, sample_at: 20 C}
  - {when: 2026-03-14 08:00, brix: 5.0, temp: 20 C}
---
`))
	if fg, ok := s.Find("fg", ""); !ok || math.Abs(fg.Value-1.012) > 0.0003 {
		t.Errorf("the final gravity is %.4f, want the hydrometer's 1.012", fg.Value)
	}
}
