package picture

import (
	"bytes"
	"image"
	"image/png"
	"testing"
)

// FuzzExamine: any bytes are refused in words, or give a picture of the promised sizes, or an
// error; none takes more memory than is stated.
func FuzzExamine(f *testing.F) {
	small := withEXIF(f, halves(60, 30), 6)
	f.Add(small)
	var encoded bytes.Buffer
	if err := png.Encode(&encoded, halves(9, 9)); err != nil {
		f.Fatal(err)
	}
	f.Add(encoded.Bytes())
	f.Add([]byte("RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00\x2f\x00\x00\x00\x00\x07\x10\x11\x11\x88\x88\x08\x07\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		look, err := Examine(data)
		if err != nil {
			if err.Error() == "" {
				t.Error("refused without a word")
			}
			return
		}
		if max(look.Width, look.Height) > maxSide || float64(look.Width)*float64(look.Height) > maxPixels {
			t.Fatalf("%d by %d pixels are let through", look.Width, look.Height)
		}
		if look.Width*look.Height > 1<<20 {
			return // it would be decoded right, and slowly
		}
		made, err := Shrink(data, look)
		if err != nil {
			return
		}
		for i, size := range look.Sizes() {
			config, _, err := image.DecodeConfig(bytes.NewReader(made[i]))
			if err != nil || config.Width != size.X || config.Height != size.Y {
				t.Errorf("size %v came out as %d by %d: %v", size, config.Width, config.Height, err)
			}
		}
	})
}
