package live

import (
	"strings"
	"testing"
)

// TestALimitOfTheSettingsAtASave: a limit that is set, changed and taken away again
// reworks the warnings of a gyle that was not touched.
func TestALimitOfTheSettingsAtASave(t *testing.T) {
	const mash = "---\ngyle: 1\nbeer: An Ale\nbrewed: 2026-03-07\nmash: {liquor: 9 L, rests: [{at: 71 C, for: 60 min}]}\n---\nWords.\n"
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": mash})
	for _, save := range []struct{ limits, says string }{
		{"", "62 to 70 °C is right."},
		{"limits: {mash_heat: 60 to 72 C}\n", ""},
		{"limits: {mash_heat: 62 to 68 C}\n", "62 to 68 °C is right by your settings."},
		{"", "62 to 70 °C is right."},
	} {
		s.write("index.md", strings.Replace(settings, "---\nWelcome", save.limits+"---\nWelcome", 1))
		s.eventually("the page goes by "+save.limits, func() bool {
			_, body := s.get("gyles/1/")
			if save.says == "" {
				return strings.Contains(body, "An Ale") && !strings.Contains(body, "too hot")
			}
			return strings.Contains(body, "too hot") && strings.Contains(body, save.says)
		})
	}
}
