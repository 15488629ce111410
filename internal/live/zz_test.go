package live
import ("testing";"time";"fmt";"os";"runtime/pprof")
func TestZZ(t *testing.T) {
	dir := t.TempDir()
	n := 5000
	generated(t, dir, n)
	t0 := time.Now()
	lap := func(what string) { fmt.Printf("%-14s %v\n", what, time.Since(t0)); t0 = time.Now() }
	d := &desk{options: Options{Journal: dir, Now: func() time.Time { return noon }}, news: newNews(), photos: newAlbum(), reports: make(chan func() Rebuild, 100)}
	if err := d.open(); err != nil { t.Fatal(err) }
	lap("open")
	e := d.last.Load()
	e.told("gyles/4500/index.html")
	lap("page")
	f, _ := os.Create("/tmp/zz.prof")
	pprof.StartCPUProfile(f)
	e.site.Notices()
	lap("notices")
	pprof.StopCPUProfile()
	d.options.Report = func(Rebuild) {}
	for k, save := range saves {
		text := generatedEntry(4500)+"Words.\n"
		for i := range 4 {
			os.WriteFile(dir+"/gyles/4500.md", []byte(save(text, i)), 0o644)
			t0 = time.Now()
			c, _ := d.folder.read([]string{"gyles/4500.md"}, time.Now())
			lap(k+" read")
			old := d.last.Load()
			made, _ := d.build(old, c)
			lap(k+" build")
			d.last.Store(made)
			made.told("gyles/4500/index.html")
			lap(k+" page")
			(<-d.reports)()
			d.report(Rebuild{}, old, made)
			lap(k+" report")
		}
	}
}
