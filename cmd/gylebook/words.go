package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"gylebook/internal/journal"
)

type wordsCommand struct {
	Key    []string `arg:"" optional:"" help:"A key (alpha), its path (hops[].alpha), any word (lactose), a kind of card (style, malt, vessel), figures, findings or limits."`
	Schema bool     `help:"Print the vocabulary as JSON Schema 2020-12, for editors."`
}

func (w *wordsCommand) Help() string {
	return "Lists every key that an entry, the settings, a note or a card may have, with its unit and its meaning; with a key, all about that one. " +
		"It takes several words as they are, and knows figures, findings, what tasters say, commands and the cards of the larder as well. A kind of card lists the names that are known of it, figures the ids of all figures, findings those of all findings, limits what figures are held against; any other word is looked for in keys, explanations and names. " +
		"Exit code 0: printed. 2: nothing is known of the word."
}

// run explains the vocabulary: 0; 2 nothing is known of the word.
func (w *wordsCommand) run(c *call) (int, error) {
	out, key := c.paper(c.stdout), strings.TrimSpace(strings.Join(w.Key, " "))
	switch {
	case w.Schema && key != "":
		return exitCannot, errors.New("printing the schema: it is one for the whole vocabulary; leave out " + key)
	case w.Schema:
		if _, err := out.Write(journal.Schema()); err != nil {
			return exitCannot, fmt.Errorf("writing the schema: %w", err)
		}
		return exitDone, nil
	case key == "":
		printVocabulary(out, journal.Words())
		return exitDone, nil
	}
	if explain(out, key) || explainParts(out, key) {
		return exitDone, nil
	}
	near, _ := journal.LookUp(key)
	return exitCannot, noSuchKey(key, near)
}

func noSuchKey(key string, near []journal.Word) error {
	says := fmt.Sprintf("looking up %s: there is no such key", key)
	var paths []string
	for _, word := range near {
		if path := word.Path + " in " + article(word.File); len(paths) < 6 && !slices.Contains(paths, path) {
			paths = append(paths, path)
		}
	}
	if len(paths) > 0 {
		says += "; near it: " + strings.Join(paths, ", ")
	}
	return errors.New(says + "; gylebook words lists them all")
}

// printVocabulary lists every key under the kind of file that has it.
func printVocabulary(out paper, words []journal.Word) {
	file := ""
	for _, word := range words {
		if word.File != file {
			if file != "" {
				fmt.Fprintln(out)
			}
			file = word.File
			fmt.Fprintln(out, out.ink(bold, "In "+article(file)+":"))
		}
		line := word.Path
		if in := written(word); in != "" {
			line += " (" + in + ")"
		}
		out.hanging("  ", "    ", line)
		out.indented("      ", word.Says)
	}
}

// printWord tells all about one key.
func printWord(out paper, word journal.Word) {
	fmt.Fprintf(out, "%s, in %s\n", out.ink(bold, word.Path), article(word.File))
	out.indented("    ", word.Says)
	out.indented("    ", "written as: "+word.Type)
	if len(word.Units) > 0 {
		out.hanging("    ", "      ", "units: "+strings.Join(word.Units, ", "))
	}
	if len(word.Choices) > 0 {
		out.hanging("    ", "      ", "words: "+strings.Join(word.Choices, ", "))
	}
	if word.Card != "" {
		out.indented("    ", "names a card of kind "+word.Card)
	}
	if word.Needed {
		out.indented("    ", "must be there")
	}
	if word.Example != "" {
		out.indented("    ", "for example: "+word.Key+": "+word.Example)
	}
	for i, part := range partsOf(word) {
		if i == 0 {
			out.indented("    ", "with the keys:")
		}
		out.hanging("      ", "        ", part.Key+": "+part.Says+" ("+part.Example+")")
	}
}

// partsOf are the keys of a map, or of each map in a list of them.
func partsOf(of journal.Word) []journal.Word {
	if !strings.HasSuffix(of.Type, "map") && !strings.HasSuffix(of.Type, "maps") {
		return nil
	}
	return slices.DeleteFunc(journal.Words(), func(w journal.Word) bool {
		return w.File != of.File || w.Path != of.Path+"."+w.Key && w.Path != of.Path+"[]."+w.Key
	})
}

// written is how a key is written, in short: its units, its words, or its type.
func written(word journal.Word) string {
	switch {
	case len(word.Units) > 0:
		return strings.Join(word.Units, ", ")
	case len(word.Choices) > 0:
		return strings.Join(word.Choices, " | ")
	case word.Card != "":
		return "name of " + article(word.Card)
	}
	return word.Type
}

// article is a kind of file as a sentence has it.
func article(file string) string {
	switch {
	case file == "settings":
		return "the settings, index.md"
	case strings.HasPrefix(file, "i"):
		return "an " + file
	}
	return "a " + file
}
