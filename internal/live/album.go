package live

import "sync"

// album keeps pictures that were made, so that a save does not make them again.
// It forgets the oldest ones when it grows too big.
type album struct {
	mu    sync.Mutex
	made  map[string][]byte
	order []string // of keys, the oldest first
	bytes int
}

// albumLimit is how many bytes of pictures are kept: some hundreds of them.
const albumLimit = 64 << 20

func newAlbum() *album { return &album{made: map[string][]byte{}} }

// Get is the picture of a key, if it is still kept.
func (a *album) Get(key string) ([]byte, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	made, ok := a.made[key]
	return made, ok
}

// Put keeps a picture.
func (a *album) Put(key string, made []byte) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if _, kept := a.made[key]; kept {
		return
	}
	a.made[key] = made
	a.order = append(a.order, key)
	a.bytes += len(made)
	for a.bytes > albumLimit && len(a.order) > 1 {
		oldest := a.order[0]
		a.order = a.order[1:]
		a.bytes -= len(a.made[oldest])
		delete(a.made, oldest)
	}
}
