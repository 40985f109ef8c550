package main

import (
	"context"
	"io"
	"log/slog"
	"sync"
	"time"
)

// logger writes what the settings ask for.
func (c *config) logger(to io.Writer) *slog.Logger { return slog.New(c.logHandler(to)) }

func (c *config) logHandler(to io.Writer) slog.Handler {
	o := &slog.HandlerOptions{Level: c.logLevel}
	if c.logFormat == "json" {
		return slog.NewJSONHandler(to, o)
	}
	return slog.NewTextHandler(to, o)
}

// Lines of requests are written together: a call of the system for each costs a
// twentieth of a request.
const (
	logDelay      = 100 * time.Millisecond
	logBufferSize = 16 << 10
)

// A logBuffer gathers what is written to it, for logDelay at most.
type logBuffer struct {
	mutex   sync.Mutex
	to      io.Writer
	lines   []byte
	waiting bool // a timer will flush
}

func (g *logBuffer) Write(p []byte) (int, error) {
	g.mutex.Lock()
	defer g.mutex.Unlock()
	g.lines = append(g.lines, p...)
	switch {
	case len(g.lines) >= logBufferSize:
		g.write()
	case !g.waiting:
		g.waiting = true
		time.AfterFunc(logDelay, func() {
			g.mutex.Lock()
			defer g.mutex.Unlock()
			g.waiting = false
			g.write()
		})
	}
	return len(p), nil
}

// flush writes what has been gathered.
func (g *logBuffer) flush() {
	g.mutex.Lock()
	defer g.mutex.Unlock()
	g.write()
}

func (g *logBuffer) write() {
	if len(g.lines) > 0 {
		_, _ = g.to.Write(g.lines) // as slog does, which has nobody to tell
		g.lines = g.lines[:0]
	}
}

// unbuffered writes after what has been gathered, and at once.
type unbuffered struct{ *logBuffer }

func (a unbuffered) Write(p []byte) (int, error) {
	a.mutex.Lock()
	defer a.mutex.Unlock()
	a.lines = append(a.lines, p...)
	a.write()
	return len(p), nil
}

// requestLogger gathers lines of requests; what is more than information is written at
// once.
func (c *config) requestLogger(to *logBuffer) *slog.Logger {
	return slog.New(gatheringHandler{c.logHandler(to), to})
}

type gatheringHandler struct {
	slog.Handler
	to *logBuffer
}

func (h gatheringHandler) Handle(ctx context.Context, r slog.Record) error {
	err := h.Handler.Handle(ctx, r)
	if r.Level > slog.LevelInfo {
		h.to.flush()
	}
	return err
}

func (h gatheringHandler) WithAttrs(attrs []slog.Attr) slog.Handler {
	return gatheringHandler{h.Handler.WithAttrs(attrs), h.to}
}

func (h gatheringHandler) WithGroup(name string) slog.Handler {
	return gatheringHandler{h.Handler.WithGroup(name), h.to}
}
