package brewing

import "testing"

// BenchmarkFormulas times every formula on an ordinary brewing. A gyle's figures
// call each some hundred times, once for every reading's doubt on either side, so
// a microsecond here is a tenth of a second over a book of a thousand gyles.
func BenchmarkFormulas(b *testing.B) {
	for _, f := range formulas() {
		b.Run(f.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := f.of(f.good); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
