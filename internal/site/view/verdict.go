package view

// Verdict is whether the beer is finished or only quiet.
type Verdict struct {
	Says     string     // the answer, in a sentence
	Do       string     // what to do now, "" for nothing
	Evidence []Evidence // what it rests on
}

// Evidence is one thing that a verdict rests on.
type Evidence struct {
	Text string
	Line int // of the entry; 0 for what no line says
}
