package site

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"strings"
	"testing"
	"testing/fstest"

	"gylebook/internal/site/picture"
)

// located is a JPEG that says where it was taken.
func located(t testing.TB) []byte {
	t.Helper()
	var plain bytes.Buffer
	if err := jpeg.Encode(&plain, image.NewGray(image.Rect(0, 0, 600, 400)), nil); err != nil {
		t.Fatal(err)
	}
	var tiff bytes.Buffer
	tiff.WriteString("II\x2a\x00\x08\x00\x00\x00")
	binary.Write(&tiff, binary.LittleEndian, []uint16{1, 0x010E, 2})
	binary.Write(&tiff, binary.LittleEndian, []uint32{25, 26, 0})
	tiff.WriteString("GPS 51.5074 N, 0.1278 W\x00")
	segment := append([]byte("Exif\x00\x00"), tiff.Bytes()...)
	out := append([]byte{0xFF, 0xD8, 0xFF, 0xE1, byte((len(segment) + 2) >> 8), byte(len(segment) + 2)}, segment...)
	return append(out, plain.Bytes()[2:]...)
}

// privateJournal is a journal where everything private in it has the word Hush.
func privateJournal(t testing.TB) fstest.MapFS {
	files := entries(
		"index.md", "---\njournal: Quiet\nprivate: [tasters, costs] # Hush-comment\n---\nHello.\n",
		"cards/one.md", "---\ncard: taster\nname: Hushwell\nalso: [Hush, Old Hushwell]\nshown_as: Hushy\n---\nHush-card.\n",
		"cards/two.md", "---\ncard: taster\nname: Hushby\n---\nHush-card.\n",
		"gyles/1.md", `---
gyle: 1 # Hush-comment
beer: Plain
brewed: 2026-01-02
cover: photos/a.jpg
tastings:
  - {when: 2026-02-02, by: Hushwell, score: 60, out_of: 50, text: "Old Hushwell says it is fine."}
  - {when: 2026-02-02x, by: Hushby, found: [flat]}
  - {when: 2026-02-03, by: Hushmore, sparkler: perhaps Hush}
costs:
  - {what: Hush malt, paid: 6.25 GBP}
  - {what: Hush hops, paid: 6,25 GBP}
photos: [{file: photos/a.jpg, alt: A picture}]
mystery: Hush-unknown
# Hush-comment
---
A story of [](taster:hushwell) and [him](../cards/two.md).
`)
	files["photos/a.jpg"] = &fstest.MapFile{Data: located(t)}
	return files
}

func TestNothingPrivateIsPublished(t *testing.T) {
	for _, live := range []bool{false, true} {
		s := build(t, privateJournal(t), Options{Live: live})
		if len(s.gyles) != 1 || len(s.gyles[0].Notices) < 3 {
			t.Fatal("the journal raises no errors to hide")
		}
		for name, text := range rendered(t, s) {
			lower := strings.ToLower(text)
			for _, secret := range []string{"hush", "6.25", "6,25", "gps 51", "0.1278"} {
				// The story may say what it likes, and links by name.
				if strings.Contains(strings.ReplaceAll(strings.ReplaceAll(lower, "taster:hushwell", ""), "../cards/two.md", ""), secret) {
					t.Errorf("live %v: %s has %q: %s", live, name, secret, around(lower, secret))
				}
			}
		}
		wants(t, page(t, s, "gyles/1/index.html"), "a friend", "something private in it", "a friend</span> and")
	}
}

func around(text, part string) string {
	at := strings.Index(text, part)
	return text[max(0, at-80):min(len(text), at+80)]
}

func TestWhatIsNotPrivateIsPublished(t *testing.T) {
	files := privateJournal(t)
	files["index.md"].Data = []byte("---\njournal: Loud\nprivate: [nothing]\n---\n")
	s := build(t, files, Options{})
	wants(t, page(t, s, "gyles/1/index.html"), "Hushy", "Hush malt", "6.25", "6.25\u00a0GBP")
	wants(t, page(t, s, "tasters/hushwell/index.html"), "Hushy", "Plain")
	wants(t, page(t, s, "tasters/index.html"), "Hushy")
}

func TestPrivatePhotosAndParties(t *testing.T) {
	files := entries(
		"index.md", "---\njournal: Quiet\nprivate: [photos, party]\n---\n",
		"gyles/1.md", "---\ngyle: 1\nbeer: Plain\nbrewed: 2026-05-02\ncover: photos/a.jpg\nparty: {on: 2026-06-20, guests: 10, occasion: Hush do}\nphotos: [{file: photos/a.jpg, alt: Hush}]\n---\nBeer.\n")
	files["photos/a.jpg"] = &fstest.MapFile{Data: located(t)}
	for name, text := range rendered(t, build(t, files, Options{})) {
		if strings.Contains(text, "Hush") || strings.HasPrefix(name, "photos/") {
			t.Errorf("%s is published or tells of it: %s", name, around(text, "Hush"))
		}
	}
}

func TestPicturesLoseTheirMetadata(t *testing.T) {
	data := located(t)
	if !bytes.Contains(data, []byte("GPS 51")) {
		t.Fatal("the test's picture says nothing")
	}
	look, err := picture.Examine(data)
	if err != nil {
		t.Fatal(err)
	}
	if made, err := picture.Shrink(data, look); err != nil || bytes.Contains(made[0], []byte("GPS")) {
		t.Error("the place is still in it", err)
	}
}

func TestDraftsAreShownOnlyLive(t *testing.T) {
	files := archive(t, "testdata/site/small.txtar")
	for name, text := range rendered(t, build(t, files, Options{})) {
		if strings.Contains(text, "Secret") || strings.HasPrefix(name, "gyles/3/") {
			t.Errorf("%s tells of the draft: %s", name, around(text, "Secret"))
		}
	}
	wants(t, page(t, build(t, files, Options{Live: true}), "gyles/3/index.html"), "Secret Stout", "draft, not published", "live.js")
}
