package figures

// arena is where a sheet's shares lie, in blocks: most estimates have a few, and
// are made by the hundred.
type arena struct {
	block []share
}

// blockSize is how many shares a block holds: a gyle on paper needs one, a
// complete one three or four.
const blockSize = 256

// room is space for at most n shares, to append them to and then keep.
func (a *arena) room(n int) []share {
	at := len(a.block)
	if n > cap(a.block)-at {
		a.block, at = make([]share, 0, max(n, blockSize)), 0
	}
	return a.block[at:at:cap(a.block)]
}

// keep makes shares that were appended to the last room stay where they are.
func (a *arena) keep(shares []share) []share {
	a.block = a.block[:len(a.block)+len(shares)]
	return shares[:len(shares):len(shares)]
}

// trimmed is a list without its spare room, where that is worth a copy: a book
// holds the lists of thousands of gyles.
func trimmed[T any](list []T) []T {
	if cap(list)-len(list) < cap(list)/4 {
		return list
	}
	return append(make([]T, 0, len(list)), list...)
}
