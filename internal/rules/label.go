package rules

import (
	"fmt"
	"strings"

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
			ID: "diet-claim", Watches: alive, Worst: notice.Mend, Source: common,
			When: "called vegan with isinglass, gelatine, lactose or honey in it, or vegetarian with isinglass or gelatine",
			Why:  "Whoever asks has a reason, and takes your word for it.",
			look: once(dietClaim),
		},
		{
			ID: "caffeine", Watches: alive[figures.Working:], Worst: notice.Mend, Source: "Regulation (EU) 1169/2011 Annex III",
			When: say("coffee, tea or guarana in it and the label does not say so (note); over %s of caffeine (mend)", caffeineMost),
			Do:   "Say on the label that there is caffeine in it (label.text).",
			look: once(caffeine),
		},
		{
			ID: "for-sale-words", Watches: alive, Worst: notice.Look, Source: "Hansard, 19 October 2006; 27 CFR 25.205 and 25.206",
			When: "a price, a ticket or a donation on the label or in the party's occasion",
			Why:  "Sale, barter, or a ticket that includes the beer may need a licence and duty.",
			Do:   "Give it freely; ask your licensing authority before you take anything for it.",
			look: once(forSaleWords),
		},
		{
			ID: "label-abv", Watches: sealed, Worst: notice.Mend, Source: labelLaw,
			When: say("a label's alcohol more than %s off what it comes to, or more than %d above %d",
				labelWithin, labelWithinStrong, strongAbove),
			Why:  "Those who drive, or count their units, go by the label.",
			Do:   "Correct the label, and the containers that bear it.",
			look: once(labelABV),
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
		switch card := c.FiningCard(f.With); {
		case card.Vegan.No():
			all = append(all, fromAnimals{f.With.Name, !card.Vegetarian.No(), f.Where})
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
		if c.SugarCard(s).Vegan.No() || assay.HasWord(s.Name, "honey", "lactose") {
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

func dietClaim(c *inspection) Found {
	label := c.Gyle.Label
	vegan, vegetarian := label.Vegan.Yes(), label.Vegetarian.Yes()
	for _, tag := range c.Gyle.Tags {
		vegan = vegan || assay.HasWord(tag.Text, "vegan")
		vegetarian = vegetarian || assay.HasWord(tag.Text, "vegetarian")
	}
	for _, a := range c.animal() {
		if !vegan && (!vegetarian || a.vegetarian) {
			continue
		}
		claim := either(vegan, "vegan", "vegetarian")
		return Found{
			Where: a.where,
			Says:  fmt.Sprintf("It is called %s, and there is %s in it.", claim, a.name),
			Do:    fmt.Sprintf("Take %q off the label and tags, and tell those who have some.", claim),
		}
	}
	return Found{}
}

func caffeine(c *inspection) Found {
	total, f := 0.0, Found{}
	for _, a := range c.Gyle.Added {
		text := a.Other.Text + " " + a.Spice.Text
		if !assay.HasWord(text, "coffee", "espresso", "tea", "guarana", "mate") && !a.Caffeine.Written() {
			continue
		}
		total += a.Caffeine.Value.MilligramsPerLitre()
		if what := a.Other.Text + a.Spice.Text; f.Says == "" && what != "" {
			f.Where, f.Says = a.Where, fmt.Sprintf("The %s brings caffeine, and the label does not say so.", what)
		}
	}
	if f.Says == "" || assay.HasWord(c.labelText(), "caffeine", "coffee", "tea", "guarana") {
		return Found{}
	}
	f.note, f.Why = true, "Some people sleep badly on it or must avoid it, and nobody looks for it in beer."
	if total > caffeineMost.Number {
		f.note = false
		f.Says = fmt.Sprintf("There is about %s mg/L of caffeine in it, and the label does not say so.", q.Fixed(total, -1))
		f.Why = fmt.Sprintf("Over %s the law on labels asks for a warning; it is not for children or in pregnancy.", caffeineMost)
	}
	return f
}

// moneyWords are words of money; those with a star are beginnings.
var moneyWords = []string{"price*", "ticket*", "donation*", "sale", "entry", "admission", "pay", "paid", "gbp", "eur", "usd"}

func forSaleWords(c *inspection) Found {
	for _, t := range []journal.Text{c.Gyle.Label.Text, c.Gyle.Party.Occasion} {
		denied := assay.HasWord(t.Text, "not") && assay.HasWord(t.Text, "sale")
		if !denied && (assay.HasWord(t.Text, moneyWords...) || strings.ContainsAny(t.Text, "£€$")) {
			return Found{Where: t.Where, Says: "There is word of money here, and this beer is brewed at home."}
		}
	}
	return Found{}
}

func labelABV(c *inspection) Found {
	f, ok := c.Find(figures.IDABVConditioned, "")
	if !ok {
		f, ok = c.Find(figures.IDABV, "")
	}
	label := c.Gyle.Label.ABV
	tolerance := labelWithin
	if float64(label.Value) > strongAbove.Number {
		tolerance = labelWithinStrong
	}
	if !ok || !label.Written() || len(c.Live()) == 0 || !assay.IsOver(assay.Distance(f, float64(label.Value)), tolerance) {
		return Found{}
	}
	return Found{
		Where: label.Where,
		Says:  fmt.Sprintf("The label says %s %% vol, and it comes to %s.", q.Fixed(float64(label.Value), 1), c.Measure(f)),
	}
}
