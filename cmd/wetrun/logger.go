package main

import (
	"io"
	"log/slog"
)

// logger writes what the settings ask for.
func (c *config) logger(to io.Writer) *slog.Logger {
	o := &slog.HandlerOptions{Level: c.logLevel}
	if c.logFormat == "json" {
		return slog.New(slog.NewJSONHandler(to, o))
	}
	return slog.New(slog.NewTextHandler(to, o))
}
