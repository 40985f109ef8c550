package main

import (
	"fmt"
	"io"
	"strings"

	"wetrun/api"
)

// newKey prints a new random key, and the line that lets it in.
func newKey(args []string, out, errs io.Writer) error {
	if len(args) != 1 || strings.HasPrefix(args[0], "-") {
		fmt.Fprintln(errs, "wetrun key takes one name, who the key is for; it does not begin with -")
		return errUsage
	}
	secret, line, err := api.NewKey(args[0])
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s\n%s\n", secret, line)
	fmt.Fprintln(errs, "The first line is the key: hand it over, it is kept nowhere. The second line goes into the file of -keys.")
	return nil
}
