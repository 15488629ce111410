//go:build race

package markdown

// slowdown is how much longer the race detector may take, on a busy machine too.
const slowdown = 12
