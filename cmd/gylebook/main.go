// Command gylebook turns a brewing journal, a folder of Markdown files, into
// worked figures, warnings and a brew log to read in a browser.
//
// Every command is a type with a run method, one file each. A fault of the
// journal is a notice and never stops a command; a fault of the machine is one
// line on standard error that begins with the program's name, and exit code 2.
//
// # How messages are printed
//
// What was asked for goes to standard output, everything else to standard
// error. A notice is printed as compilers print theirs, with the path from the
// working folder, so that an editor can follow it; what explains it stands
// indented below. Colour only on a terminal, and never as the only sign.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	_ "time/tzdata" // a journal's zone must be known on any machine
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second interrupt ends it whatever it is doing
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv)
	stop()
	os.Exit(code)
}
