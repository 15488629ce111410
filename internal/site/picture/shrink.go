package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"

	"github.com/kovidgoyal/imaging"
	"github.com/kovidgoyal/imaging/nrgb"
)

// quality is that of the JPEGs made: below 80 skies show steps, above 85 the
// files grow without visible gain (common practice, no source).
const quality = 82

// Recipe changes when Shrink would make other bytes of the same picture, so that
// what was kept of an older one is not used.
const Recipe = "1"

// Shrink makes a picture in all its sizes, in the order of Look.Sizes. It takes
// a third of a second and 100 MB for 12 million pixels, so callers let one run
// at a time. A picture whose metadata cannot be read is taken as upright and in
// the colours of sRGB.
func Shrink(data []byte, look Look) (made [][]byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			made, err = nil, fmt.Errorf("decoding a picture: %v", r)
		}
	}()
	whole, err := decode(data)
	if err != nil {
		return nil, fmt.Errorf("decoding a picture: %w", err)
	}
	if size := whole.Bounds().Size(); size != image.Pt(look.Width, look.Height) {
		return nil, fmt.Errorf("decoding a picture: it is %v and was to be %d by %d", size, look.Width, look.Height)
	}
	for _, size := range look.Sizes() {
		resized := whole
		if size != whole.Bounds().Size() {
			resized = imaging.Resize(whole, size.X, size.Y, imaging.CatmullRom)
		}
		encoded, err := encode(resized, look.Extension)
		if err != nil {
			return nil, fmt.Errorf("encoding a picture: %w", err)
		}
		made = append(made, encoded)
	}
	return made, nil
}

// decode reads a picture upright. Only Go's own decoders are used: the library
// would otherwise start another program for what they refuse.
func decode(data []byte) (image.Image, error) {
	whole, err := imaging.Decode(bytes.NewReader(data), imaging.Backends(imaging.GO_IMAGE))
	if err == nil {
		return whole, nil
	}
	// Broken metadata must not hide a sound picture.
	whole, _, plainErr := image.Decode(bytes.NewReader(data))
	if plainErr != nil {
		return nil, errors.Join(err, plainErr)
	}
	return whole, nil
}

func encode(img image.Image, extension string) ([]byte, error) {
	var buffer bytes.Buffer
	var err error
	if extension == ".jpg" {
		err = jpeg.Encode(&buffer, opaque(img), &jpeg.Options{Quality: quality})
	} else {
		err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&buffer, img)
	}
	return buffer.Bytes(), err
}

// opaque is the picture in a form that the JPEG encoder is fast with, and never
// see-through.
func opaque(img image.Image) image.Image {
	switch img := img.(type) {
	case *image.YCbCr, *image.Gray, *image.RGBA:
		return img
	case *nrgb.Image:
		return fromRGB(img)
	}
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Over)
	return out
}

func fromRGB(img *nrgb.Image) *image.RGBA {
	out := image.NewRGBA(img.Rect)
	for y := range img.Rect.Dy() {
		from, to := img.Pix[y*img.Stride:], out.Pix[y*out.Stride:]
		for x := range img.Rect.Dx() {
			to[4*x], to[4*x+1], to[4*x+2], to[4*x+3] = from[3*x], from[3*x+1], from[3*x+2], 255
		}
	}
	return out
}

// Blank is a plain grey picture of a size, to stand where one was promised that
// could not be made.
func Blank(size image.Point, extension string) ([]byte, error) {
	img := image.NewGray(image.Rectangle{Max: size})
	draw.Draw(img, img.Rect, image.NewUniform(color.Gray{Y: 0xC0}), image.Point{}, draw.Src)
	return encode(img, extension)
}
