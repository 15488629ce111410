package figures

import "strings"

// called is what brewers call a figure that has another id here.
var called = map[string]ID{
	"ibu": "bitterness", "ibus": "bitterness", "ebu": "bitterness", "bitter": "bitterness",
	"ebc": "colour", "srm": "colour", "color": "colour", "lovibond": "colour",
	"alcohol": "abv", "strength": "abv", "duty": "abv-duty",
	"attenuation": IDApparentAttenuation, "aa": IDApparentAttenuation,
	"efficiency": "brewhouse-yield", "yield": "brewhouse-yield", "mash-efficiency": "mash-yield",
	"carbonation": "condition", "co2": "condition", "volumes": "condition", "fizz": "condition",
	"pressure": IDPressureWarmest, "calories": "energy", "kcal": "energy", "kj": "energy",
	"original-gravity": "og", "final-gravity": "fg", "gravity": "og",
	"evaporation": "boil-off", "boiloff": "boil-off", "sugar": IDPrimingSugar, "priming": IDPrimingSugar,
	"strike": IDStrikeTemperature, "pitch-rate": IDPitchingRate, "pitch": IDPitchingRate, "ready": IDReadyOn, "best-before": IDDrinkBy,
}

// KindCalled is the id of the figure that brewers call so, "" for none that is
// worked out: ibu is bitterness.
func KindCalled(word string) ID {
	word = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(word)), "_", "-")
	id := called[strings.ReplaceAll(word, " ", "-")]
	for _, k := range Kinds() {
		if id != "" && k.ID == id {
			return id
		}
	}
	return ""
}
