// Package publish puts a set of pages onto disk, all or nothing.
//
// An [Edition] is one complete set of pages for one folder, the site. [Begin]
// opens it, [Edition.Put] adds pages in any order and from any number of
// goroutines, and [Edition.Commit] makes the site hold exactly these pages.
// Until Commit the site is not touched; [Edition.Abort] forgets the edition.
// The same pages give the same tree, whatever the order of the Puts.
//
// # Whose files
//
// The site folder carries a list of what was written into it,
// .gylebook-files: a comment line naming the format, then for each file its
// SHA-256 and its slash path, sorted by path. "sha256sum --check" reads it.
// A file is ours if the list names it and its bytes are still the listed ones.
// Nothing else is ever overwritten or deleted:
//
//   - A name in [Options.Keep], and all below it, is passed over: it is neither
//     looked at nor written, and a page put there is left out and reported as
//     kept.
//   - Anything else in the folder is a stranger: a file or folder that the list
//     does not name, or a listed file that somebody has edited since. Begin
//     refuses the folder and names the strangers ([StrangersError]). An edit is
//     refused, not kept, because a kept edit would go stale in silence.
//   - A listed file that has gone is no matter; it is written again.
//
// # How the site changes
//
// Changed pages are staged as they are put, in a hidden folder beside the site
// (.NAME.gylebook-stage) on the same file system. Where nothing changed the
// stage is thrown away and the site stays untouched, times included. Otherwise
// Commit takes the first of these ways that is open:
//
//  1. Rename: there is no site yet; the stage becomes it.
//  2. Exchange: unchanged files are hard-linked from the old site into the
//     stage (copied where links are refused), so that they keep their times, and
//     so is all that is kept; then the two folders change places in one system
//     call, and the old one is deleted file by file, each page's bytes being
//     checked once more, and a kept file only where the new site has the same.
//  3. Roll forward: the stage is completed, every folder that a file must go into
//     or out of is tried for whether that may be done, a record of every change is written
//     and synced, and then the files are moved one by one: removals first, then
//     new files, the list last. A reader can see a mixture while this lasts, but
//     never half a file.
//
// Folders that are emptied go too.
//
// The third way is for what cannot be exchanged: a mount point, a file system
// or an operating system without the call (Windows), and a site whose kept files
// cannot be in two folders at once: pipes, mounts, other people's files, folders
// that their owner may not write into, and more than 20,000 of them. Where it is
// cut short Commit says so with an [UnfinishedError]. If the site is a mount point, or the
// folder around it may not be written to, the stage lies inside the site as
// .gylebook-stage.
//
// With the second way the site is a new folder after each change. A program
// that has the old one as its working folder goes on seeing the old one, empty.
//
// # When it is cut off
//
// If the process is killed, the site is wholly old or wholly new in the first
// two ways, and in the third until the record is written. The next Begin clears
// away what was left behind, or, finding a record, finishes the roll first.
//
// If the machine fails, the same holds as far as the system allows. Pages are
// not synced one by one, which costs milliseconds each: on Linux one syncfs
// flushes them all before the exchange or the record, then the folders are
// synced. Elsewhere on Unix sync(2) is called in its place, which some systems
// return from early. On Windows only the record is synced, so a page may come
// out torn; Begin then names it as edited, and deleting it mends the site.
//
// # One at a time
//
// A lock file in the stage's folder admits one edition for each site; a second
// Begin is refused with [ErrBusy]. The system drops the lock with the process,
// so a killed publisher locks nobody out.
//
// # Which folders
//
// A symbolic link to a folder is followed and stays; missing parents are made.
// Refused are a link to nothing, a file, and the root folder, the home folder
// or the working folder or any folder around the last two, since those would be
// exchanged from under whoever stands in them.
package publish
