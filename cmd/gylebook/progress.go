package main

import (
	"fmt"
	"sync"
	"time"
)

// progress is a line on the terminal that counts while something long is done.
// In a pipe, and for work that is over at once, nothing is written.
type progress struct {
	paper  paper
	silent bool
	what   string
	total  int

	mu    sync.Mutex
	count int
	next  time.Time // when to write again
	shown bool
}

// Work may take a moment without a word; after that the line is written anew
// often enough to look alive.
const (
	patience = 300 * time.Millisecond
	often    = 100 * time.Millisecond
)

func (c *call) progress(what string, total int) *progress {
	p := &progress{paper: c.paper(c.stderr), what: what, total: total, next: time.Now().Add(patience)}
	p.silent = c.Quiet || !p.paper.terminal
	return p
}

// step counts one done.
func (p *progress) step() {
	if p.silent {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.count++
	if now := time.Now(); now.After(p.next) {
		fmt.Fprintf(p.paper, "\r%s %d of %d", p.what, p.count, p.total)
		p.next, p.shown = now.Add(often), true
	}
}

// done wipes the line.
func (p *progress) done() {
	if p.shown {
		fmt.Fprintf(p.paper, "\r%s\r", pad("", p.paper.width-1))
	}
}
