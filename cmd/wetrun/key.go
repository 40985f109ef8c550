package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"wetrun/api"
	"wetrun/internal/text"
)

// newKey prints a new random key, and the line that lets it in.
func newKey(ctx context.Context, args []string, out, errs io.Writer) error {
	lang := text.From(ctx)
	if len(args) != 1 || strings.HasPrefix(args[0], "-") {
		return wrong(lang, "command.key_call")
	}
	secret, line, err := api.NewKey(args[0])
	if err != nil { // of the name, the only one
		return said(lang, "command.key_name")
	}
	if _, err := fmt.Fprintf(out, "%s\n%s\n", secret, line); err != nil {
		return err
	}
	fmt.Fprintln(errs, text.Of(lang, "command.key_made"))
	return nil
}
