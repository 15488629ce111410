//go:build !unix

package journal

// withoutWaiting is nothing where no pipe lies among files.
const withoutWaiting = 0
