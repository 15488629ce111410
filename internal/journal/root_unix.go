//go:build unix

package journal

import "syscall"

// withoutWaiting opens a pipe at once, whether anybody writes into it or not.
const withoutWaiting = syscall.O_NONBLOCK
