// Package store keeps what was dear to make, each value under a key that is a hash
// of all that its making read.
//
// Nothing in a store is ever marked as stale. A value is asked for by what it would
// be made from; where any of that is another, so is the key, and the value is made
// anew. What a making finds out only on its way that it needs (which cards, where a
// link leads) cannot be in the key: such a value carries its questions with their
// answers, and is used again while the caller of DoWhile finds that all are answered
// as they were.
//
// # How long
//
// Whoever holds the store calls Turn once for each round of work. A value that nobody
// asked for in as many rounds as its Kind says is forgotten, so that a thousand saves
// leave no more behind than one.
//
// # Beyond one process
//
// Keys are the same in every process that hashes the same values. The values of a
// Kind with a Codec are written to the store's Shelf, a folder of the machine (Folder)
// or a bounded piece of memory (Album), instead of being held as they are. Whoever
// changes what such values are made of, or how they are encoded, gives the kind
// another name.
package store

import "sync"

// Kind is a family of values that are made in one way.
type Kind[V any] struct {
	Name string // tells its keys from those of other kinds; the beginning of a file's name
	// Rounds is how many calls of Turn a value is held for after it was last asked
	// for, at least one. A Shelf has limits of its own.
	Rounds int
	// Codec writes values for a Shelf; nil holds them in memory as they are.
	Codec Codec[V]
}

// Codec turns the values of a kind into bytes and back. What it fails at is made anew.
type Codec[V any] interface {
	Encode(V) ([]byte, error)
	Decode([]byte) (V, error)
}

// Shelf keeps bytes by name, for as long as it likes. Any number of goroutines may use
// it.
type Shelf interface {
	Get(name string) ([]byte, bool)
	Put(name string, data []byte)
}

// Store is a store of values; nil keeps nothing. Any number of goroutines may use it.
type Store struct {
	shelf Shelf // nil for none

	mu    sync.Mutex
	round int
	held  map[id]*held
}

type id struct {
	kind string
	key  Key
}

type held struct {
	value any
	until int // the last round that it is held for
}

// New is an empty store. The shelf is for kinds with a Codec; nil makes their values
// anew each time.
func New(shelf Shelf) *Store { return &Store{shelf: shelf, held: map[id]*held{}} }

// Do is the value under a key, made where there is none. The key is a hash of all that
// the making reads.
func Do[V any](s *Store, kind *Kind[V], key Key, make func() V) V {
	return DoWhile(s, kind, key, always, make)
}

// DoWhile is Do for a value whose making asked for more than its key tells: the one
// kept is used again only if it still comes out so.
func DoWhile[V any](s *Store, kind *Kind[V], key Key, still func(V) bool, make func() V) V {
	value, _ := try(s, kind, key, still, func() (V, error) { return make(), nil })
	return value
}

// Try is Do for a making that may fail. What failed is not kept.
func Try[V any](s *Store, kind *Kind[V], key Key, make func() (V, error)) (V, error) {
	return try(s, kind, key, always, make)
}

func always[V any](V) bool { return true }

func try[V any](s *Store, kind *Kind[V], key Key, still func(V) bool, make func() (V, error)) (V, error) {
	if s == nil {
		return make()
	}
	if value, kept := get(s, kind, key); kept && still(value) {
		return value, nil
	}
	value, err := make()
	if err == nil {
		put(s, kind, key, value)
	}
	return value, err
}

func get[V any](s *Store, kind *Kind[V], key Key) (value V, kept bool) {
	if kind.Codec != nil {
		if s.shelf == nil {
			return value, false
		}
		data, kept := s.shelf.Get(kind.file(key))
		if !kept {
			return value, false
		}
		value, err := kind.Codec.Decode(data)
		return value, err == nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	h, kept := s.held[id{kind.Name, key}]
	if !kept {
		return value, false
	}
	h.until = s.round + kind.rounds()
	return h.value.(V), true
}

func put[V any](s *Store, kind *Kind[V], key Key, value V) {
	if kind.Codec == nil {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.held[id{kind.Name, key}] = &held{value, s.round + kind.rounds()}
		return
	}
	if s.shelf == nil {
		return
	}
	if data, err := kind.Codec.Encode(value); err == nil {
		s.shelf.Put(kind.file(key), data)
	}
}

func (k *Kind[V]) file(key Key) string { return k.Name + "-" + key.String() }

func (k *Kind[V]) rounds() int { return max(k.Rounds, 1) }

// Turn begins another round, and forgets what nobody has asked for in as many rounds
// as its kind is held for.
func (s *Store) Turn() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.round++
	for as, h := range s.held {
		if h.until < s.round {
			delete(s.held, as)
		}
	}
}
