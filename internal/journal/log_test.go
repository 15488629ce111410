package journal

import (
	"bytes"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"pgregory.net/rapid"
)

// TestReadLog: every manner in which a logger may write its header and its rows,
// and every fault a row may have, each named at its line.
func TestReadLog(t *testing.T) {
	for _, c := range []struct {
		name, text string
		rows       string // when gravity temp, a line a row
		wrong      []string
	}{
		{"plain", "when,gravity,temp\n2026-03-07 14:00,1.0451,18.2\n", "2026-03-07T14:00 1.0451 18.2", nil},
		{"any order and case, with units", "Temperature (F),TIMESTAMP,Plato\n68,2026-03-07T14:00,10\n",
			"2026-03-07T14:00 1.0400 20.0", nil},
		{"units after a space", "when,SG,temp f\n2026-03-07 14:00,1.040,68\n", "2026-03-07T14:00 1.0400 20.0", nil},
		{"semicolons and decimal commas", "when;gravity;temp [C]\n2026-03-07 14:00;1,0451;18,2\n",
			"2026-03-07T14:00 1.0451 18.2", nil},
		{"tabs and a mark", "\ufeffwhen\tSG\n2026-03-07 14:00\t1.045\n", "2026-03-07T14:00 1.0450 NaN", nil},
		{"tabs and decimal commas", "when\tSG\n2026-03-07 14:00\t1,045\n", "2026-03-07T14:00 1.0450 NaN", nil},
		{"carriage returns and no last line end", "when,gravity\r\n2026-03-07 14:00,1.045\r\n2026-03-07 15:00,1.044",
			"2026-03-07T14:00 1.0450 NaN\n2026-03-07T15:00 1.0440 NaN", nil},
		{"quotation marks", "\"when\",\"gravity\",\"note\"\n\"2026-03-07 14:00\",\"1.045\",\"a \"\"left\"\", then " +
			"right\"\n", "2026-03-07T14:00 1.0450 NaN", nil},
		{"an offset", "when,gravity\n2026-03-07T14:00:30+02:00,1.045\n", "2026-03-07T12:00 1.0450 NaN", nil},
		{"a date and a time apart", "Time,Date,SG\n14:00,2026-03-07,1.045\n", "2026-03-07T14:00 1.0450 NaN", nil},
		{"a date beside a whole time", "Date,Time,SG\n2026-03-07,2026-03-07 14:00,1.045\n",
			"2026-03-07T14:00 1.0450 NaN", nil},
		{"two times", "timestamp,date,SG\n2026-03-07 14:00,2026-03-07,1.045\n", "2026-03-07T14:00 1.0450 NaN", nil},
		{"out of order and double", "when,gravity\n2026-03-07 15:00,1.044\n2026-03-07 14:00,1.045\n2026-03-07 " +
			"15:00,1.044\n", "2026-03-07T14:00 1.0450 NaN\n2026-03-07T15:00 1.0440 NaN", nil},
		{"one time, two readings", "when,gravity\n2026-03-07 15:00,1.044\n2026-03-07 15:00,1.043\n",
			"2026-03-07T15:00 1.0440 NaN\n2026-03-07T15:00 1.0430 NaN", nil},
		{"blank rows and fields", "when,gravity,temp\n\n2026-03-07 14:00,,\n2026-03-07 15:00,NaN,18\n2026-03-07 " +
			"16:00,1.043,-\n,,\n", "2026-03-07T15:00 NaN 18.0\n2026-03-07T16:00 1.0430 NaN", nil},
		{"broken rows", "when,gravity\n2026-13-45 14:00,1.044\n2026-03-07 15:00,foam\n2026-03-07 " +
			"16:00,1.043\n,1.042\nsoon,1.041\n2026-03-07 17:00,1e40\n\"2026-03-07 18:00,1.040\n",
			"2026-03-07T16:00 1.0430 NaN", []string{
				`float.csv:2:1: error: the row's time, "2026-13-45 14:00", names a day that is not [broken-row]`,
				`float.csv:3:1: error: the row has "foam" where a number is wanted [broken-row]`,
				`float.csv:5:1: error: the row has no time [broken-row]`,
				`float.csv:6:1: error: the row's time, "soon", is no date [broken-row]`,
				`float.csv:7:1: error: the row has "1e40" where a number is wanted [broken-row]`,
				`float.csv:8:1: error: a quotation mark is not closed on its line [broken-row]`,
			}},
		{"a decimal comma where commas part the fields", "when,gravity\n2026-03-07 14:00,1,045\n", "", []string{`float.csv:2:1: error: the row has 3 fields, and the header names 2 [broken-row]`}},
		{"a row too long", "when,gravity\n2026-03-07 14:00,1.045" + strings.Repeat(" ", 40_000) + "\n2026-03-07 15:00,1.044\n", "2026-03-07T15:00 1.0440 NaN", []string{`float.csv:2:1: error: the row has more than 16 KiB [broken-row]`}},
		{"columns that say nothing", "when,battery,gravity,name\n2026-03-07 14:00,97,1.045,left float\n",
			"2026-03-07T14:00 1.0450 NaN", nil},
		{"a unit nobody knows", "when,gravity,temp (R)\n2026-03-07 14:00,1.045,500\n", "2026-03-07T14:00 1.0450 NaN", []string{`float.csv:1:1: error: the column "temp (R)" has a unit that is not known, and it is left out [wrong-unit]`}},
		{"no time", "gravity,temp\n1.045,18\n", "", []string{`float.csv:1:1: error: no header names a time and a reading: "gravity,temp" [no-log]`}},
		{"no header", "2026-03-07 14:00,1.045\n", "", []string{`float.csv:1:1: error: no header names a time and a reading: "2026-03-07 14:00,1.045" [no-log]`}},
		{"a picture", "\x89PNG\r\n\x1a\n\x00\x00", "", []string{"float.csv:1:1: error: no header names"}},
		{"another alphabet's bytes", "\xff\xfew\x00h\x00e\x00n\x00", "",
			[]string{"float.csv:1:1: error: it is in UTF-16 [no-log]"}},
		{"nothing", "", "", []string{"float.csv:1:1: error: it is empty [no-log]"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			log, notices := ReadLog("float.csv", strings.NewReader(c.text), time.UTC)
			if got := rowsOf(log); got != c.rows {
				t.Errorf("rows:\n%s\nwant:\n%s", got, c.rows)
			}
			if len(notices) != len(c.wrong) {
				t.Fatalf("notices %v, want %d", notices, len(c.wrong))
			}
			for i, n := range notices {
				if !strings.HasPrefix(n.String(), c.wrong[i]) {
					t.Errorf("notice %q, want %q", n, c.wrong[i])
				}
			}
		})
	}
}

