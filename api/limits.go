package api

import (
	"net/netip"
	"time"
)

// Limits bound what clients can take of the server. The zero value is sound: it
// bounds work at the default and no client's rate.
type Limits struct {
	// Concurrent is how many calculations run at once; 0 means 16 for each CPU.
	Concurrent int
	// Wait is how long a request that has been read waits for its turn before it is
	// refused with 503; at 0 it is refused at once.
	Wait time.Duration
	// Rate is how many requests a client may send in a minute; 0 means any number.
	Rate int
	// TrustedProxies are the peers whose X-Forwarded-For is believed.
	TrustedProxies []netip.Prefix
	// Line is how long a batch waits for its next line to be complete, and Answer how
	// long for the client to take what is answered; 0 means half a minute.
	Line, Answer time.Duration
}
