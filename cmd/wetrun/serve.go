package main

import (
	"context"
	"crypto/tls"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"sync/atomic"
	"time"

	"wetrun/api"
	"wetrun/internal/buildinfo"
	"wetrun/internal/telemetry"
)

// leastExport is the time for what is left of telemetry when requests under way have
// taken all of the stop timeout.
const leastExport = time.Second

// serve runs the API until ctx ends. Then /readyz fails, balancers have the drain
// delay to notice, and requests under way finish.
func serve(ctx context.Context, args []string, env func(string) string, out, errs io.Writer) error {
	c, err := readConfig(args, env, errs)
	if err != nil {
		return err
	}
	lines := &logBuffer{to: errs}
	defer lines.flush()
	log := c.logger(unbuffered{lines})
	observed, err := telemetry.Start(ctx, c.requestLogger(lines), env, c.adminAddr != "")
	if err != nil {
		return err
	}
	var stopped time.Time // when everything has to be over
	defer func() {        // what is left is exported when the last request has ended
		bounded, cancel := context.WithTimeout(context.Background(), max(leastExport, time.Until(stopped)))
		defer cancel()
		if err := observed.End(bounded); err != nil {
			log.Warn("telemetry is not delivered", "error", err)
		}
	}()
	o := api.Options{Log: log, Telemetry: observed.Telemetry, AllowOrigins: c.origins, Limits: c.limits, Stopping: new(atomic.Bool)}
	o.Limits.Line, o.Limits.Answer = c.readTimeout, c.writeTimeout
	if c.keys != "" {
		if o.Keys, err = api.LoadKeys(c.keys, log); err != nil {
			return fmt.Errorf("-keys cannot be used: %w", err)
		}
	}
	certificate, err := c.tlsConfig(log)
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", c.addr)
	if err != nil {
		return fmt.Errorf("cannot listen on %s: %w; choose another address with -addr or WETRUN_ADDR", c.addr, err)
	}
	listener = boundListener(listener.(*net.TCPListener), c.mostConnections) // the network was "tcp"
	service := api.New(o)
	if c.adminAddr != "" {
		end, err := c.serveAdmin(observed.Metrics, service, log)
		if err != nil {
			listener.Close()
			return err
		}
		defer end()
	}
	fmt.Fprint(out, c.welcome(listener.Addr()))
	if c.logFormat == "json" { // for those who collect the log, and not what is said to people
		log.Info("started", "address", listener.Addr().String(), "version", buildinfo.Version,
			"keys", c.keys != "", "tls", certificate != nil, "rateLimit", c.limits.Rate)
	}
	if certificate != nil {
		listener = tls.NewListener(listener, certificate)
	}
	server := c.server(service, log)
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	o.Stopping.Store(true)
	if c.drainDelay > 0 {
		fmt.Fprintf(out, "wetrun stops in %v; /readyz answers 503 from now on.\n", c.drainDelay)
		select {
		case err := <-failed:
			return err
		case <-time.After(c.drainDelay):
		}
	}
	stopped = time.Now().Add(c.stopTimeout)
	bounded, cancel := context.WithDeadline(context.Background(), stopped)
	defer cancel()
	err = server.Shutdown(bounded)
	if c.logFormat == "json" {
		log.Info("stopped", "allAnswered", err == nil)
	}
	if err != nil {
		return fmt.Errorf("stopped before every request was done: %w", err)
	}
	fmt.Fprintln(out, "wetrun has stopped; every request under way was answered.")
	return nil
}

func (c *config) server(h http.Handler, log *slog.Logger) *http.Server {
	return &http.Server{
		Handler:           h,
		ConnContext:       api.ConnContext,
		ReadHeaderTimeout: c.headerTimeout,
		ReadTimeout:       c.readTimeout,
		WriteTimeout:      c.writeTimeout,
		IdleTimeout:       c.idleTimeout,
		MaxHeaderBytes:    c.mostHeader,
		ErrorLog:          slog.NewLogLogger(privateHandler{log.Handler()}, slog.LevelWarn),
	}
}