func rowsOf(log *Log) string {
	var rows []string
	for i := range log.Rows() {
		r := log.At(i)
		rows = append(rows, fmt.Sprintf("%s %.4f %.1f", r.When.UTC().Format("2006-01-02T15:04"), r.Gravity, r.Temp))
	}
	return strings.Join(rows, "\n")
}

// TestLogHasEveryKind reads all kinds of reading from one row.
func TestLogHasEveryKind(t *testing.T) {
	log, notices := ReadLog("f.csv", strings.NewReader("when,sg,brix,temp,ph,pressure (psi)\n2026-03-07 "+
		"14:00,1.045,11.2,18.5,5.2,14.5038\n"), time.UTC)
	r := log.At(0)
	if len(notices) > 0 || !slices.Equal(log.Columns, []string{"gravity", "brix", "temp", "ph", "pressure"}) {
		t.Fatal(notices, log.Columns)
	}
	for i, pair := range [][2]float64{{r.Gravity, 1.045}, {r.Brix, 11.2}, {r.Temp, 18.5}, {r.PH, 5.2},
		{r.Pressure, 1}} {
		if math.Abs(pair[0]-pair[1]) > 1e-5 {
			t.Errorf("%s is %g, want %g", log.Columns[i], pair[0], pair[1])
		}
	}
	if log.From(r.When) != 0 || log.From(r.When.Add(time.Second)) != 1 {
		t.Error("From does not find the row")
	}
}

