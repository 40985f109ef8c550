// Command wetrun serves the arithmetic of sprayer calibration over HTTP, or calculates
// one field sheet on the command line.
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
	"strconv"
	"syscall"

	"wetrun/internal/buildinfo"
	"wetrun/internal/text"
)

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

// split takes the command off the arguments.
func split(args []string) (command string, rest []string) {
	if len(args) > 0 && args[0] != "" && args[0][0] != '-' {
		return args[0], args[1:]
	}
	return "serve", args
}

// run is the whole command: exit status 0 for success, 1 for failure or a refused
// sheet, 2 for a wrong call. What the server says is for operators, and English.
func run(ctx context.Context, args []string, env func(string) string, in io.Reader, out, errs io.Writer) int {
	command, args := split(args)
	lang := text.English
	if command != "serve" && command != "healthcheck" {
		var ok bool
		if lang, args, ok = takeLanguage(args); !ok {
			for _, l := range []text.Language{text.English, text.Spanish} {
				fmt.Fprintln(errs, "wetrun:", text.Of(l, "command.language"))
			}
			return 2
		}
		ctx = text.In(ctx, lang)
	}
	var err error
	switch command {
	case "serve":
		err = serve(ctx, args, env, out, errs)
	case "calibrate":
		err = calibrate(ctx, args, in, out, errs)
	case "batch":
		err = batch(ctx, args, env, in, out, errs)
	case "key":
		err = newKey(ctx, args, out, errs)
	case "healthcheck":
		err = healthcheck(ctx, args, env, errs)
	case "version":
		_, err = fmt.Fprintf(out, "wetrun %s, %s\n", buildinfo.Version, runtime.Version())
	case "help":
		err = usage(lang, out)
	default:
		err = wrong(lang, "command.unknown", strconv.Quote(command))
	}
	switch err {
	case nil:
		return 0
	case errUsage: // which was said
		return 2
	}
	fmt.Fprintln(errs, "wetrun:", err)
	if errors.Is(err, errUsage) {
		return 2
	}
	return 1
}
