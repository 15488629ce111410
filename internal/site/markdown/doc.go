// Package markdown turns the story of an entry into HTML that may stand on any
// page of the site.
//
// It is CommonMark by goldmark, with tables, footnotes, task lists and
// typographic punctuation, and with these rules of its own, one a file:
//
//   - Raw HTML is text: its parsers are left out, so that <b> is shown and never
//     run (setup.go).
//   - Every link and picture is asked of a Resolver, which knows the journal;
//     schemes that could run in a reader's browser never get as far (link.go,
//     picture.go).
//   - A link without words is filled by the Resolver: [](figure:abv).
//   - A picture alone in its paragraph is a figure, its title the caption.
//   - Headings take the levels that follow the page's own without a gap, and
//     ids that keep the letters of every language (heading.go).
//   - Alignment in tables is a class, not a style, and header cells have a
//     scope (table.go).
//   - Text that would take goldmark more than linear time or memory is shown as
//     it was typed, with a fault at its line (limits.go).
//
// # Places in the HTML
//
// One body is shown at several addresses: its own page, the feed. So links
// within the site begin with the byte Root in place of the way to the site's
// top, and links to an id of the same body with Own. Place puts real addresses
// in. Neither byte can come from the text, which is cleaned of control
// characters first.
package markdown
