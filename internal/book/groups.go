package book

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// linkGroups makes the tags and the years.
func (b *Book) linkGroups() {
	tags, years := newGroupGathering(), newGroupGathering()
	year, name := 0, ""
	for _, g := range b.Gyles {
		for _, tag := range g.Tags {
			tags.gyle(tag.Text, g)
		}
		if g.Begun.IsZero() {
			continue
		}
		if y := g.Begun.Year(); y != year { // they stand in order
			year, name = y, strconv.Itoa(y)
		}
		years.gyle(name, g)
	}
	for _, n := range b.Notes {
		for _, tag := range n.Tags {
			tags.note(tag.Text, n)
		}
		if n.On.Written() {
			years.note(strconv.Itoa(n.On.Time.In(b.zone()).Year()), n)
		}
	}
	b.Tags = tags.groups()
	sortByName(b.alphabet(), b.Tags, func(g *Group) string { return g.Name })
	b.Years = years.groups()
	slices.SortFunc(b.Years, func(x, y *Group) int { return strings.Compare(y.Name, x.Name) })
}

// groupGathering collects gyles and notes by a word, however it is spaced and in
// whatever case.
type groupGathering struct {
	known map[string]*Group
	typed map[string]*typedWord
}

// typedWord is a word exactly as typed.
type typedWord struct {
	group *Group
	key   string
	times int
}

func newGroupGathering() *groupGathering {
	return &groupGathering{known: map[string]*Group{}, typed: map[string]*typedWord{}}
}

func (t *groupGathering) group(word string) *Group {
	if w := t.typed[word]; w != nil {
		w.times++
		return w.group
	}
	key := folded(word)
	if key == "" {
		return nil
	}
	if t.known[key] == nil {
		t.known[key] = new(Group)
	}
	t.typed[word] = &typedWord{t.known[key], key, 1}
	return t.known[key]
}

func (t *groupGathering) gyle(word string, g *Gyle) {
	if group := t.group(word); group != nil && (len(group.Gyles) == 0 || group.Gyles[len(group.Gyles)-1] != g) {
		group.Gyles = append(group.Gyles, g)
	}
}

func (t *groupGathering) note(word string, n *journal.Note) {
	if group := t.group(word); group != nil && (len(group.Notes) == 0 || group.Notes[len(group.Notes)-1] != n) {
		group.Notes = append(group.Notes, n)
	}
}

// groups is them all, each named as it is most often typed.
func (t *groupGathering) groups() []*Group {
	typed := map[string]map[string]int{}
	for word, w := range t.typed {
		if typed[w.key] == nil {
			typed[w.key] = map[string]int{}
		}
		typed[w.key][strings.Join(strings.Fields(word), " ")] += w.times
	}
	var all []*Group
	var names []string
	for _, key := range slices.Sorted(maps.Keys(t.known)) {
		g := t.known[key]
		g.Name = oftenest(typed[key])
		all = append(all, g)
		names = append(names, g.Name)
	}
	given := slugs(names)
	for _, g := range all {
		g.Slug = given[g.Name]
	}
	return all
}

// Rung is one stage of the board with the gyles that stand there.
type Rung struct {
	Stage figures.Stage
	// Gyles are the latest brewed first.
	Gyles []*Gyle
}

// boardOrder has the beer that can be drunk first.
var boardOrder = []figures.Stage{
	figures.Pouring, figures.Maturing, figures.Working, figures.Copper, figures.Paper, figures.Empty,
}

// linkBoard sorts the gyles by stage.
func (b *Book) linkBoard() {
	rungs := map[figures.Stage][]*Gyle{}
	for _, g := range b.Gyles {
		rungs[g.Status.Stage] = append(rungs[g.Status.Stage], g)
	}
	b.Board = nil
	for _, stage := range boardOrder {
		b.Board = append(b.Board, Rung{Stage: stage, Gyles: rungs[stage]})
	}
}
