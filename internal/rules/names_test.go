package rules

import (
	"io/fs"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// TestNoNameHidesABurst: far too much sugar is a danger in a vessel of whatever
// name, whether or not its fill is noted, and of whatever sugar.
func TestNoNameHidesABurst(t *testing.T) {
	for _, vessel := range []string{
		"bottle 500 mL", "500 mL bottle", "bottles 500 mL", "bottle 500", "pint bottle", "2 L PET bottle", "plastic bottle 2 L", "swing top bottle 500 mL",
		"champagne bottle 750 mL", "bottle", "corny keg 19 L", "mini keg 5 L", "keg", "barrel 25 L", "barrel", "pressure barrel", "flagon 1 L", "old jug", "the blue thing", "demijohn", "oak barrel 20 L",
	} {
		for _, sugar := range []string{"sucrose", "sugar", "carbonation drops", "sherbet", "grandmother's fondant"} {
			for _, priming := range []string{"packages[0].priming.weight=700 g", "priming.weight=700 g"} {
				sets := []string{"priming=", "packages[0].count=1", "packages[0].vessel=" + vessel, priming, strings.Replace(priming[:strings.Index(priming, "=")], "weight", "sugar", 1) + "=" + sugar}
				all := examined(t, "bottled", "", sets...)
				if healthy.Gravest(all) < notice.Danger {
					t.Errorf("%q with %s by %s: no danger", vessel, sugar, priming)
				}
			}
		}
	}
}

// TestSugarAloneIsEnough: where the beer's own gas is not known, that of the sugar
// is, and there is no less.
func TestSugarAloneIsEnough(t *testing.T) {
	cold := []string{"readings[0].gravity=", "readings[1].gravity=", "readings[2].gravity="}
	for weight, want := range map[string]notice.Severity{"300 g": notice.Danger, "210 g": notice.Mend, "80 g": -1} {
		found := healthy.WithID(examined(t, "bottled", "", append(cold, "priming.weight="+weight)...), "bottle-limit")
		if healthy.Gravest(found) != want || len(found) > 0 && !strings.Contains(found[0].Says, "from its sugar alone") {
			t.Errorf("%s: %v", weight, found)
		}
	}
}

// TestASharedPackageIsNotSilent: of two lines without a fill, what was racked is
// shared out, and the warning stands.
func TestASharedPackageIsNotSilent(t *testing.T) {
	all := examined(t, "bottled", "", "priming=", "packages[0].vessel=old jug", "packages[0].count=20", "packages[0].priming.weight=400 g", "packages[+].vessel=swing top", "packages[1].count=20")
	if len(healthy.WithID(all, "bottle-limit"))+len(healthy.WithID(all, "rating-unknown")) == 0 || healthy.Gravest(all) < notice.Danger {
		t.Errorf("%v", all)
	}
}

// raw is the findings of an entry as typed, errors and all.
func raw(t *testing.T, entry string, replace ...string) []notice.Notice {
	t.Helper()
	text, err := fs.ReadFile(healthy.Entries, entry+".md")
	if err != nil {
		t.Fatal(err)
	}
	j := healthy.Journal()
	d := journal.ReadFile(entry+".md", []byte(strings.NewReplacer(replace...).Replace(string(text))), j.Settings)
	if len(d.Errors) == 0 {
		t.Errorf("%q: everything could be read", replace)
	}
	return Examine(figures.Work(d.Gyle, figures.Context{Larder: j.Larder, Settings: j.Settings, Now: healthy.Clock(t, "2026-03-12 12:00")}))
}

// TestWhatCannotBeReadIsNotMissing: the danger stays, and its words lead to the
// line.
func TestWhatCannotBeReadIsNotMissing(t *testing.T) {
	all := raw(t, "bottled", "gravity: 1.010", "gravity: 1,010")
	unfinished := healthy.WithID(all, "not-finished")
	if len(unfinished) != 1 || unfinished[0].Severity != notice.Danger {
		t.Fatalf("%v", unfinished)
	}
	if n := unfinished[0]; n.Says != "It is not shown to have finished: readings[1].gravity could not be read." || !strings.HasPrefix(n.Do, "Put line 17 right first") {
		t.Errorf("%s\n%s", n.Says, n.Do)
	}
	for _, n := range healthy.WithID(raw(t, "bottled", "volume: 20 L", "volume: 4 gal"), "reading-missing") {
		if n.Says != "racked.volume is written, and could not be read." || n.Place.Line != 19 {
			t.Errorf("%s", n)
		}
	}
	gas := healthy.WithID(raw(t, "bottled", "weight: 80 g", "weight: three ounces"), "gas-unknown")
	if len(gas) != 1 || !strings.Contains(gas[0].Says, "priming.weight could not be read") || gas[0].Place.Line != 20 {
		t.Errorf("%v", gas)
	}
	for _, n := range healthy.WithID(raw(t, "bottled", "priming: {sugar: sucrose, weight: 80 g}", "priming: {sugar: carbonation drops, each: 4}"), "gas-unknown") {
		if !strings.Contains(n.Says, "priming.each could not be read") {
			t.Errorf("%s", n)
		}
	}
	if vessel := healthy.WithID(raw(t, "bottled", "vessel: bottle 500 mL", "vessel: bottle 0,5 L"), "vessel-unknown"); len(vessel) != 1 || !strings.HasPrefix(vessel[0].Says, "The vessel could not be read") {
		t.Errorf("%v", vessel)
	}
}

// TestUnknownNamesAreOneNote lists them together, and says what is lost.
func TestUnknownNamesAreOneNote(t *testing.T) {
	all := healthy.WithID(examined(t, "bottled", "", "style=bittr", "grist[1].malt=crystal 90", "yeast[0].yeast=uncle's crock", "hops[0].hop=unheard of", "grist[+].malt=x1", "grist[+].malt=x2", "grist[+].malt=x3", "grist[+].malt=x4"), "names-unknown")
	if len(all) != 1 {
		t.Fatalf("%d notes", len(all))
	}
	n := all[0]
	for _, part := range []string{"style “bittr” (bitter?)", "malt “crystal 90”,", "and 2 more"} {
		if !strings.Contains(n.Says, part) {
			t.Errorf("%q lacks %q", n.Says, part)
		}
	}
	if strings.Contains(n.Says, "unheard of") || !strings.Contains(n.Why, "what is customary in its style") {
		t.Errorf("%s\n%s", n.Says, n.Why)
	}
}

// TestNoAleRuleForOthers: a yeast that is no ale's is not told an ale's heat.
func TestNoAleRuleForOthers(t *testing.T) {
	for _, name := range []string{"lactobacillus plantarum", "farmhouse blend", "some lager", "brettanomyces", "house brett 3"} {
		for _, at := range []string{"35 C", "10 C"} {
			all := examined(t, "working", "2026-03-02", "yeast[0].yeast="+name, "yeast[0].at="+at, "readings[0].temp="+at)
			for _, id := range []string{"pitched-warm", "pitched-cold", "too-hot"} {
				if found := healthy.WithID(all, id); len(found) > 0 {
					t.Errorf("%s at %s: %s", name, at, found[0].Says)
				}
			}
		}
	}
	found := healthy.WithID(examined(t, "working", "2026-03-02", "yeast[0].yeast=uncle's crock", "yeast[0].at=28 C"), "pitched-warm")
	if len(found) != 1 || !strings.Contains(found[0].Says, "no card knows it") {
		t.Errorf("%v", found)
	}
}

// TestContainersAreToldApart: two that are called the same have their number,
// and an article is said once.
func TestContainersAreToldApart(t *testing.T) {
	found := healthy.WithID(examined(t, "casked", "2026-03-12", "packages[+].vessel=pin", "packages[1].fill=9 L", "packages[0].vessel=pin", "packages[0].fill=9 L",
		"hops[+].hop=goldings", "hops[1].weight=20 g", "hops[1].dry=3 days", "hops[1].when=2026-03-09"), "hop-creep")
	if len(found) != 1 || !strings.Contains(found[0].Says, "(package 0)") || !strings.Contains(found[0].Says, "(package 1)") {
		t.Errorf("%v", found)
	}
	for _, n := range examined(t, "bottled", "", "packages[0].vessel=the old barrel", "packages[0].count=1", "priming.weight=200 g") {
		if strings.Contains(strings.ToLower(n.Says), "the the") {
			t.Errorf("%s", n.Says)
		}
	}
}
