package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"time"

	"wetrun/api"
)

// Time-outs of the server. A field sheet is a few kilobytes; half a minute is
// plenty on the worst of lines.
const (
	headerTime = 5 * time.Second
	readTime   = 30 * time.Second
	writeTime  = 30 * time.Second
	idleTime   = 2 * time.Minute
	stopTime   = 20 * time.Second
	mostHeader = 16 << 10
)

// serve runs the API until ctx ends, then lets requests under way finish.
func serve(ctx context.Context, args []string, env func(string) string, out, errs io.Writer) error {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(errs)
	addr := flags.String("addr", or(env("WETRUN_ADDR"), "127.0.0.1:8080"), "address to listen on")
	if err := flags.Parse(args); err != nil || flags.NArg() > 0 {
		return errUsage
	}
	log := slog.New(slog.NewTextHandler(errs, nil))
	listener, err := net.Listen("tcp", *addr)
	if err != nil {
		return fmt.Errorf("cannot listen on %s: %w; choose another address with -addr or WETRUN_ADDR", *addr, err)
	}
	server := &http.Server{
		Handler:           api.New(api.Options{Log: log}),
		ReadHeaderTimeout: headerTime,
		ReadTimeout:       readTime,
		WriteTimeout:      writeTime,
		IdleTimeout:       idleTime,
		MaxHeaderBytes:    mostHeader,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
	fmt.Fprint(out, welcome(listener.Addr().String()))

	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	bounded, cancel := context.WithTimeout(context.Background(), stopTime)
	defer cancel()
	if err := server.Shutdown(bounded); err != nil {
		return fmt.Errorf("stopped before every request was done: %w", err)
	}
	fmt.Fprintln(out, "wetrun has stopped; every request under way was answered.")
	return nil
}

func or(value, fallback string) string {
	if value == "" {
		return fallback
	}
	return value
}

// welcome says where the service is and what to try.
func welcome(addr string) string {
	return fmt.Sprintf(`wetrun listens on http://%[1]s  (stop with Ctrl-C)
Try:
  curl -s http://%[1]s/v1/ground-speed -H 'Content-Type: application/json' \
    -d '{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]}'
`, addr)
}
