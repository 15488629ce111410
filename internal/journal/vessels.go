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
var vesselKinds = []VesselKind{SoftBag, PressureBarrel, Bottle, Cask, Keg, Bucket}

// kindWords is what a vessel of each kind is called, in one spelling. Of two
// that fit, the longer counts. A plain barrel is the plastic one with a cap that
// vents, and a polypin is a bag in its box: so home brewers use the words
// (common practice, no source).
var kindWords = []struct {
	words string
	kind  VesselKind
}{
	{"pressure barrel", PressureBarrel}, {"soft bag", SoftBag}, {"bag in box", SoftBag}, {"bag-in-box", SoftBag},
	{"polypin", SoftBag}, {"barrel", PressureBarrel}, {"bottle", Bottle}, {"cask", Cask}, {"keg", Keg},
	{"bucket", Bucket},
}

// otherwise is words beside barrel that make it another thing than the plastic
// one: nothing is known of what these take.
var otherwise = []string{"oak", "wood", "wooden", "whisky", "whiskey", "wine", "rum", "bourbon", "sherry"}

// casks is the sizes that have a name of their own. UK gallons: Weights and
// Measures Act 1985; names and sizes in public lists of English cask units.
var casks = map[string]quantity.Volume{
	"pin":       4.5 * quantity.UKGallon,
	"firkin":    9 * quantity.UKGallon,
	"kilderkin": 18 * quantity.UKGallon,
}

// vesselOf is a vessel named by its kind ("keg") or its kind and size, in any
// order and with other words beside them ("soft bag 10 L", "2 L PET bottle"), or
// by a name that has a size; nil for any other name. Each call makes a new card.
//
// A size that is not surely one, such as the pint, which differs between the UK
// and the US, counts as not known.
func vesselOf(name string) *Card {
	if kind, size := plainly(name); kind != "" {
		return vesselCard(strings.Join(strings.Fields(name), " "), kind, size)
	}
	words := strings.Fields(strings.ToLower(name))
	if size, ok := casks[strings.TrimSuffix(strings.Join(words, " "), "s")]; ok {
		return vesselCard(name, Cask, size)
	}
	size, rest := sizeAmong(words)
	called, kind, beside := kindAmong(rest)
	if kind == "" {
		return nil
	}
	if bare := bareSize(kind, rest, beside); size == 0 && bare > 0 {
		return vesselCard("bottle "+sizeText(bare, ""), kind, bare)
	}
	card := vesselCard(vesselName(called, size, beside, name), kind, size)
	if slices.Contains(beside, "pet") || slices.Contains(beside, "plastic") {
		card.Vessel.Material = Choice[Material]{Word: PlasticMade, Where: card.Kind.Where}
	}
	return card
}

// plainly is the kind and size of a name that is written as most are, KIND SIZE:
// it is asked for often, and needs no search.
func plainly(name string) (kind VesselKind, size quantity.Volume) {
	for _, kind := range vesselKinds {
		if len(name) <= len(kind) || name[len(kind)] != ' ' || !strings.EqualFold(name[:len(kind)], string(kind)) {
			continue
		}
		if amount, err := quantity.Parse[quantity.Volume](name[len(kind):]); err == nil && amount.Value > 0 {
			return kind, amount.Value
		}
	}
	return "", 0
}

// sizeAmong is the volume among words and the words without it; 0 where there is
// none, or more than one.
func sizeAmong(words []string) (size quantity.Volume, rest []string) {
	count := 0
	for i := 0; i < len(words); i++ {
		taken := 0
		for n := min(2, len(words)-i); n > 0 && taken == 0; n-- {
			amount, err := quantity.Parse[quantity.Volume](strings.Join(words[i:i+n], " "))
			if err == nil && amount.Value > 0 {
				size, taken = amount.Value, n
			}
		}
		if taken == 0 {
			rest = append(rest, words[i])
			continue
		}
		i += taken - 1
		count++
	}
	if count != 1 {
		return 0, rest
	}
	return size, rest
}

