package store

import "sync"

// Album is a Shelf in memory. It forgets the oldest when it grows too big.
type Album struct {
	limit int // bytes

	mu    sync.Mutex
	kept  map[string][]byte
	order []string // of names, the oldest first
	bytes int
}

// NewAlbum is an empty album for as many bytes as limit.
func NewAlbum(limit int) *Album { return &Album{limit: limit, kept: map[string][]byte{}} }

// Get is what was put under a name, if it is still kept.
func (a *Album) Get(name string) ([]byte, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	data, ok := a.kept[name]
	return data, ok
}

// Put keeps data that nobody may change any more. A name stands for one thing for
// ever.
func (a *Album) Put(name string, data []byte) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if _, kept := a.kept[name]; kept {
		return
	}
	a.kept[name] = data
	a.order = append(a.order, name)
	a.bytes += len(data)
	for a.bytes > a.limit && len(a.order) > 1 {
		oldest := a.order[0]
		a.order = a.order[1:]
		a.bytes -= len(a.kept[oldest])
		delete(a.kept, oldest)
	}
}
