package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net/netip"
	"slices"
	"strconv"
	"strings"
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
	f.StringVar(&c.addr, "addr", c.addr, "`address` to listen on")
	f.Var(&span{&c.headerTimeout, time.Millisecond}, "header-timeout", "`time` for the headers of a request")
	f.Var(&span{&c.readTimeout, time.Millisecond}, "read-timeout", "`time` for a whole request, body included")
	f.Var(&span{&c.writeTimeout, time.Millisecond}, "write-timeout", "`time` from the headers of a request to the end of its answer")
	f.Var(&span{&c.idleTimeout, time.Millisecond}, "idle-timeout", "`time` that a connection may stay open between requests")
	f.Var(&span{&c.drainDelay, 0}, "drain-delay", "`time` between /readyz failing and the end of listening, for balancers to notice")
	f.Var(&span{&c.stopTimeout, time.Millisecond}, "stop-timeout", "most `time` for requests under way and telemetry when the server stops")
	f.Var(&whole{&c.mostHeader, 1 << 10, 1 << 20}, "max-header-bytes", "most `bytes` of the headers of a request, give or take 4096")
	f.Var(&whole{&c.mostConnections, 1, 1 << 20}, "max-connections", "most `connections` at once; others wait until one closes")
	f.Var(&whole{&c.limits.Concurrent, 0, 1 << 16}, "max-concurrent", "most `calculations` at once; 0 means 16 for each CPU")
	f.Var(&span{&c.limits.Wait, 0}, "max-wait", "most `time` that a request waits for its turn before it gets 503")
	f.Var(&whole{&c.limits.Rate, 0, 1_000_000}, "rate-limit", "most `requests` of one client in a minute; 0 means any number")
	f.Var(&prefixes{&c.limits.TrustedProxies}, "trusted-proxies", "`networks`, with commas between, whose X-Forwarded-For is believed")
	f.StringVar(&c.keys, "keys", "", "`file` of keys that open /v1; without it everybody may ask")
	f.StringVar(&c.tlsCert, "tls-cert", "", "`file` of the certificate, PEM, for TLS")
	f.StringVar(&c.tlsKey, "tls-key", "", "`file` of the certificate's key, PEM")
	f.StringVar(&c.adminAddr, "admin-addr", "", "`address` that serves /metrics for Prometheus, and /livez and /readyz for probes; without it nothing does")
	f.Var(&word{&c.logFormat, []string{"text", "json"}}, "log-format", "`text` or json")
	f.TextVar(&c.logLevel, "log-level", slog.LevelInfo, "`level` of the log: debug, info, warn or error; info has a line for each request")
	f.Var(&origins{&c.origins}, "allow-origins", "`origins` whose pages may call: * for every one, none, or a list with commas between")
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
		name := "WETRUN_" + strings.ToUpper(strings.ReplaceAll(each.Name, "-", "_"))
		if value := env(name); value != "" && err == nil {
			if wrong := f.Set(each.Name, value); wrong != nil {
				err = fmt.Errorf("%s is %q: %w", name, value, wrong)
			}
		}
	})
	return err
}

// A span is a time of at least a least one.
type span struct {
	time  *time.Duration
	least time.Duration
}

func (s *span) String() string {
	if s.time == nil { // flag asks the zero value
		return ""
	}
	return s.time.String()
}

func (s *span) Set(text string) error {
	d, err := time.ParseDuration(text)
	if err != nil || d < s.least {
		return fmt.Errorf("write a time of at least %v, such as 500ms, 5s or 2m", s.least)
	}
	*s.time = d
	return nil
}

// A whole is a whole number between two others.
type whole struct {
	n         *int
	low, high int
}

func (w *whole) String() string {
	if w.n == nil {
		return ""
	}
	return strconv.Itoa(*w.n)
}

func (w *whole) Set(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < w.low || n > w.high {
		return fmt.Errorf("write a whole number from %d to %d", w.low, w.high)
	}
	*w.n = n
	return nil
}

// A word is one of a few.
type word struct {
	value   *string
	allowed []string
}

func (w *word) String() string {
	if w.value == nil {
		return ""
	}
	return *w.value
}

func (w *word) Set(text string) error {
	if !slices.Contains(w.allowed, text) {
		return fmt.Errorf("write %s", strings.Join(w.allowed, " or "))
	}
	*w.value = text
	return nil
}

// prefixes are networks, or single addresses.
type prefixes struct{ list *[]netip.Prefix }

func (p *prefixes) String() string { return "" }

func (p *prefixes) Set(text string) error {
	*p.list = nil
	for each := range strings.SplitSeq(text, ",") {
		each = strings.TrimSpace(each)
		prefix, err := netip.ParsePrefix(each)
		if address, single := netip.ParseAddr(each); single == nil {
			prefix, err = address.Prefix(address.BitLen())
		}
		if err != nil {
			return fmt.Errorf("%q is not a network: write such as 10.0.0.0/8 or 192.0.2.7, with commas between", each)
		}
		*p.list = append(*p.list, prefix.Masked())
	}
	return nil
}

// origins are those whose pages may call.
type origins struct{ list *[]string }

func (o *origins) String() string {
	if o.list == nil {
		return ""
	}
	return strings.Join(*o.list, ",")
}

func (o *origins) Set(text string) (err error) {
	*o.list, err = api.ParseOrigins(text)
	return err
}
