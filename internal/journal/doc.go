// Package journal reads a gyle book: a folder of Markdown files into typed
// entries and cards, with the place of every value, and all that cannot be read
// as notices. It works nothing out: whether a value can be true is not its
// business, only whether it can be read.
//
// Read reads a whole journal from an fs.FS; Root makes one of a folder that
// nothing leads out of. ReadFile reads one file and is pure, so that whoever
// watches a journal can read again what changed and put it in with
// Journal.With.
//
// # Files
//
// Every .md file is a document, and what it is its front matter says: a gyle
// has the key gyle, a card the key card, the settings the key journal. Anything
// else is a note, if it has no front matter or only the keys of a note. The
// settings stand in index.md at the top of the journal and nowhere else, since
// their time zone and their ignore patterns decide how the others are read.
//
// Dot-files, what editors leave behind (name~, #name#, *.swp, *.tmp, *.bak) and
// what ignore names are passed over. A pattern with a slash is held against the
// path from the top of the journal, one without against the last part of it; a
// folder that matches is passed over with all in it. Links are reported and
// never followed. A file has at most 1 MiB, its front matter 64 KiB.
//
// # Front matter
//
// It is YAML 1.2 between two lines of --- that begin in the first column, the
// first of them before anything but blank lines. A byte-order mark and any kind
// of line end are allowed. Lines count in the file, columns in characters.
//
// A file is withheld, so that it is never published half read, where its front
// matter never ends, is of another kind (+++, {), does not say what the file is,
// or is no map of keys. Where it is no YAML, the file is Unread: a gyle still
// has its number, name and draft mark if their lines stand by themselves, and
// its story; settings keep every line that does, and hide all that may be
// private.
//
// YAML's own types count for nothing: each value is read from its text as the
// type of its key demands. So a beer may be called No, 042 is
// forty-two, 2026-03-07 is a date only where a date is wanted. A key with
// nothing after it (or ~, or null) is not written. Anchors, aliases, merge keys
// and tags are refused: a value stands where it belongs and means what it says.
//
// # Values
//
// The vocabulary is the struct tags of Gyle, Card, Settings, Note and the types
// below them; Words lists it, Schema puts it as JSON Schema, LookUp answers
// for one key. It is closed: a key or word that is not in it is an error.
//
//   - Quantities and ranges are as package quantity describes them. Where a key
//     allows it, the word none stands for something left out on purpose.
//   - A moment is 2026-03-07, 2026-03-07 16:10, 2026-03-07T16:10 (seconds if
//     wished) or RFC 3339. Without an offset it is by the journal's clock. An
//     hour that a change of the clock leaves out is read as if the clock had
//     not changed yet; of an hour that comes twice, the first is meant.
//   - Money is an amount and three letters: 3.80 GBP.
//   - A whole number is decimal digits. A flag is yes or no, or true or false. A choice is one
//     of its words, as listed. A name leads to a card or a page of the kind that
//     the key says, by its name or other spelling without regard to case and
//     spaces; there need not be a card.
//   - A list is written as a list, but one map may stand for a list of maps with
//     one in it. units: uk stands for a map that says uk for all.
//
// # Errors
//
// All errors of a file are reported at once (to a hundred), each with its place,
// its line, what was found, what was expected, and the likely meaning. An error
// takes away only what it touches: a value counts as not written, a key as not
// there, and everything beside it is read. Gyle.Unreadable tells it from what was
// never written. What stands under a key that was surely meant by another is read
// for its errors. Of a key that stands twice, the first counts. In a list of maps a
// part that cannot be read keeps its place, since packages are counted; such a
// part is not Written. A draft mark that cannot be read counts as true, and private
// settings that cannot be read as everything: what is in doubt is not published.
//
// Two gyles of one number, and two cards of one kind and name, are an error on
// both; all of them are kept, and the first by file answers.
//
// # Loggers' files
//
// readings_from names a CSV file, beside the entry or from the top of the journal.
// ReadOne reads it with the entry; ReadFile, which opens nothing, leaves it to
// Document.ReadLogOf. A file that is not there, leads out of the journal or through
// a link, or has more than 256 MiB is an error at the key; a row that cannot be read
// is an error at its own line of that file, and after twenty they are counted. See
// ReadLog for what such a file may look like. Journal.ReadersOf tells which entries
// to read anew when one changes.
//
// # What-ifs
//
// ReadFileSet applies settings of the form KEY=VALUE to the parsed front matter
// before it is read, and leaves the file alone. KEY is a path: keys with dots
// between them, [n] for the nth part of a list from 0, [+] for a new part at
// its end. What the path lacks is made; an empty VALUE takes away what is
// there. A VALUE that begins with [, { or a quotation mark is YAML; any other
// is taken as it stands. A value from the nth set has the place --set:n:1.
//
// # Outline
//
// OutlineOf tells where each key and value of a front matter stands in the bytes
// of its file, from first to last, for whoever writes into one.
//
// # The larder
//
// Larder answers for cards: the brewer's own first, then the built-in ones, from
// the YAML files in the larder folder, which have the same vocabulary and say
// where each fact is from. Vessels answer to a
// kind (keg), to a kind and size in either order and with other words beside them
// (soft bag 10 L, 2 L PET bottle), and to pin, firkin and kilderkin. A size that
// may be one of two, such as the pint, counts as not known. Yeasts and bacteria
// that go on where others stop answer to the word that tells what they are, with
// any others beside it (house brett 3).
//
// # Publication
//
// Redact is the source of an entry as it may be published: comments and private
// values blanked, line for line.
package journal
