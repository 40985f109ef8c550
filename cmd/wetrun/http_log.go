package main

import (
	"context"
	"log/slog"
	"regexp"
)

// What net/http says of a connection names the client's address, and quotes what it
// sent. Neither goes into the log.
var (
	addressOf = regexp.MustCompile(`\[[0-9A-Fa-f:.]*:[0-9A-Fa-f:.]*(%[^\]]*)?\](:\d+)?|\b\d{1,3}(\.\d{1,3}){3}(:\d+)?\b`)
	quoted    = regexp.MustCompile(`"(\\.|[^"\\])*"`)
)

// privateHandler logs messages without them.
type privateHandler struct{ slog.Handler }

func (h privateHandler) Handle(ctx context.Context, r slog.Record) error {
	message := addressOf.ReplaceAllLiteralString(r.Message, "(address)")
	r.Message = quoted.ReplaceAllLiteralString(message, "(text)")
	return h.Handler.Handle(ctx, r)
}
