package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"time"

	"wetrun/api"
)

// A config is every setting of the server. Each is a flag, and an environment
// variable of the same name: -read-timeout and WETRUN_READ_TIMEOUT. The flag wins.
type config struct {
	addr, adminAddr string

	headerTimeout, readTimeout, writeTimeout, idleTimeout time.Duration
	drainDelay, stopTimeout                               time.Duration
	mostHeader, mostConnections                           int

	limits  api.Limits
	origins []string

	keys, tlsCert, tlsKey string

	logFormat string
	logLevel  slog.Level
}

// newConfig returns the defaults, and the flags that change them. A field sheet is
// a few kilobytes; half a minute is plenty on the worst of lines.
func newConfig() (*config, *flag.FlagSet) {
	c := &config{
		addr:          "127.0.0.1:8080",
		headerTimeout: 5 * time.Second,
		readTimeout:   30 * time.Second,
		writeTimeout:  30 * time.Second,
		idleTimeout:   2 * time.Minute,
		stopTimeout:   20 * time.Second,
		mostHeader:    16 << 10,

		mostConnections: 1024,
		logFormat:       "text",
		limits:          api.Limits{Wait: 250 * time.Millisecond},
		origins:         []string{api.AnyOrigin},
	}
	f := flag.NewFlagSet("serve", flag.ContinueOnError)
	f.Var(&addressValue{&c.addr}, "addr", "`address` to listen on")
	f.Var(&durationValue{&c.headerTimeout, time.Millisecond}, "header-timeout", "`time` for the headers of a request")
	f.Var(&durationValue{&c.readTimeout, time.Millisecond}, "read-timeout", "`time` for a whole request, body included; in a batch for each line")
	f.Var(&durationValue{&c.writeTimeout, time.Millisecond}, "write-timeout", "`time` from the headers of a request to the end of its answer; in a batch for what is sent at once")
	f.Var(&durationValue{&c.idleTimeout, time.Millisecond}, "idle-timeout", "`time` that a connection may stay open between requests")
	f.Var(&durationValue{&c.drainDelay, 0}, "drain-delay", "`time` between /readyz failing and the end of listening, for balancers to notice")
	f.Var(&durationValue{&c.stopTimeout, time.Millisecond}, "stop-timeout", "most `time` for requests under way and telemetry when the server stops")
	f.Var(&intValue{&c.mostHeader, 1 << 10, 1 << 20}, "max-header-bytes", "most `bytes` of the headers of a request, give or take 4096")
	f.Var(&intValue{&c.mostConnections, 1, 1 << 20}, "max-connections", "most `connections` at once; others wait until one closes")
	f.Var(&intValue{&c.limits.Concurrent, 0, 1 << 16}, "max-concurrent", "most `calculations` at once; 0 means 16 for each CPU")
	f.Var(&durationValue{&c.limits.Wait, 0}, "max-wait", "most `time` that a request waits for its turn before it gets 503")
	f.Var(&intValue{&c.limits.Rate, 0, 1_000_000}, "rate-limit", "most `requests` of one client in a minute; 0 means any number")
	f.Var(&networksValue{&c.limits.TrustedProxies}, "trusted-proxies", "`networks`, with commas between, whose X-Forwarded-For is believed")
	f.Var(&fileValue{&c.keys}, "keys", "`file` of keys that open /v1; without it everybody may ask")
	f.Var(&fileValue{&c.tlsCert}, "tls-cert", "`file` of the certificate, PEM, for TLS")
	f.Var(&fileValue{&c.tlsKey}, "tls-key", "`file` of the certificate's key, PEM")
	f.Var(&addressValue{&c.adminAddr}, "admin-addr", "`address` that serves /metrics for Prometheus, and /livez and /readyz for probes; without it nothing does")
	f.Var(&wordValue{&c.logFormat, []string{"text", "json"}}, "log-format", "`text` or json")
	f.Var(&levelValue{&c.logLevel}, "log-level", "`level` of the log: debug, info, warn or error; info has a line for each request")
	f.Var(&originsValue{&c.origins}, "allow-origins", "`origins` whose pages may call: * for every one, none, or a list with commas between")
	return c, f
}

// readConfig reads environment and flags. What is wrong with them goes to errs in
// plain words.
func readConfig(args []string, env func(string) string, errs io.Writer) (*config, error) {
	c, f := newConfig()
	f.SetOutput(io.Discard)
	err := fromEnvironment(f, env)
	if err == nil {
		err = f.Parse(args)
	}
	switch {
	case errors.Is(err, flag.ErrHelp):
		f.SetOutput(errs)
		fmt.Fprintln(errs, "Each flag has an environment variable: WETRUN_READ_TIMEOUT for -read-timeout. The flag wins.")
		f.PrintDefaults()
		return nil, errUsage
	case err == nil && f.NArg() > 0:
		err = fmt.Errorf("%q is not a flag", f.Arg(0))
	}
	if err != nil {
		fmt.Fprintf(errs, "wetrun: %v\nwetrun serve -help lists the flags, -addr and the others\n", err)
		return nil, errUsage
	}
	return c, nil
}

// fromEnvironment sets each flag from the environment variable of its name.
func fromEnvironment(f *flag.FlagSet, env func(string) string) (err error) {
	f.VisitAll(func(each *flag.Flag) {
		name := variableOf(each.Name)
		if value := env(name); value != "" && err == nil {
			if wrong := f.Set(each.Name, value); wrong != nil {
				err = fmt.Errorf("%s is %q: %w", name, value, wrong)
			}
		}
	})
	return err
}
