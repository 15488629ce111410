//go:build !race

package markdown

// slowdown is how much longer a build may take than a plain one.
const slowdown = 1
