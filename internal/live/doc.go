// Package live serves the site of a journal while it is being written: from
// memory, rebuilt at every save, with open pages changed where they stand.
//
// # What is served
//
// Nothing but the pages of the last build, one script (/live.js) and the
// stream of news that the script listens to (/live-events?page=/gyles/14/). No
// file is ever read because somebody asked for it. A page is rendered when it is
// first asked for, and its bytes are kept until the next build; they are those
// that a publication would write, but for the tag of the script and for drafts. A
// page that cannot be rendered says so; the others stand.
//
// # Who is served
//
// Whoever reaches the address, which is the machine itself unless told
// otherwise. A page from elsewhere that runs in the brewer's own browser must
// not read the book, so a request is refused when its Host is not this
// server's own, when its Origin is another, and when the browser says that
// another site's page made it; a link followed from elsewhere is let through.
// Nothing may be written: GET and HEAD are all there is. Connections, streams, the
// size of a request and the time it may take are bounded.
//
// # How it learns of a save
//
// Folders are watched, never files, since most editors save by renaming a new
// file over the old one (watch.go). One save makes several events, so the watcher
// waits until there has been quiet for a moment: a longer one where many files
// are written. A new folder is watched and then looked into, so that a file
// written at once into it is not missed; after an overflow of events everything
// is looked at. Where the system has no watches left to give, that is said, and
// the folder is looked at every second.
//
// # What is read again
//
// Only what was saved (folder.go). A file that comes to say less than it said, as
// one half written does, or one that an editor has just moved aside, is doubted: it
// stays as it was and is looked at again a moment later. A file that is then still
// broken is held: pages show the last version without its errors, and the errors
// over it, until it is mended.
//
// # What is made again
//
// The whole book and site, but for what the store has (book.OpenWith, package store).
// After each build the pages that are open somewhere are rendered, the quickest first,
// and their bytes compared by a tag; only who shows a page that is another now is told
// (news.go). The script fetches it and changes what differs between the two pages as
// sent, so that what a reader or another script did to the page stays (live.js). The
// tag of the search page is also that of what it searches, so that its hits follow the
// journal.
//
// # The clock
//
// A book's clock stands while nothing that an entry dates has come since, at most
// a quarter of an hour: so that a save works out what was saved, and not all beer
// in hand once more. It is set anew at midnight.
package live