// TestBrokenRowsDoNotDrownTheRest: a file of nothing but broken rows names the
// first few and counts the others.
func TestBrokenRowsDoNotDrownTheRest(t *testing.T) {
	log, notices := ReadLog("float.csv", strings.NewReader("when,gravity\n"+strings.Repeat("soon,1.040\n", 500)),
		time.UTC)
	if log.Rows() != 0 || len(notices) != maxLogErrors+1 ||
		notices[maxLogErrors].Says != "480 more rows cannot be read" || notices[maxLogErrors].Place.Line != 501 {
		t.Errorf("%d rows, %d notices, the last: %v", log.Rows(), len(notices), notices[len(notices)-1])
	}
}

// TestLogClock: the quick reading of times agrees with the careful one, in zones
// whose clocks are put forward and back, whatever stood in the row before.
func TestLogClock(t *testing.T) {
	var zones []*time.Location
	for _, name := range []string{"UTC", "Europe/London", "America/St_Johns", "Australia/Lord_Howe", "Pacific/Apia"} {
		zone, err := time.LoadLocation(name)
		if err != nil {
			t.Skipf("no zones on this machine: %v", err)
		}
		zones = append(zones, zone)
	}
	rapid.Check(t, func(t *rapid.T) {
		zone := rapid.SampledFrom(zones).Draw(t, "zone")
		c := logClock{zone: zone}
		for range rapid.IntRange(1, 4).Draw(t, "rows") {
			at := time.Unix(rapid.Int64Range(1_300_000_000, 1_800_000_000).Draw(t, "at"), 0).In(zone)
			text := at.Format(rapid.SampledFrom([]string{
				"2006-01-02", "2006-01-02 15:04", "2006-01-02T15:04:05", "2006-01-02 15:04:05.999", time.RFC3339,
				"2006-01-02 15:4", "2006-01-02 15:04 x", "2 Jan 2006",
			}).Draw(t, "form"))
			want, _, err := ParseMoment(text, zone)
			c.last = 0 // the hour that comes twice has its own test
			got, gotErr := c.read([]byte(text))
			if (err == nil) != (gotErr == nil) || err == nil && got != want.Unix() {
				t.Fatalf("%q: %d %v, want %d %v", text, got, gotErr, want.Unix(), err)
			}
		}
	})
}

// TestLogThroughTheHourThatComesTwice: rows without an offset go on through the
// night when the clock is put back, in a log that runs forward and in one that
// runs backward.
func TestLogThroughTheHourThatComesTwice(t *testing.T) {
	zone, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Skipf("no zones on this machine: %v", err)
	}
	var times []string
	start := time.Date(2026, 10, 24, 23, 30, 0, 0, time.UTC)
	for i := range 12 {
		times = append(times, start.Add(time.Duration(i)*15*time.Minute).In(zone).Format("2006-01-02 15:04"))
	}
	for range 2 {
		log, notices := ReadLog("f.csv", strings.NewReader("when,gravity\n"+strings.Join(times, ",1.040\n")+",1.040\n"),
			zone)
		if len(notices) > 0 || log.Rows() != len(times) {
			t.Fatal(log.Rows(), notices)
		}
		for i := range times {
			if want := start.Add(time.Duration(i) * 15 * time.Minute); !log.At(i).When.Equal(want) {
				t.Errorf("row %d is at %s, want %s", i, log.At(i).When, want.In(zone))
			}
		}
		slices.Reverse(times)
	}
}

// loggedEntry is an entry that names a logger's file.
func loggedEntry(file string) *fstest.MapFile {
	return &fstest.MapFile{Data: []byte("---\ngyle: 1\nbeer: Mild\nreadings_from: " + file + "\n---\n")}
}

