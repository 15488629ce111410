// Package live serves the site of a journal while it is being written: from
// memory, rebuilt at every save, with open pages told to load themselves again.
//
// # What is served
//
// Nothing but the pages of the last build, one script (/live.js) and the
// stream of news that the script listens to (/live-events). No file is ever
// read because somebody asked for it. A page is rendered when it is first asked
// for, and its bytes are kept until the next build. A page that cannot be
// rendered says so; the others stand.
//
// # Who is served
//
// Whoever reaches the address, which is the machine itself unless told
// otherwise. A page from elsewhere that runs in the brewer's own browser must
// not read the book, so a request is refused when its Host is not this
// server's own, when its Origin is another, and when the browser says that
// another site's page made it; a link followed from elsewhere is let through.
// Nothing may be written: GET and HEAD are all there is.
//
// # How it learns of a save
//
// Folders are watched, never files, since most editors save by renaming a new
// file over the old one. One save makes several events, so the watcher waits
// until there has been quiet for a moment. Before each build it looks for new
// folders, so that a file written at once into one is not missed, and after an
// overflow of events it looks at everything, which is what each build does
// anyhow.
package live
