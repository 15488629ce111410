package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"slices"
	"strings"
	"testing"
)

// halves is a picture whose left half is red, so that its turning shows.
func halves(width, height int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			c := color.RGBA{0, 0, 255, 255}
			if x < width/2 {
				c = color.RGBA{255, 0, 0, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

// withEXIF is a JPEG with an orientation and a place, as a telephone writes it.
func withEXIF(t testing.TB, img image.Image, orientation uint16) []byte {
	t.Helper()
	var plain bytes.Buffer
	if err := jpeg.Encode(&plain, img, nil); err != nil {
		t.Fatal(err)
	}
	var tiff bytes.Buffer
	tiff.WriteString("MM\x00\x2a\x00\x00\x00\x08")
	entries := [][4]any{
		{uint16(0x0112), uint16(3), uint32(1), uint32(orientation) << 16},
		{uint16(0x8825), uint16(4), uint32(1), uint32(8 + 2 + 2*12 + 4)},
	}
	binary.Write(&tiff, binary.BigEndian, uint16(len(entries)))
	for _, e := range entries {
		for _, v := range e {
			binary.Write(&tiff, binary.BigEndian, v)
		}
	}
	binary.Write(&tiff, binary.BigEndian, uint32(0))
	binary.Write(&tiff, binary.BigEndian, uint16(1)) // the GPS directory: its latitude reference
	binary.Write(&tiff, binary.BigEndian, uint16(1))
	binary.Write(&tiff, binary.BigEndian, uint16(2))
	binary.Write(&tiff, binary.BigEndian, uint32(4))
	tiff.WriteString("N51\x00")
	binary.Write(&tiff, binary.BigEndian, uint32(0))
	tiff.WriteString("GPS-PLACE-51.5074")
	segment := append([]byte("Exif\x00\x00"), tiff.Bytes()...)
	out := append([]byte{0xFF, 0xD8, 0xFF, 0xE1, byte((len(segment) + 2) >> 8), byte(len(segment) + 2)}, segment...)
	return append(out, plain.Bytes()[2:]...)
}

func TestShrink(t *testing.T) {
	data := withEXIF(t, halves(1600, 800), 1)
	look, err := Examine(data)
	if err != nil {
		t.Fatal(err)
	}
	if look != (Look{1600, 800, ".jpg"}) {
		t.Fatalf("look %+v", look)
	}
	made, err := Shrink(data, look)
	if err != nil {
		t.Fatal(err)
	}
	want := []image.Point{{480, 240}, {1200, 600}}
	for i, encoded := range made {
		img, format, err := image.Decode(bytes.NewReader(encoded))
		if err != nil || format != "jpeg" || img.Bounds().Size() != want[i] {
			t.Errorf("size %d: %v %v %v", i, img.Bounds(), format, err)
		}
		if bytes.Contains(encoded, []byte("Exif")) || bytes.Contains(encoded, []byte("GPS-PLACE")) {
			t.Errorf("size %d still has metadata", i)
		}
	}
	again, _ := Shrink(data, look)
	if !bytes.Equal(made[0], again[0]) || !bytes.Equal(made[1], again[1]) {
		t.Error("the same picture gave other bytes")
	}
}

func TestEveryOrientationComesOutUpright(t *testing.T) {
	// Where the red half of the stored picture belongs, by EXIF 2.3, 4.6.4 A:
	// 1 and 4 leave the left on the left, 2 and 3 move it right, 5 and 6 put it
	// on top, 7 and 8 at the bottom.
	red := map[uint16]string{1: "left", 2: "right", 3: "right", 4: "left", 5: "top", 6: "top", 7: "bottom", 8: "bottom"}
	for orientation, side := range red {
		data := withEXIF(t, halves(300, 100), orientation)
		look, err := Examine(data)
		if err != nil {
			t.Fatal(err)
		}
		made, err := Shrink(data, look)
		if err != nil {
			t.Fatalf("orientation %d: %v", orientation, err)
		}
		img, _, err := image.Decode(bytes.NewReader(made[0]))
		if err != nil {
			t.Fatal(err)
		}
		size := img.Bounds().Size()
		at := map[string]image.Point{"left": {5, size.Y / 2}, "right": {size.X - 5, size.Y / 2}, "top": {size.X / 2, 5}, "bottom": {size.X / 2, size.Y - 5}}
		for where, p := range at {
			r, _, b, _ := img.At(p.X, p.Y).RGBA()
			if where == side && r < b {
				t.Errorf("orientation %d: %s is not red", orientation, where)
			}
		}
		if size != image.Pt(look.Width, look.Height) {
			t.Errorf("orientation %d: %v, the look said %+v", orientation, size, look)
		}
	}
}

func TestNeverEnlarged(t *testing.T) {
	for _, c := range []struct {
		look Look
		want []image.Point
	}{
		{Look{Width: 300, Height: 200}, []image.Point{{300, 200}}},
		{Look{Width: 480, Height: 200}, []image.Point{{480, 200}}},
		{Look{Width: 600, Height: 200}, []image.Point{{480, 160}, {600, 200}}},
		{Look{Width: 5000, Height: 1}, []image.Point{{480, 1}, {1200, 1}}},
	} {
		got := c.look.Sizes()
		if len(got) != len(c.want) || got[0] != c.want[0] || got[len(got)-1] != c.want[len(c.want)-1] {
			t.Errorf("%+v: %v, want %v", c.look, got, c.want)
		}
	}
}

func TestSeeThroughStaysSo(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 900, 300))
	img.SetNRGBA(0, 0, color.NRGBA{1, 2, 3, 255})
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	look, err := Examine(b.Bytes())
	if err != nil || look.Extension != ".png" {
		t.Fatal(look, err)
	}
	made, err := Shrink(b.Bytes(), look)
	if err != nil {
		t.Fatal(err)
	}
	out, err := png.Decode(bytes.NewReader(made[0]))
	if err != nil {
		t.Fatal(err)
	}
	if _, _, _, a := out.At(400, 100).RGBA(); a != 0 {
		t.Errorf("alpha %d", a)
	}
}

func TestBroken(t *testing.T) {
	sound := withEXIF(t, halves(600, 300), 1)
	huge := append([]byte(nil), sound...)
	frame := bytes.Index(huge, []byte{0xFF, 0xC0})
	copy(huge[frame+5:], []byte{0xFF, 0xFF, 0xFF, 0xFF})
	for _, c := range []struct {
		name string
		data []byte
		says string
	}{
		{"cut", sound[:len(sound)/2], "its end is missing"},
		{"empty", nil, "not a JPEG"},
		{"text", []byte("hello"), "not a JPEG"},
		{"another format", []byte("GIF89a\x01\x00\x01\x00\x00\x00\x00"), "not a JPEG"},
		{"svg", []byte("<svg onload=alert(1)>"), "not a JPEG"},
		{"huge", huge, "million pixels"},
		{"beginning only", sound[:3], "cannot be read"},
	} {
		_, err := Examine(c.data)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.name, err, c.says)
		}
	}
	damaged := append([]byte(nil), sound...)
	for i := len(damaged) / 2; i < len(damaged)-2; i++ {
		damaged[i] = 0xFF
	}
	look, err := Examine(damaged)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Shrink(damaged, look); err == nil {
		t.Log("a damaged middle was decoded all the same")
	}
}

