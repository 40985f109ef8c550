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

// A durationValue is a setting that is a time, not below the least.
type durationValue struct {
	time  *time.Duration
	least time.Duration
}

func (s *durationValue) String() string {
	if s.time == nil { // flag asks the zero value
		return ""
	}
	return s.time.String()
}

func (s *durationValue) Set(text string) error {
	d, err := time.ParseDuration(text)
	if err != nil || d < s.least {
		return fmt.Errorf("write a time of at least %v, such as 500ms, 5s or 2m", s.least)
	}
	*s.time = d
	return nil
}

// An intValue is a setting that is a whole number from low to high.
type intValue struct {
	n         *int
	low, high int
}

func (w *intValue) String() string {
	if w.n == nil {
		return ""
	}
	return strconv.Itoa(*w.n)
}

func (w *intValue) Set(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < w.low || n > w.high {
		return fmt.Errorf("write a whole number from %d to %d", w.low, w.high)
	}
	*w.n = n
	return nil
}

// A wordValue is a setting that is one of a few words.
type wordValue struct {
	value   *string
	allowed []string
}

func (w *wordValue) String() string {
	if w.value == nil {
		return ""
	}
	return *w.value
}

func (w *wordValue) Set(text string) error {
	if !slices.Contains(w.allowed, text) {
		return fmt.Errorf("write %s", strings.Join(w.allowed, " or "))
	}
	*w.value = text
	return nil
}

// A networksValue is a setting that lists networks, or single addresses.
type networksValue struct{ list *[]netip.Prefix }

func (p *networksValue) String() string { return "" }

func (p *networksValue) Set(text string) error {
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

// An originsValue is a setting that lists origins whose pages may call.
type originsValue struct{ list *[]string }

func (o *originsValue) String() string {
	if o.list == nil {
		return ""
	}
	return strings.Join(*o.list, ",")
}

func (o *originsValue) Set(text string) (err error) {
	*o.list, err = api.ParseOrigins(text)
	return err
}

// A fileValue is a setting that names a file. An empty one is more likely a variable of a
// shell that is not set than the wish to go without, and a server without its keys is open.
type fileValue struct{ name *string }

func (f *fileValue) String() string {
	if f.name == nil {
		return ""
	}
	return *f.name
}

func (f *fileValue) Set(text string) error {
	if text == "" {
		return errors.New("write the name of a file, or leave the setting out")
	}
	*f.name = text
	return nil
}

// An addressValue is a setting that is an address to listen on.
type addressValue struct{ addr *string }

func (h *addressValue) String() string {
	if h.addr == nil {
		return ""
	}
	return *h.addr
}

func (h *addressValue) Set(text string) error {
	if _, port, err := net.SplitHostPort(text); err != nil || port == "" {
		return errors.New("write HOST:PORT, such as 127.0.0.1:8080, or :8080 for every address of this machine")
	}
	*h.addr = text
	return nil
}

// A levelValue is a setting that is a level of the log.
type levelValue struct{ level *slog.Level }

func (l *levelValue) String() string {
	if l.level == nil {
		return ""
	}
	return l.level.String()
}

func (l *levelValue) Set(text string) error {
	if !slices.Contains([]string{"debug", "info", "warn", "error"}, strings.ToLower(text)) {
		return errors.New("write debug, info, warn or error")
	}
	return l.level.UnmarshalText([]byte(text))
}
