package journal

import (
	"slices"
	"strings"

	"gylebook/internal/notice"
	"gylebook/internal/quantity"
)

// brimful is how much more than its nominal contents a rigid container holds
// to the brim (common practice, no source). A soft bag holds its size.
const brimful = 1.05

// vesselKinds is the kinds that may be named with a size, such as keg 19 L.
var vesselKinds = []string{"soft bag", "pressure barrel", "bottle", "cask", "keg", "bucket"}

// casks is the sizes that have a name of their own. UK gallons: Weights and
// Measures Act 1985; names and sizes in public lists of English cask units.
var casks = map[string]quantity.Volume{
	"pin":       4.5 * quantity.UKGallon,
	"firkin":    9 * quantity.UKGallon,
	"kilderkin": 18 * quantity.UKGallon,
}

// vesselOf is a vessel named by its kind and size ("soft bag 10 L"), or by a
// name that has a size; nil for any other name. Each call makes a new card.
func vesselOf(name string) *Card {
	words := strings.ToLower(strings.Join(strings.Fields(name), " "))
	if size, ok := casks[words]; ok {
		return vesselCard(name, "cask", size)
	}
	for _, kind := range vesselKinds {
		rest, ok := strings.CutPrefix(words, kind)
		if !ok {
			continue
		}
		if rest == "" && kind == "bucket" {
			return vesselCard(name, kind, 0)
		}
		if size, err := quantity.Parse[quantity.Volume](rest); err == nil && size.Value > 0 {
			return vesselCard(name, kind, size.Value)
		}
	}
	return nil
}

// vesselCard makes the card of a vessel of a nominal size, 0 for unknown.
func vesselCard(name, kind string, size quantity.Volume) *Card {
	where := Where{Place: notice.Place{File: "larder/vessel", Line: 1}}
	card := &Card{
		Kind: Choice{Word: "vessel", Where: where}, Name: Text{Text: name, Where: where}, BuiltIn: true,
		Vessel: &Vessel{Is: Choice{Word: kind, Where: where}},
	}
	card.File = where.File
	card.Source = Text{Text: "common practice, no source", Where: where}
	if size > 0 {
		brim := size
		if kind != "soft bag" {
			brim *= brimful
		}
		card.Vessel.Size = volumeAt(size, where)
		card.Vessel.Capacity = volumeAt(brim, where)
	}
	return card
}

func volumeAt(v quantity.Volume, where Where) Value[quantity.Volume] {
	return Value[quantity.Volume]{Amount: quantity.Amount[quantity.Volume]{Value: v, Unit: "L"}, Where: where}
}

// VesselKinds is the kinds of vessel that may be named with a size alone.
func VesselKinds() []string { return slices.Clone(vesselKinds) }
