// Package scribe is the one that writes into a journal: a reading into an entry,
// a new entry, a new journal. Nothing else is changed.
//
// # A reading into an entry
//
// Understand makes a Jotting of what was typed; Write puts it into the bytes of
// an entry and gives back an Edit; Save puts an Edit on the disk.
//
// A correction (Correct), and a number that a planned container came to, go in
// the place of what stood there, which the Edit keeps. Any other Edit only adds. Whatever stood in the file stands there still, byte for
// byte: line ends, a byte-order mark, comments, indentation, the order of keys.
// What is added takes the manner of what is beside it: a part of a list goes
// into a list in brackets with a comma, and below one by indentation with a dash
// under the others' dashes.
//
// Write believes nothing that it has not looked at again. The new bytes are read
// by journal.ReadFile, and must say what the old ones say together with what a
// what-if of the same values says (journal.ReadFileSet, which goes another way
// to it); no error may be new; and what was added, taken out again, must give
// the old bytes. Else nothing is written, and the error says why. So it is with
// everything that cannot be done by adding alone: a value that the entry has
// already, a list that is written as one map, ~ where a value should go.
//
// Save holds a lock beside the file from reading it to renaming the new one over
// it, so that two jottings at one instant are both kept. It refuses links.
//
// # A new entry, a new journal
//
// Draft writes an entry from the recipe of another, or from nothing, with a
// comment for every key; NewJournal is the files of a journal that has nothing
// in it yet. The comments are made from journal.Words, and so can say nothing
// that the vocabulary does not. Create writes files that are not there yet, and
// touches none that are.
package scribe
