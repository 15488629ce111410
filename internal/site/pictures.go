package site

import (
	"errors"
	"html/template"
	"path"
	"strconv"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/site/markdown"
	"gylebook/internal/site/view"
)

// isPicture tells a picture by its name.
func isPicture(name string) bool {
	switch strings.ToLower(path.Ext(name)) {
	case ".jpg", ".jpeg", ".png", ".webp":
		return true
	}
	return false
}

// pictureSizes is how wide a picture is shown: the text's measure, or the window
// where that is narrower.
const pictureSizes = "(max-width: 44rem) 92vw, 38rem"

// picture is what a destination of a story shows.
func (r *resolver) picture(destination string) markdown.Picture {
	scheme, _, found := strings.Cut(destination, ":")
	if found && !strings.ContainsAny(scheme, "/.?# ") || strings.HasPrefix(destination, "//") {
		return markdown.Picture{Name: destination, Link: r.link(destination).Href, Fault: markdown.Fault{
			ID: "picture-elsewhere", Says: "a picture from elsewhere is only linked: " + destination,
			Why: "To load it would tell another site who reads this one.", Do: "Put a copy into the journal.",
		}}
	}
	written, _, _ := strings.Cut(destination, "?")
	name, ok := r.inJournal(written)
	if !ok {
		return markdown.Picture{Name: destination, Fault: missingPicture(destination)}
	}
	shown, fault := r.site.show(name)
	shown.Name = destination
	if all := r.pictures(); fault.ID == "picture-missing" && len(all) > 0 {
		fault.Do = "The nearest picture is " + near(name, all) + "."
	}
	shown.Fault = fault
	return shown
}

// pictures are the names of the journal's pictures.
func (r *resolver) pictures() []string {
	var all []string
	for _, f := range r.site.book.Journal.Files {
		if isPicture(f.Name) {
			all = append(all, f.Name)
		}
	}
	return all
}

// show is a picture of the journal, with what is wrong with it.
func (s *Site) show(file string) (markdown.Picture, markdown.Fault) {
	out := markdown.Picture{Name: file}
	if _, listed := s.files[file]; !listed {
		return out, missingPicture(file)
	}
	p := s.photos.look(file)
	switch {
	case errors.Is(p.err, errNoPicture):
		return out, missingPicture(file)
	case errors.Is(p.err, errPictureUnread):
		return out, markdown.Fault{
			ID: unreadPicture, Says: "the picture " + file + " is there, and " + p.err.Error(), Do: "Look at its permissions.",
		}
	case p.err != nil:
		return out, markdown.Fault{
			ID: "picture-broken", Says: "the picture " + file + " cannot be shown: " + p.err.Error(),
			Do: "Copy it again from where it came, or save it as a JPEG.",
		}
	}
	sizes := p.look.Sizes()
	largest := sizes[len(sizes)-1]
	out.Src = markdown.Root + escapePath(p.path(largest))
	out.Width, out.Height = largest.X, largest.Y
	if len(sizes) > 1 {
		var set []string
		for _, size := range sizes {
			set = append(set, markdown.Root+escapePath(p.path(size))+" "+strconv.Itoa(size.X)+"w")
		}
		out.SrcSet, out.Sizes = strings.Join(set, ", "), pictureSizes
	}
	return out, markdown.Fault{}
}

// unreadPicture is the id of a picture that is there and cannot be read: an error, as of any
// other file of the journal.
const unreadPicture = journal.UnreadableID

// severityOf is how grave a fault of a story or a picture is.
func severityOf(id string) notice.Severity {
	switch id {
	case unreadPicture:
		return notice.Unreadable
	case "link-to-draft", "alt-missing":
		return notice.Note
	}
	return notice.Look
}

func missingPicture(name string) markdown.Fault {
	return markdown.Fault{
		ID: "picture-missing", Says: "there is no picture " + name, Why: "A box with its name stands for it.",
		Do: "Put it into the journal's folder, or check its name.",
	}
}

