// Package picture makes the pictures of a journal fit to publish: upright, no
// larger than a page needs, and without metadata, since a telephone's picture
// says where the brewer lives.
//
// Look reads only a picture's beginning and end, so that a page can state the
// size of what Shrink, which decodes it all, will make later.
//
// JPEG, PNG and WebP are taken. What comes out is JPEG, or PNG where the picture
// was PNG or may be see-through.
package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	_ "image/jpeg" // the formats that DecodeConfig knows
	_ "image/png"

	"github.com/kovidgoyal/imaging/prism/meta/autometa"
	"github.com/rwcarlsen/goexif/exif"
	_ "golang.org/x/image/webp"
)

// Widths are the widths made, in pixels. A smaller picture is never enlarged.
var Widths = [...]int{480, 1200}

// The most that is decoded. A telephone's picture has 12 to 50 million pixels
// and 3 to 20 MB; a picture may claim far more than it has.
const (
	maxPixels   = 120e6
	maxSide     = 32_000 // pixels: more is no photograph, and costs memory by the row
	maxUnfolded = 480e6  // bytes once decoded
	MaxBytes    = 64 << 20
)

// Look is what the beginning of a picture says.
type Look struct {
	Width, Height int    // in pixels, upright
	Extension     string // of what Shrink makes: ".jpg" or ".png"
}

// Examine looks at a picture. The error says in plain words why it cannot be
// shown.
func Examine(data []byte) (Look, error) {
	if len(data) > MaxBytes {
		return Look{}, fmt.Errorf("it has more than %d MB", MaxBytes>>20)
	}
	config, format, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil && errors.Is(err, image.ErrFormat):
		return Look{}, errors.New("it is not a JPEG, PNG or WebP picture")
	case err != nil:
		return Look{}, errors.New("its beginning cannot be read")
	case format != "jpeg" && format != "png" && format != "webp":
		return Look{}, errors.New("it is not a JPEG, PNG or WebP picture")
	case config.Width < 1 || config.Height < 1:
		return Look{}, errors.New("it has no size")
	case float64(config.Width)*float64(config.Height) > maxPixels:
		return Look{}, fmt.Errorf("it has more than %d million pixels", int(maxPixels/1e6))
	case max(config.Width, config.Height) > maxSide:
		return Look{}, fmt.Errorf("a side of it has more than %d pixels", maxSide)
	case float64(config.Width)*float64(config.Height)*bytesPerPixel(config.ColorModel) > maxUnfolded:
		return Look{}, fmt.Errorf("it unfolds to more than %d MB", int(maxUnfolded/1e6))
	case !whole(data, format):
		return Look{}, errors.New("its end is missing")
	}
	look := Look{Width: config.Width, Height: config.Height, Extension: ".png"}
	if format == "jpeg" || format == "webp" && config.ColorModel == color.YCbCrModel {
		look.Extension = ".jpg"
	}
	if turned(data) {
		look.Width, look.Height = look.Height, look.Width
	}
	return look, nil
}

// bytesPerPixel is what a pixel takes once decoded.
func bytesPerPixel(m color.Model) float64 {
	switch m {
	case color.GrayModel:
		return 1
	case color.Gray16Model:
		return 2
	case color.YCbCrModel:
		return 3
	case color.RGBA64Model, color.NRGBA64Model:
		return 8
	}
	return 4
}

// whole tells whether a picture ends as its format does: what a broken copy
// lacks is its end.
func whole(data []byte, format string) bool {
	tail := data[max(0, len(data)-64<<10):]
	switch format {
	case "jpeg":
		return bytes.Contains(tail, []byte{0xFF, 0xD9})
	case "png":
		return bytes.Contains(tail, []byte("IEND"))
	}
	// RIFF: the length of what follows its first eight bytes.
	if len(data) < 12 {
		return false
	}
	length := uint64(data[4]) | uint64(data[5])<<8 | uint64(data[6])<<16 | uint64(data[7])<<24
	return length+8 <= uint64(len(data))+1
}

// turned tells whether EXIF says that the picture lies on its side. What cannot
// be read counts as upright, here as in Shrink.
func turned(data []byte) (sideways bool) {
	defer func() {
		if recover() != nil {
			sideways = false
		}
	}()
	metadata, _, err := autometa.Load(bytes.NewReader(data))
	if err != nil || metadata == nil {
		return false
	}
	tags, err := metadata.Exif()
	if err != nil || tags == nil {
		return false
	}
	tag, err := tags.Get(exif.Orientation)
	if err != nil || tag == nil {
		return false
	}
	orientation, err := tag.Int(0)
	return err == nil && orientation >= 5 && orientation <= 8
}

// Sizes are the widths that a picture of this look is made in, each with its
// height, rising: one or two of Widths, or its own width where that is less.
func (l Look) Sizes() []image.Point {
	var sizes []image.Point
	for _, width := range Widths {
		if width >= l.Width {
			sizes = append(sizes, image.Pt(l.Width, l.Height))
			break
		}
		sizes = append(sizes, image.Pt(width, max(1, (l.Height*width+l.Width/2)/l.Width)))
	}
	return sizes
}
