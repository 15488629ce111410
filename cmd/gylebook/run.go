package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"runtime/debug"

	"github.com/alecthomas/kong"

	"gylebook/internal/publish"
)

// The exit codes. What they mean in each command stands at its run method.
const (
	exitDone   = 0
	exitSome   = 1
	exitCannot = 2
	exitBegun  = 3 // of publish alone
)

// common are the options of every command.
type common struct {
	Journal   string           `placeholder:"DIR" help:"The journal's folder. Without it: the nearest folder upward whose index.md has journal:, else ./journal."`
	Now       string           `placeholder:"TIME" help:"Work as if it were this time, as 2026-06-01T12:00:00Z. Without it: SOURCE_DATE_EPOCH, else the clock."`
	Templates string           `placeholder:"DIR" help:"Templates to use in place of the built-in ones of the same names."`
	Quiet     bool             `short:"q" help:"Say only what is wrong."`
	NoColor   bool             `name:"no-color" help:"Print without colour, as NO_COLOR does."`
	Version   kong.VersionFlag `help:"Print the version."`
}

// arguments is the whole command line.
type arguments struct {
	common

	Publish publishCommand `cmd:"" help:"Write the site."`
	Live    liveCommand    `cmd:"" help:"Serve the site while you write, new at every save."`
	Verify  verifyCommand  `cmd:"" help:"Say what cannot be read and what wants seeing to."`
	Figures figuresCommand `cmd:"" help:"Print one gyle's figures."`
	Begin   beginCommand   `cmd:"" help:"Start a new entry, or a new journal."`
	Jot     jotCommand     `cmd:"" help:"Write a reading or a deed into an entry, with its time."`
	Words   wordsCommand   `cmd:"" help:"Explain the words that an entry may use."`
}

// command is one of the commands, its arguments read.
type command interface {
	// run does the work. Its error is a fault of the machine or of the
	// arguments: one line, and exit code 2.
	run(c *call) (exit int, err error)
}

// call is one call of the program: what it was told and where it answers.
type call struct {
	common
	ctx    context.Context
	stdout io.Writer
	stderr io.Writer
	getenv func(string) string
}

// run is the program: arguments in, exit code out. Standard input is not read
// by any command yet.
func run(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer, getenv func(string) string) int {
	var a arguments
	answered := false
	parser, err := kong.New(&a,
		kong.Name("gylebook"),
		kong.Description("A brewing journal in, worked figures, warnings and a brew log out."),
		kong.Vars{"version": "gylebook " + version()},
		kong.Writers(stdout, stderr),
		kong.Exit(func(int) { answered = true }), // after --help and --version, which parsing goes on from
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 80}),
	)
	if err != nil {
		return fail(stderr, fmt.Errorf("setting up the command line: %w", err))
	}
	chosen, err := parser.Parse(args)
	if answered {
		return exitDone
	}
	if err != nil {
		return fail(stderr, usage(err))
	}
	c := &call{common: a.common, ctx: ctx, stdout: stdout, stderr: stderr, getenv: getenv}
	return answer(chosen.Selected().Target.Addr().Interface().(command), c)
}

// answer runs a command. A fault of ours that nothing nearer has caught is told in
// one line as a fault of the machine is: nothing was written then, since what
// writes does so all or nothing.
func answer(chosen command, c *call) (exit int) {
	defer func() {
		if thrown := recover(); thrown != nil {
			exit = fail(c.stderr, fmt.Errorf("a fault of this program, not of the journal: %v; please report it", thrown))
		}
	}()
	exit, err := chosen.run(c)
	if err != nil {
		return fail(c.stderr, err)
	}
	return exit
}

// fail prints a fault and gives the exit code for it.
func fail(stderr io.Writer, err error) int {
	fmt.Fprintf(stderr, "gylebook: %v\n", err)
	var begun *publish.UnfinishedError
	if errors.As(err, &begun) {
		return exitBegun
	}
	return exitCannot
}

// usage adds to a fault of the arguments where help is.
func usage(err error) error {
	hint := "gylebook --help"
	var parse *kong.ParseError
	if errors.As(err, &parse) && parse.Context != nil && parse.Context.Selected() != nil {
		hint = "gylebook " + parse.Context.Selected().Name + " --help"
	}
	return fmt.Errorf("%w (%s tells more)", err, hint)
}

// version is the program's own, as the build recorded it.
func version() string {
	build, ok := debug.ReadBuildInfo()
	if !ok || build.Main.Version == "" || build.Main.Version == "(devel)" {
		return "unreleased"
	}
	return build.Main.Version
}