func TestBrokenMetadataHidesNothing(t *testing.T) {
	data := withEXIF(t, halves(300, 100), 1)
	at := bytes.Index(data, []byte("MM\x00\x2a"))
	copy(data[at:], "XXXX")
	look, err := Examine(data)
	if err != nil {
		t.Fatal(err)
	}
	if made, err := Shrink(data, look); err != nil || len(made) != 1 {
		t.Fatal(err)
	}
}

func TestBlank(t *testing.T) {
	for _, extension := range []string{".jpg", ".png"} {
		encoded, err := Blank(image.Pt(48, 32), extension)
		if err != nil {
			t.Fatal(err)
		}
		img, _, err := image.Decode(bytes.NewReader(encoded))
		if err != nil || img.Bounds().Size() != image.Pt(48, 32) {
			t.Error(extension, err)
		}
	}
}

// header is the beginning of a PNG that claims a size, and its end.
func header(width, height uint32, depth, kind byte) []byte {
	chunk := func(name string, data []byte) []byte {
		b := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
		b = append(append(b, name...), data...)
		return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
	}
	size := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, width), height)
	return slices.Concat([]byte("\x89PNG\r\n\x1a\n"), chunk("IHDR", append(size, depth, kind, 0, 0, 0)), chunk("IEND", nil))
}

// TestPicturesThatUnfold: what a few bytes claim to be is judged before any of it is decoded.
func TestPicturesThatUnfold(t *testing.T) {
	for _, c := range []struct {
		what          string
		width, height uint32
		depth, kind   byte
		says          string
	}{
		{"a grey thread", 119_000_000, 1, 8, 0, "a side of it"},
		{"a thread on end", 1, 119_000_000, 8, 0, "a side of it"},
		{"sixteen bits of each of four", 10_000, 11_000, 16, 6, "unfolds"},
		{"too many pixels", 20_000, 20_000, 8, 0, "million pixels"},
		{"a large photograph", 10_000, 11_000, 8, 2, ""},
		{"sixteen bits of a small one", 5_000, 5_000, 16, 6, ""},
	} {
		_, err := Examine(header(c.width, c.height, c.depth, c.kind))
		if (err != nil) != (c.says != "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.what, err)
		}
	}
}