// TestLogJoined: the file is found beside the entry, then from the top, and hangs
// on the gyle with the errors of its rows.
func TestLogJoined(t *testing.T) {
	good := &fstest.MapFile{Data: []byte("when,gravity\n2026-03-07 14:00,1.045\nsoon,1.044\n")}
	for _, c := range []struct{ entry, named, file string }{
		{"gyles/1.md", "float.csv", "gyles/float.csv"}, {"gyles/1.md", "logs/float.csv", "logs/float.csv"},
		{"gyles/deep/1.md", "../float.csv", "gyles/float.csv"},
		{"gyles/1.md", "logs\\float.csv", "gyles/logs/float.csv"}, {"1.md", "./float.csv", "float.csv"},
	} {
		j := Read(fstest.MapFS{c.entry: loggedEntry(c.named), c.file: good,
			"index.md": {Data: []byte("---\njournal: x\n---\n")}}, Options{})
		log := j.Gyles[0].Log
		if log == nil || log.File != c.file || log.Rows() != 1 {
			t.Errorf("%s from %s: %+v, errors %v", c.named, c.entry, log, j.Errors)
			continue
		}
		if got := listing(j.Errors); !strings.HasPrefix(got, c.file+`:3:1: error: the row's time, "soon", is no date [broken-row]`) {
			t.Errorf("errors: %s", got)
		}
		if got := j.ReadersOf(c.file); !slices.Equal(got, []string{c.entry}) || j.ReadersOf("other.csv") != nil {
			t.Errorf("the readers of %s are %v", c.file, got)
		}
	}
}

// TestLogRefused: what is no logger's file in the journal is refused at the key.
func TestLogRefused(t *testing.T) {
	files := func(named string) fstest.MapFS {
		return fstest.MapFS{
			"gyles/1.md": loggedEntry(named), "gyles/other.md": {Data: []byte("A note.")},
			"gyles/logs/a.csv":  {Data: []byte("x")},
			"gyles/.hidden.csv": {Data: []byte("when,sg\n")}, "gyles/pipe.csv": {Mode: fs.ModeNamedPipe},
		}
	}
	for named, want := range map[string]string{
		"none.csv":          "is not there: expected a CSV file at gyles/none.csv or none.csv",
		"../../etc/passwd":  "leads out of the journal",
		"/etc/passwd":       "leads out of the journal",
		`'C:\float.csv'`:    "leads out of the journal",
		"logs":              "is a folder",
		"logs/a.csv/deeper": "is not there",
		"other.md":          "is an entry",
		".hidden.csv":       "is one of the files that are passed over",
		"pipe.csv":          "is no ordinary file",
	} {
		d := ReadOne(files(named), "gyles/1.md", nil)
		if d.Gyle == nil || d.Gyle.Log != nil || len(d.Errors) != 1 {
			t.Errorf("%s: %v", named, d.Errors)
			continue
		}
		e := d.Errors[0]
		if e.ID != idNoLog || e.Place.Line != 4 || e.Place.Column != 16 || e.Of != "readings_from" ||
			!strings.Contains(e.Says, want) || e.Do == "" || e.Line == "" {
			t.Errorf("%s: %s, want %q", named, e, want)
		}
	}
}

// TestLogLinksAndGiants are what only a real disk has: links are not followed,
// wherever they lead, and a file of five gigabytes is refused unread.
func TestLogLinksAndGiants(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("real.csv", "when,gravity\n2026-03-07 14:00,1.045\n")
	write("giant.csv", "when,gravity\n")
	if err := os.Truncate(filepath.Join(dir, "giant.csv"), 5<<30); err != nil {
		t.Skipf("no room for a sparse file: %v", err)
	}
	if err := os.Mkdir(filepath.Join(dir, "folder"), 0o700); err != nil {
		t.Fatal(err)
	}
	write("folder/real.csv", "when,gravity\n2026-03-07 14:00,1.045\n")
	for link, to := range map[string]string{"link.csv": "real.csv", "out.csv": "/etc/passwd", "shortcut": "folder"} {
		if err := os.Symlink(to, filepath.Join(dir, link)); err != nil {
			t.Skipf("no links here: %v", err)
		}
	}
	root, err := Root(dir)
	if err != nil {
		t.Fatal(err)
	}
	for named, want := range map[string]string{
		"link.csv": errLink.Error(), "out.csv": errLink.Error(), "shortcut/real.csv": errLink.Error(),
		"giant.csv": "has 5120 MiB: expected at most 256", "real.csv": "",
	} {
		write("1.md", "---\ngyle: 1\nbeer: Mild\nreadings_from: "+named+"\n---\n")
		start := time.Now()
		d := ReadOne(root, "1.md", nil)
		if time.Since(start) > 5*time.Second {
			t.Errorf("%s took %s", named, time.Since(start))
		}
		if got := listing(d.Errors); !strings.Contains(got, want) || (want == "") != (d.Gyle.Log != nil) {
			t.Errorf("%s: %q, want %q", named, got, want)
		}
	}
}

