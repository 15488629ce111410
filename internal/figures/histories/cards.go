package histories

// Cards are those of the brewer, which some entries lean on: vessels whose makers say
// what they take.
var Cards = []string{
	"---\ncard: vessel\nname: blue keg\nkind: keg\ncapacity: 19.5 L\nrated: 2 bar\n---\n",
	"---\ncard: vessel\nname: home barrel\nkind: pressure barrel\ncapacity: 26 L\nrated: 0.7 bar\nrelief: true\n---\n",
	"---\ncard: vessel\nname: party bag\nkind: soft bag\ncapacity: 10 L\nrated: 0.1 bar\n---\n",
}

// carded are the vessels of the cards and what is filled into them, in L.
var carded = []struct {
	name string
	size float64
}{{"blue keg", 18}, {"home barrel", 24}, {"party bag", 9}}
