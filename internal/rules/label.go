package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// labelRules are about what a label says that is not so, or does not say.
func labelRules() []Rule {
	return []Rule{
		{
			ID: "diet-claim", Watches: alive, Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "called vegan with isinglass, gelatine, lactose or honey in it, or vegetarian with isinglass or gelatine",
			Example: Example{In: "casked", Raises: []string{"label.vegan=true", "finings[+].with=isinglass", "finings[0].when=2026-03-21"}, Spares: []string{"label.vegan=false", "finings[+].with=isinglass", "finings[0].when=2026-03-21"}},
			look:    dietClaim,
		},
		{
			ID: "caffeine", Watches: alive[figures.Working:], Worst: notice.Mend, Source: "Regulation (EU) 1169/2011 Annex III",
			When:    "coffee, tea or guarana in it and the label does not say so (note); over 150 mg/L of caffeine (mend)",
			Example: Example{In: "bottled", Raises: []string{"added[+].other=coffee", "added[0].weight=200 g", "added[0].caffeine=200 mg/L", "added[0].into=fermenter", "added[0].when=2026-03-05"}, Spares: []string{"added[+].other=coffee", "added[0].weight=200 g", "added[0].caffeine=80 mg/L", "added[0].into=fermenter", "added[0].when=2026-03-05"}},
			look:    caffeine,
		},
		{
			ID: "for-sale-words", Watches: alive, Worst: notice.Look, Source: "Hansard, 19 October 2006; 27 CFR 25.205 and 25.206",
			When:    "a price, a ticket or a donation on the label or in the party's occasion",
			Example: Example{In: "bottled", Raises: []string{"label.text=Two pounds a bottle, donations to the roof"}, Spares: []string{"label.text=Not for sale. Roof fund beer"}},
			look:    forSaleWords,
		},
		{
			ID: "label-abv", Watches: sealed, Worst: notice.Mend, Source: "Regulation (EU) 1169/2011 Annex XII",
			When:    "a label's alcohol more than 0.5 % vol off what it comes to, or more than 1 above 5.5",
			Example: Example{In: "bottled", Raises: []string{"label.abv=5.2 %"}, Spares: []string{"label.abv=4.6 %"}},
			look:    labelABV,
		},
	}
}

// fromAnimals is something in the beer that comes from an animal.
type fromAnimals struct {
	name       string
	vegetarian bool
	where      journal.Where
}

func (c *inspection) animal() []fromAnimals {
	var all []fromAnimals
	for _, f := range c.Gyle.Finings {
		card := c.Card("fining", f.With)
		switch {
		case card != nil && card.Fining != nil && card.Fining.Vegan.No():
			all = append(all, fromAnimals{f.With.Name, !card.Fining.Vegetarian.No(), f.Where})
		case assay.HasWord(f.With.Name, "isinglass", "gelatine", "gelatin"):
			all = append(all, fromAnimals{f.With.Name, false, f.Where})
		}
	}
	sugars := []journal.Name{c.Gyle.Priming.Sugar}
	for _, g := range c.Gyle.Grist {
		sugars = append(sugars, g.Sugar, g.Syrup)
	}
	for _, p := range c.Gyle.Packages {
		sugars = append(sugars, p.Priming.Sugar)
	}
	for _, s := range sugars {
		card := c.Card("sugar", s)
		if card != nil && card.Sugar != nil && card.Sugar.Vegan.No() || assay.HasWord(s.Name, "honey", "lactose") {
			all = append(all, fromAnimals{s.Name, true, s.Where})
		}
	}
	for _, a := range c.Gyle.Added {
		if a.Other.Written() && assay.HasWord(a.Other.Text, "honey", "lactose", "milk", "cream") {
			all = append(all, fromAnimals{a.Other.Text, true, a.Where})
		}
	}
	return all
}