// toPicture is a link to a picture: to the larger of those made of it, since the
// picture itself keeps its metadata.
func (r *resolver) toPicture(name, destination string) markdown.Target {
	shown, fault := r.site.show(name)
	if shown.Src == "" {
		if fault.ID != unreadPicture {
			fault.ID = "link-dead"
		}
		return markdown.Target{Text: destination, Fault: fault}
	}
	return markdown.Target{Href: shown.Src, Text: path.Base(name)}
}

// gylePhotos are the pictures that an entry names outside of its story.
func (s *Site) gylePhotos(g *book.Gyle) []string {
	if s.private.Photos {
		return nil
	}
	var files []string
	if g.Cover.Text != "" {
		files = append(files, path.Clean(g.Cover.Text))
	}
	for _, p := range g.Photos {
		if p.File.Text != "" {
			files = append(files, path.Clean(p.File.Text))
		}
	}
	return files
}

// photoNotices is what is wrong with those.
func (s *Site) photoNotices(g *book.Gyle) []notice.Notice {
	if s.private.Photos {
		return nil
	}
	var all []notice.Notice
	check := func(file journal.Text) {
		if file.Text == "" {
			return
		}
		if _, f := s.show(path.Clean(file.Text)); f.ID != "" {
			all = append(all, notice.Notice{
				Place: file.Place, Severity: severityOf(f.ID), ID: f.ID, Says: f.Says, Do: f.Do,
				Source: "common practice, no source",
			})
		}
	}
	check(g.Cover)
	for _, p := range g.Photos {
		check(p.File)
		if p.Alt.Text == "" && p.File.Text != "" {
			all = append(all, notice.Notice{
				Place: p.Where.Place, Severity: notice.Note, ID: "alt-missing",
				Says: "the picture " + p.File.Text + " has no words for those who cannot see it",
				Why:  "A screen reader has nothing to say for it.", Do: "Add alt: and what it shows.",
				Source: "common practice, no source",
			})
		}
	}
	return all
}

// cover is the picture for the top of a gyle's page. Its words are those that
// the photos give for the same file.
func (w pageWriter) cover(g *book.Gyle) view.Picture {
	if g.Cover.Text == "" || w.private.Photos {
		return view.Picture{}
	}
	file := path.Clean(g.Cover.Text)
	if w.inStory(g, file) {
		return view.Picture{}
	}
	alt, caption, when := beer(g), "", ""
	for _, p := range g.Photos {
		if path.Clean(p.File.Text) == file {
			if p.Alt.Text != "" {
				alt = p.Alt.Text
			}
			caption, when = p.Caption.Text, w.spell.date(p.When)
		}
	}
	return view.Picture{HTML: w.image(file, alt, false), Caption: caption, When: when}
}

// inStory tells whether a gyle's story shows a picture itself, so that it need
// not stand on the page twice.
func (w pageWriter) inStory(g *book.Gyle, file string) bool {
	shown, _ := w.show(file)
	return shown.Src != "" && strings.Contains(w.story(g.File).html, `<img src="`+shown.Src+`"`)
}

// image is a picture of the journal as an element of this page.
func (w pageWriter) image(file, alt string, lazy bool) template.HTML {
	shown, _ := w.show(file)
	return template.HTML(markdown.Place(markdown.ImageHTML(shown, alt, "", lazy), w.root, ""))
}

// gallery is the photos of an entry but its cover.
func (w pageWriter) gallery(g *book.Gyle) []view.Picture {
	if w.private.Photos {
		return nil
	}
	var all []view.Picture
	for _, p := range g.Photos {
		file := path.Clean(p.File.Text)
		if p.File.Text == "" || file == path.Clean(g.Cover.Text) || w.inStory(g, file) {
			continue
		}
		all = append(all, view.Picture{
			HTML: w.image(file, p.Alt.Text, true), Caption: p.Caption.Text,
			When: w.spell.date(p.When),
		})
	}
	return all
}
