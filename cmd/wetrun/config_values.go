package main

import (
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/netip"
	"slices"
	"strconv"
	"strings"
	"time"

	"wetrun/api"
)

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

// A fileName names a file. An empty one is more likely a variable of a shell that is
// not set than the wish to go without, and a server without its keys is open.
type fileName struct{ name *string }

func (f *fileName) String() string {
	if f.name == nil {
		return ""
	}
	return *f.name
}

func (f *fileName) Set(text string) error {
	if text == "" {
		return errors.New("write the name of a file, or leave the setting out")
	}
	*f.name = text
	return nil
}

// A hostPort is an address to listen on.
type hostPort struct{ addr *string }

func (h *hostPort) String() string {
	if h.addr == nil {
		return ""
	}
	return *h.addr
}

func (h *hostPort) Set(text string) error {
	if _, port, err := net.SplitHostPort(text); err != nil || port == "" {
		return errors.New("write HOST:PORT, such as 127.0.0.1:8080, or :8080 for every address of this machine")
	}
	*h.addr = text
	return nil
}

// A level is what the log leaves out below.
type level struct{ level *slog.Level }

func (l *level) String() string {
	if l.level == nil {
		return ""
	}
	return l.level.String()
}

func (l *level) Set(text string) error {
	if !slices.Contains([]string{"debug", "info", "warn", "error"}, strings.ToLower(text)) {
		return errors.New("write debug, info, warn or error")
	}
	return l.level.UnmarshalText([]byte(text))
}
