package view

// CopperCard is copper-card.html, for brew day, on paper or by the copper.
type CopperCard struct {
	Frame
	Number, Beer string
	Gyle         Link
	Facts        []Fact
	Grist        Table
	Liquor       Table
	Mash         []string
	Additions    []Addition
	Write        []string // what to read and write down
	Cautions     []string
}

// Fact is a name with a value.
type Fact struct {
	Name  string
	Value Measure
}

// Addition is something that goes into the copper, by the clock of the boil.
type Addition struct {
	Minutes string // before the end of the boil, a plain number; "" for after it
	When    string
	What    string
	Amount  string
}

// Labels is labels.html, for paper.
type Labels struct {
	Frame
	Gyle   Link
	Labels []Label
}

// Label is one container's.
type Label struct {
	Beer  string
	Facts string // number, strength, volume
	Dates string // filled, best by
	Lines string // what must be told, a line each
	Class string // gives the beer's colour
}
