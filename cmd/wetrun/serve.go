package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"sync/atomic"
	"time"

	"wetrun/api"
)

// serve runs the API until ctx ends. Then /readyz fails, balancers have the drain
// delay to notice, and requests under way finish.
func serve(ctx context.Context, args []string, env func(string) string, out, errs io.Writer) error {
	c, err := readConfig(args, env, errs)
	if err != nil {
		return err
	}
	log := slog.New(slog.NewTextHandler(errs, nil))
	listener, err := net.Listen("tcp", c.addr)
	if err != nil {
		return fmt.Errorf("cannot listen on %s: %w; choose another address with -addr or WETRUN_ADDR", c.addr, err)
	}
	var stopping atomic.Bool
	server := &http.Server{
		Handler:           api.New(api.Options{Log: log, Limits: c.limits, Stopping: &stopping}),
		ReadHeaderTimeout: c.headerTimeout,
		ReadTimeout:       c.readTimeout,
		WriteTimeout:      c.writeTimeout,
		IdleTimeout:       c.idleTimeout,
		MaxHeaderBytes:    c.mostHeader,
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
	stopping.Store(true)
	if c.drainDelay > 0 {
		fmt.Fprintf(out, "wetrun stops in %v; /readyz answers 503 from now on.\n", c.drainDelay)
		select {
		case err := <-failed:
			return err
		case <-time.After(c.drainDelay):
		}
	}
	bounded, cancel := context.WithTimeout(context.Background(), c.stopTimeout)
	defer cancel()
	if err := server.Shutdown(bounded); err != nil {
		return fmt.Errorf("stopped before every request was done: %w", err)
	}
	fmt.Fprintln(out, "wetrun has stopped; every request under way was answered.")
	return nil
}

// welcome says where the service is and what to try.
func welcome(addr string) string {
	return fmt.Sprintf(`wetrun listens on http://%[1]s  (stop with Ctrl-C)
Try:
  curl -s http://%[1]s/v1/ground-speed -H 'Content-Type: application/json' \
    -d '{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]}'
`, addr)
}