// kindAmong is the kind that words name: how it is called there, and the words
// beside that. Words that name two kinds ("keg of bottles") name none.
func kindAmong(words []string) (called string, kind VesselKind, beside []string) {
	joined := " " + strings.Join(words, " ") + " "
	for _, k := range kindWords {
		for _, spelling := range []string{k.words, k.words + "s"} {
			before, after, found := strings.Cut(joined, " "+spelling+" ")
			switch {
			case !found:
			case kind != "":
				return "", "", nil
			default:
				called, kind = k.words, k.kind
				joined = before + " " + after + " "
			}
		}
	}
	beside = strings.Fields(joined)
	if called == "barrel" && slices.ContainsFunc(beside, func(w string) bool { return slices.Contains(otherwise, w) }) {
		return "", "", nil
	}
	return called, kind, beside
}

// bareSize is the size of a bottle in millilitres where it was written without a
// unit: bottle 500. No bottle has 500 of anything else. Of other kinds such a
// number may be the keg's own: keg 2.
func bareSize(kind VesselKind, words, beside []string) quantity.Volume {
	if kind != Bottle || len(beside) != 1 || len(words) != 2 {
		return 0
	}
	number, err := quantity.Parse[quantity.Number](beside[0])
	if err != nil || number.Value < 100 || number.Value > 3000 {
		return 0
	}
	return quantity.Volume(number.Value) * quantity.Millilitre
}

// vesselName is what a built-in vessel is called, one name for all ways to
// write it: bottle 500 mL, and where more was said, 750 mL champagne bottle.
func vesselName(called string, size quantity.Volume, beside []string, typed string) string {
	typed = strings.Join(strings.Fields(typed), " ")
	plain := slices.Contains(vesselKinds, VesselKind(called)) && len(beside) == 0
	switch {
	case plain && size == 0:
		return called
	case plain && strings.HasPrefix(strings.ToLower(typed), called+" "):
		return typed
	case plain:
		return called + " " + sizeText(size, typed)
	case size == 0:
		return typed
	}
	return strings.Join(append([]string{sizeText(size, typed)}, append(asTyped(typed, beside), called)...), " ")
}

// sizeText is a size as it was typed, else in millilitres below a litre and in
// litres from there.
func sizeText(size quantity.Volume, typed string) string {
	words := strings.Fields(typed)
	for i := range words {
		for n := min(2, len(words)-i); n > 0; n-- {
			text := strings.Join(words[i:i+n], " ")
			if _, err := quantity.Parse[quantity.Volume](text); err == nil {
				return text
			}
		}
	}
	if size < 1 {
		return quantity.Plain(float64(size/quantity.Millilitre)) + " mL"
	}
	return quantity.Plain(size.Litres()) + " L"
}

// asTyped is words in the letters in which they stand in a text.
func asTyped(text string, words []string) []string {
	out := slices.Clone(words)
	for i, w := range words {
		for _, typed := range strings.Fields(text) {
			if strings.EqualFold(typed, w) {
				out[i] = typed
				break
			}
		}
	}
	return out
}

// vesselCard makes the card of a vessel of a nominal size, 0 for unknown.
func vesselCard(name string, kind VesselKind, size quantity.Volume) *Card {
	where := Where{Place: notice.Place{File: "larder/vessel", Line: 1}}
	card := &Card{
		Kind: Choice[CardKind]{Word: CardVessel, Where: where}, Name: Text{Text: name, Where: where}, BuiltIn: true,
		Vessel: &Vessel{Is: Choice[VesselKind]{Word: kind, Where: where}},
	}
	card.File = where.File
	card.Source = Text{Text: "common practice, no source", Where: where}
	if size > 0 {
		brim := size
		if kind != SoftBag {
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
func VesselKinds() []VesselKind { return slices.Clone(vesselKinds) }
