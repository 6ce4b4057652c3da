// Command detent answers a club's members who set the dampers of track-day
// cars: in the club's messaging workspace, in a terminal, one line at a time.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"reflect"
	"syscall"
	"time"

	"github.com/alecthomas/kong"

	"detent/bot/discord"
)

// version is set when the program is built.
var version = "unknown"

// program is the command line: its settings, then one command.
type program struct {
	Config `embed:""`

	Ask     askCmd     `cmd:"" help:"Answer lines and leave."`
	Console consoleCmd `cmd:"" help:"Answer lines as they are typed, until the end of input."`
	Demo    demoCmd    `cmd:"" help:"Play a paddock day of an invented club on a database of its own."`
	Migrate migrateCmd `cmd:"" help:"Bring the database to this program's schema."`
	Model   modelCmd   `cmd:"" help:"Put a question in a file to the vehicle model."`
	Remind  remindCmd  `cmd:"" help:"Print what is due in the clubs of this terminal, as if it were sent."`
	Invite  inviteCmd  `cmd:"" help:"Print the address that adds the bot to a workspace with the least permissions."`
	Serve   serveCmd   `cmd:"" help:"Join the club's messaging workspace."`
	Health  healthCmd  `cmd:"" help:"Ask the program that serves here whether it is well."`
	Version versionCmd `cmd:"" help:"Print the version."`
}

// The exit statuses.
const (
	exitAnswered = 0
	exitProblem  = 1
	exitWrongUse = 2
	exitRefused  = 3 // the platform will never let the program in as it is set up
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // whoever asks twice does not wait for what is in hand
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// run runs one command and returns the exit status.
func run(ctx context.Context, args []string, in *os.File, out, errs io.Writer) int {
	var p program
	leave := -1
	parser, err := kong.New(&p, kong.Name("detent"),
		kong.Description("Where to start with the clicks, what to turn when the car pushes wide, and what was changed last month."),
		kong.Writers(out, errs), kong.Exit(func(code int) { leave = code }), kong.UsageOnError(),
		kong.TypeMapper(reflect.TypeFor[*time.Time](), kong.MapperFunc(readTime)),
		kong.BindTo(ctx, (*context.Context)(nil)), kong.BindTo(out, (*io.Writer)(nil)), kong.Bind(in, &streams{in, out, errs}))
	if err != nil {
		fmt.Fprintln(errs, "detent:", err)
		return exitProblem
	}
	command, err := parser.Parse(args)
	if leave >= 0 { // help was asked for, and given
		return leave
	}
	if err != nil {
		fmt.Fprintln(errs, "detent:", err)
		return exitWrongUse
	}
	return exitStatus(command.Run(&p.Config), errs)
}

// streams are the terminal a command talks to.
type streams struct {
	in        *os.File
	out, errs io.Writer
}

// errProblem is the exit of a command whose last reply carried a problem,
// which the person has read already.
var errProblem = errors.New("the last reply carries a problem")

func exitStatus(err error, errs io.Writer) int {
	_, refused := errors.AsType[*discord.Fatal](err)
	switch _, wrong := errors.AsType[usageError](err); {
	case err == nil:
		return exitAnswered
	case errors.Is(err, errProblem):
		return exitProblem
	case wrong:
		fmt.Fprintln(errs, "detent:", err)
		return exitWrongUse
	case refused:
		fmt.Fprintln(errs, "detent:", err)
		return exitRefused
	}
	fmt.Fprintln(errs, "detent:", sentence(err))
	return exitProblem
}

type versionCmd struct{}

func (versionCmd) Run(out io.Writer) error {
	_, err := fmt.Fprintln(out, "detent", version)
	return err
}