func dietClaim(c *inspection) []Found {
	label := c.Gyle.Label
	vegan, vegetarian := label.Vegan.Yes(), label.Vegetarian.Yes()
	for _, tag := range c.Gyle.Tags {
		vegan = vegan || assay.HasWord(tag.Text, "vegan")
		vegetarian = vegetarian || assay.HasWord(tag.Text, "vegetarian")
	}
	for _, a := range c.animal() {
		claim := "vegan"
		switch {
		case vegetarian && !a.vegetarian && !vegan:
			claim = "vegetarian"
		case !vegan:
			continue
		}
		return []Found{{
			Severity: notice.Mend, Where: a.where,
			Says: fmt.Sprintf("It is called %s, and there is %s in it.", claim, a.name),
			Why:  "Whoever asks has a reason, and takes your word for it.",
			Do:   fmt.Sprintf("Take %q off the label and tags, and tell those who have some.", claim),
		}}
	}
	return nil
}

func caffeine(c *inspection) []Found {
	total, where, what := 0.0, journal.Where{}, ""
	for _, a := range c.Gyle.Added {
		text := a.Other.Text + " " + a.Spice.Text
		if !assay.HasWord(text, "coffee", "espresso", "tea", "guarana", "mate") && !a.Caffeine.Written() {
			continue
		}
		total += a.Caffeine.Value.MilligramsPerLitre()
		if what == "" {
			where, what = a.Where, a.Other.Text+a.Spice.Text
		}
	}
	if what == "" || assay.HasWord(c.labelText(), "caffeine", "coffee", "tea", "guarana") {
		return nil
	}
	f := Found{
		Severity: notice.Note, Where: where,
		Says: fmt.Sprintf("The %s brings caffeine, and the label does not say so.", what),
		Why:  "Some people sleep badly on it or must avoid it, and nobody looks for it in beer.",
		Do:   "Say on the label that there is caffeine in it (label.text).",
	}
	if total > caffeineMost {
		f.Severity = notice.Mend
		f.Says = fmt.Sprintf("There is about %s mg/L of caffeine in it, and the label does not say so.", q.Fixed(total, -1))
		f.Why = "Over 150 mg/L the law on labels asks for a warning; it is not for children or in pregnancy."
	}
	return []Found{f}
}

func forSaleWords(c *inspection) []Found {
	for _, t := range []journal.Text{c.Gyle.Label.Text, c.Gyle.Party.Occasion} {
		if assay.HasWord(t.Text, "not") && assay.HasWord(t.Text, "sale") {
			continue
		}
		if !assay.HasWord(t.Text, "price*", "ticket*", "donation*", "sale", "£", "entry", "admission", "pay", "paid") && !hasMoney(t.Text) {
			continue
		}
		return []Found{{
			Severity: notice.Look, Where: t.Where,
			Says: "There is word of money here, and this beer is brewed at home.",
			Why:  "Sale, barter, or a ticket that includes the beer may need a licence and duty.",
			Do:   "Give it freely; ask your licensing authority before you take anything for it.",
		}}
	}
	return nil
}

// hasMoney tells whether a text names a sum: £2, 3 EUR.
func hasMoney(text string) bool {
	for _, r := range text {
		if r == '£' || r == '€' || r == '$' {
			return true
		}
	}
	return assay.HasWord(text, "gbp", "eur", "usd")
}

func labelABV(c *inspection) []Found {
	f, ok := c.Find("abv-conditioned", "")
	if !ok {
		f, ok = c.Find("abv", "")
	}
	label := c.Gyle.Label.ABV
	if !ok || !label.Written() || len(c.Live()) == 0 {
		return nil
	}
	tolerance := labelWithin
	if float64(label.Value) > strongAbove {
		tolerance = labelWithinStrong
	}
	sure := assay.Over(assay.Distance(f, float64(label.Value)), tolerance)
	if sure < assay.Probably {
		return nil
	}
	return []Found{{
		Severity: notice.Mend, Where: label.Where,
		Says: fmt.Sprintf("The label says %s %% vol, and it comes to %s.", q.Fixed(float64(label.Value), 1), c.Measure(f)),
		Why:  "Those who drive, or count their units, go by the label.",
		Do:   "Correct the label, and the containers that bear it.",
	}}
}
