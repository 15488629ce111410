package figures

import "strings"

// called is what brewers call a figure that has another id here.
var called = map[string]string{
	"ibu": "bitterness", "ibus": "bitterness", "ebu": "bitterness", "bitter": "bitterness",
	"ebc": "colour", "srm": "colour", "color": "colour", "lovibond": "colour",
	"alcohol": "abv", "strength": "abv", "duty": "abv-duty",
	"attenuation": "apparent-attenuation", "aa": "apparent-attenuation",
	"efficiency": "brewhouse-yield", "yield": "brewhouse-yield", "mash-efficiency": "mash-yield",
	"carbonation": "condition", "co2": "condition", "volumes": "condition", "fizz": "condition",
	"pressure": "pressure-warmest", "calories": "energy", "kcal": "energy", "kj": "energy",
	"original-gravity": "og", "final-gravity": "fg", "gravity": "og",
	"evaporation": "boil-off", "boiloff": "boil-off", "sugar": "priming-sugar", "priming": "priming-sugar",
	"strike": "strike-temperature", "pitch-rate": "pitching-rate", "pitch": "pitching-rate", "ready": "ready-on", "best-before": "drink-by",
}

// KindCalled is the id of the figure that brewers call so, "" for none that is
// worked out: ibu is bitterness.
func KindCalled(word string) string {
	word = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(word)), "_", "-")
	id := called[strings.ReplaceAll(word, " ", "-")]
	for _, k := range Kinds() {
		if id != "" && k.ID == id {
			return id
		}
	}
	return ""
}
