package quantity

import (
	"testing"
	"time"
)

// TestSpan: a length of time as Go counts it, bounded where Go's own would overflow.
func TestSpan(t *testing.T) {
	for d, want := range map[Duration]time.Duration{
		0: 0, Minute: time.Minute, 90 * Minute: 90 * time.Minute, 2 * Day: 48 * time.Hour,
		-Hour: -time.Hour, Minute / 60: time.Second, 1e12: 100 * 366 * 24 * time.Hour,
		-1e12: -100 * 366 * 24 * time.Hour,
	} {
		if got := d.Span(); got != want {
			t.Errorf("%g minutes: %s, want %s", float64(d), got, want)
		}
	}
}
