package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// calibrate calculates the field sheet in a file, or on standard input for -, and
// prints the answer that POST /v1/calibrations would give, or with -text what a
// crew reads, in the language of ctx, or with -digest the digest that its record has. A refused sheet goes to errs, as a problem.
func calibrate(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) error {
	flags := flag.NewFlagSet("calibrate", flag.ContinueOnError)
	lines := flags.Bool("text", false, "")
	digest := flags.Bool("digest", false, "")
	lang := text.From(ctx)
	if err := parse(flags, args, lang, errs); err != nil {
		return err
	}
	if flags.NArg() != 1 {
		return wrong(lang, "command.one_file")
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
	if *digest {
		work = func() ([]byte, bool, error) { return operation.Digest(ctx, in) }
	}
	answer, ok, err := work()
	if err != nil {
		return err
	}
	if !ok {
		fmt.Fprintln(errs, string(answer))
		return said(lang, "command.refused")
	}
	_, err = fmt.Fprintln(out, string(answer))
	return err
}