// TestReadAgain: a logger's file is not read again while it is surely the same, and
// is once it changes, within the same second and to the same size too.
func TestReadAgain(t *testing.T) {
	old := time.Now().Add(-time.Hour)
	files := fstest.MapFS{"1.md": loggedEntry("f.csv"),
		"f.csv": {Data: []byte("when,gravity\n2026-03-07 14:00,1.045\n"), ModTime: old}}
	first := ReadOne(files, "1.md", nil)
	if again := ReadAgain(files, "1.md", nil, first); again.Gyle.Log != first.Gyle.Log {
		t.Error("it was read again though nothing changed")
	}
	files["f.csv"] = &fstest.MapFile{Data: []byte("when,gravity\n2026-03-07 14:00,1.044\n"), ModTime: time.Now()}
	second := ReadAgain(files, "1.md", nil, first)
	files["f.csv"].Data = []byte("when,gravity\n2026-03-07 14:00,1.043\n")
	third := ReadAgain(files, "1.md", nil, second)
	if third.Gyle.Log.At(0).Gravity > 1.0435 || second.Gyle.Log.Hash == third.Gyle.Log.Hash {
		t.Error("a change within the second was missed")
	}
	delete(files, "f.csv")
	if gone := ReadAgain(files, "1.md", nil, third); gone.Gyle.Log != nil || len(gone.Errors) != 1 {
		t.Error("a file that went is still used")
	}
}

// TestTwoEntriesOneLog: an error of a file that two entries name is told once.
func TestTwoEntriesOneLog(t *testing.T) {
	second := &fstest.MapFile{Data: []byte("---\ngyle: 2\nbeer: Stout\nreadings_from: f.csv\n---\n")}
	j := Read(fstest.MapFS{"1.md": loggedEntry("f.csv"), "2.md": second,
		"f.csv": {Data: []byte("when,gravity\nsoon,1.045\n")}, "index.md": {Data: []byte("---\njournal: x\n---\n")}},
		Options{})
	if len(j.Errors) != 1 || !slices.Equal(j.ReadersOf("f.csv"), []string{"1.md", "2.md"}) {
		t.Errorf("errors:\n%s", listing(j.Errors))
	}
}

func FuzzReadLog(f *testing.F) {
	f.Add([]byte("when,gravity,temp (F)\n2026-03-07 14:00,1.045,66\n"))
	f.Add([]byte("\xef\xbb\xbfTime;SG\n2026-03-07T14:00Z;1,045\n\"x\n"))
	f.Add([]byte("Date\tTime\tBrix\n2026-10-25\t01:30\t11,5\n2026-10-25\t01:30\t11,5\n"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		log, notices := ReadLog("f.csv", bytes.NewReader(raw), time.UTC)
		for i := range log.Rows() {
			r := log.At(i)
			if math.IsInf(r.Gravity, 0) || math.IsInf(r.Temp, 0) || i > 0 && r.When.Before(log.At(i-1).When) {
				t.Fatalf("a row that cannot be: %+v", r)
			}
		}
		lines := bytes.Count(raw, []byte("\n")) + 1
		for _, n := range notices {
			if n.Place.Line > lines {
				t.Fatalf("%s is beyond the last line, %d", n, lines)
			}
		}
		if len(notices) > maxLogErrors+len(log.Columns)+20 {
			t.Fatalf("%d notices", len(notices))
		}
	})
}
