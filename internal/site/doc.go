// Package site makes a book into pages.
//
// Build lays the site out and renders the stories of all entries, since a dead
// link is a finding that its page and the board must show. Pages are rendered
// when asked for, in any order and from several goroutines, each a pure function
// of the book and the options: the same inputs give the same bytes, there is no
// clock in it and no order of maps.
//
// # Where things are
//
// A gyle is at gyles/14/index.html. Beside it lies what belongs to it: the
// workings of all its figures, the card and the labels for paper, its source, its
// numbers. The rest is in larder/KIND/NAME/, styles/, vessels/, tasters/, tags/,
// years/, families/, trends/, notes/, workings/, search/, and the files at the
// top. Every link is relative and names index.html, so that the site works from a
// disk, below any path, and from a server.
//
// # What is never published
//
// Drafts (unless live), private tasters, costs, photos and parties as the
// settings say, comments of the front matter, metadata of pictures, and what is
// outside of the journal's folder. A private taster is "a friend". Notices are
// cleaned of private names too, and an error on a line with something private
// says only that there is one (privacy.go).
//
// # How a page is declared
//
// By one value in one file, with the struct that its template is given and the
// function that fills that in (pagekind.go). Site and theme collect them.
//
// # What templates are given
//
// The struct of their page, whose parts are package view's, and nothing else. A layer of replacement templates goes in front
// of the built-in ones by file name; one that is at fault is reported and the
// built-in page stands in for it (theme.go).
//
// # The beer's colour
//
// It is a class such as ebc-26 from one generated stylesheet, colours.css, which
// every page shares. So no page has a style of its own, and a content security
// policy without inline styles and scripts holds (colour.go).
package site
