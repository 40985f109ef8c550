package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"wetrun/api"
)

// calibrate works out the field sheet in a file, or on standard input for -, and
// prints the answer that POST /v1/calibrations would give. A refused sheet goes to
// errs, as a problem.
func calibrate(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) error {
	if len(args) != 1 {
		fmt.Fprintln(errs, "wetrun calibrate takes one file, or - for standard input")
		return errUsage
	}
	if args[0] != "-" {
		file, err := os.Open(args[0])
		if err != nil {
			return err
		}
		defer file.Close()
		in = file
	}
	answer, ok, err := api.Calculate(ctx, "calibrations", in)
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
