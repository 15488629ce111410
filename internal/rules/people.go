package rules

import (
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// peopleRules are about who drinks it.
func peopleRules() []Rule {
	return []Rule{
		{
			ID: "allergen-missing", Watches: sealed, Worst: notice.Danger,
			Source: "Regulation (EU) 1169/2011 Annex II, by which isinglass as a fining is exempt",
			When: "packaged, and a cereal with gluten, milk, nuts or egg in it is not on the label (look); " +
				"danger where a taster's card names that allergy",
			look: once(allergenMissing),
		},
		{
			ID: "under-age", Watches: always, Worst: notice.Danger, Source: "a UK government web archive on children and alcohol",
			When: say("a tasting by somebody whose card says under %d, or not adult", adultAge),
			Why:  "Alcohol harms a child sooner than it does an adult, and the law is plain.",
			Do:   "Give them none. If the card is out of date, correct it.",
			Next: "ask somebody who is of age.", mendable: (*inspection).notDrunk,
			look: per(tastings, underAge),
		},
	}
}

// labelText is all that the label says.
func (c *inspection) labelText() string {
	text := c.Gyle.Label.Text.Text
	for _, a := range c.Gyle.Label.Allergens {
		text += " " + a.Text
	}
	if c.Gyle.Label.Sulphites.Yes() {
		text += " sulphites"
	}
	return text
}

// labelLine is where a finding about the label points: to it, else to the first
// container.
func (c *inspection) labelLine() journal.Where {
	if c.Gyle.Label.Written() {
		return c.Gyle.Label.Where
	}
	for _, k := range c.Live() {
		return assay.WhereOf(k)
	}
	return journal.Where{}
}

// list joins names as a sentence does.
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

func underAge(c *inspection, t journal.Tasting) Found {
	card := c.Card(journal.CardTaster, t.By)
	if card == nil || card.Taster == nil || !c.Come(t.When) && t.When.Written() {
		return Found{}
	}
	young := card.Taster.Age.Written() && float64(card.Taster.Age.N) < adultAge.Number
	if !young && !card.Taster.Adult.No() {
		return Found{}
	}
	return Found{Where: t.Where, Says: "This tasting is by somebody who is under age, by their card."}
}
