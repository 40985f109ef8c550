package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// calibrate works out the field sheet in a file, or on standard input for -, and
// prints the answer that POST /v1/calibrations would give, or with -text what a
// crew reads, in the language of -lang. A refused sheet goes to errs, as a problem.
func calibrate(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) error {
	flags := flag.NewFlagSet("calibrate", flag.ContinueOnError)
	flags.SetOutput(errs)
	lines := flags.Bool("text", false, "print a summary to read, instead of JSON")
	lang := languageFlag(flags)
	if err := flags.Parse(args); err != nil {
		return errUsage
	}
	ctx = text.In(ctx, *lang)
	if flags.NArg() != 1 {
		fmt.Fprintln(errs, "wetrun calibrate takes one file, or - for standard input")
		return errUsage
	}
	if name := flags.Arg(0); name != "-" {
		file, err := os.Open(name)
		if err != nil {
			return err
		}
		defer file.Close()
		in = file
	}
	work := func() ([]byte, bool, error) { return operation.Calculate(ctx, "calibrations", in) }
	if *lines {
		work = func() ([]byte, bool, error) { return operation.Summarize(ctx, in) }
	}
	answer, ok, err := work()
	if err != nil {
		return err
	}
	if !ok {
		fmt.Fprintln(errs, string(answer))
		return errors.New("the sheet was refused")
	}
	fmt.Fprintln(out, string(answer))
	return nil
}
