package site

import (
	"html/template"
	"strconv"
	"strings"

	"rsc.io/qr"
)

// quietZone is the border that a reader needs around a code, in modules: ISO/IEC
// 18004 asks for four.
const quietZone = 4

// addressCode is an address as a QR code: a <symbol> for a page to use as often
// as it has labels, in one colour on what is behind it, with the quiet zone of
// ISO/IEC 18004. It is "" for no address, and for one too long to be read from a
// label.
func addressCode(address string) template.HTML {
	if address == "" || len(address) > 200 {
		return ""
	}
	code, err := qr.Encode(address, qr.M)
	if err != nil {
		return ""
	}
	side := strconv.Itoa(code.Size + 2*quietZone)
	return template.HTML(`<symbol id="code" viewBox="0 0 ` + side + " " + side + `"><path class="module" d="` + modules(code) + `"/></symbol>`)
}

// modules is the dark modules of a code as a path, a run of them at a time.
func modules(code *qr.Code) string {
	var b strings.Builder
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			run := 0
			for code.Black(x+run, y) {
				run++
			}
			if run > 0 {
				b.WriteString("M" + strconv.Itoa(x+quietZone) + " " + strconv.Itoa(y+quietZone) + "h" + strconv.Itoa(run) + "v1h-" + strconv.Itoa(run) + "z")
				x += run
			}
		}
	}
	return b.String()
}
