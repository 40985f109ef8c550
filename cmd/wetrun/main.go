// Command wetrun serves the arithmetic of sprayer calibration over HTTP, or works
// out one field sheet on the command line.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"syscall"

	"wetrun/internal/buildinfo"
)

const usage = `wetrun does the arithmetic of calibrating a field sprayer.

  wetrun [serve] [-addr HOST:PORT]   serve the API (the default);
                                     wetrun serve -help lists all settings
  wetrun calibrate [-text] [-lang en|es] FILE|-
                                     work out one field sheet, print the answer;
                                     with -text a summary that a crew can read;
                                     -lang is the language of texts, default en
  wetrun batch [-out FILE] [-summary FILE] [-from N] [-part I/N] [-strict] [-lang en|es] [FILE...]
                                     answer many requests, one on each line; with
                                     -strict status 1 when one got a problem
  wetrun key NAME                    print a new key for the API, and the line
                                     that lets it in
  wetrun healthcheck                 ask the server of the same settings whether it
                                     is ready; status 1 when it is not
  wetrun version                     print the version, and that of Go
  wetrun help                        print this

WETRUN_ADDR sets the address where -addr does not; the default is 127.0.0.1:8080.
`

// gcPercent is how much garbage may lie about, as a percentage of what is in use. That
// is a few MB here, so the usual 100 would collect every few hundred requests.
const gcPercent = 300

// memoryLimit is how much memory there may be, with garbage, before it is collected sooner:
// more than twice what a busy server was seen to have in use.
func memoryLimit() int64 { return int64(240+80*runtime.GOMAXPROCS(0)) << 20 }

// boundGarbage sets when garbage is collected, where the environment does not.
func boundGarbage(env func(string) string) {
	if env("GOGC") == "" {
		debug.SetGCPercent(gcPercent)
	}
	if env("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryLimit())
	}
}

func main() {
	boundGarbage(os.Getenv)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends the process at once
	if command, _ := split(os.Args[1:]); command == "serve" {
		if err := checkVariables(os.Environ()); err != nil {
			fmt.Fprintln(os.Stderr, "wetrun:", err)
			os.Exit(2)
		}
	}
	os.Exit(run(ctx, os.Args[1:], os.Getenv, os.Stdin, os.Stdout, os.Stderr))
}

// errUsage is a mistake in how the command was called.
var errUsage = errors.New("usage")

// split takes the command off the arguments.
func split(args []string) (command string, rest []string) {
	if len(args) > 0 && args[0] != "" && args[0][0] != '-' {
		return args[0], args[1:]
	}
	return "serve", args
}

// run is the whole command: exit status 0 for success, 1 for failure or a refused
// sheet, 2 for a wrong call.
func run(ctx context.Context, args []string, env func(string) string, in io.Reader, out, errs io.Writer) int {
	command, args := split(args)
	var err error
	switch command {
	case "serve":
		err = serve(ctx, args, env, out, errs)
	case "calibrate":
		err = calibrate(ctx, args, in, out, errs)
	case "batch":
		err = batch(ctx, args, env, in, out, errs)
	case "key":
		err = newKey(args, out, errs)
	case "healthcheck":
		err = healthcheck(ctx, args, env, errs)
	case "version":
		fmt.Fprintf(out, "wetrun %s, %s\n", buildinfo.Version, runtime.Version())
	case "help":
		fmt.Fprint(out, usage)
	default:
		fmt.Fprintf(errs, "wetrun: there is no command %q\n\n%s", command, usage)
		return 2
	}
	switch {
	case err == nil:
		return 0
	case errors.Is(err, errUsage):
		return 2
	}
	fmt.Fprintln(errs, "wetrun:", err)
	return 1
}
