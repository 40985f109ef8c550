package api

import (
	"bufio"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"os"
	"strconv"
	"strings"

	"wetrun/api/wire"
	"wetrun/internal/reload"
)

// Keys are the keys that open /v1, as the digests in a file. Whoever reads the
// file cannot use them.
type Keys struct{ ring *reload.Value[[]key] }

type key struct {
	name   string
	digest [sha256.Size]byte
	rate   int // requests a minute; 0 means the limit of every client
}

// LoadKeys reads a file of keys, one a line: a name, the SHA-256 digest of the key
// in hex, and optionally how many requests it may send in a minute. Empty lines and
// those that begin with # are passed over. A changed file is read again.
func LoadKeys(file string, log *slog.Logger) (*Keys, error) {
	ring, err := reload.New(log, func() ([]key, error) { return readKeys(file) }, file)
	if err != nil {
		return nil, err
	}
	return &Keys{ring}, nil
}

// NewKey makes a random key of 130 bits, and its line for the file.
func NewKey(name string) (secret, line string, err error) {
	if !plainID(name) {
		return "", "", errors.New("a key's name has 1 to 64 letters, digits and - . _")
	}
	secret = "wetrun_" + rand.Text()
	digest := sha256.Sum256([]byte(secret))
	return secret, name + " " + hex.EncodeToString(digest[:]), nil
}

func readKeys(file string) ([]key, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var ring []key
	names := map[string]bool{}
	lines := bufio.NewScanner(f)
	for n := 1; lines.Scan(); n++ {
		line := strings.TrimSpace(lines.Text())
		if line == "" || line[0] == '#' {
			continue
		}
		k, err := readKey(line)
		if err == nil && names[k.name] {
			err = errors.New("another line has this name")
		}
		if err != nil {
			return nil, fmt.Errorf("%s, line %d: %w", file, n, err)
		}
		names[k.name] = true
		ring = append(ring, k)
	}
	if errors.Is(lines.Err(), bufio.ErrTooLong) {
		return nil, fmt.Errorf("%s: a line is too long to be that of a key", file)
	}
	return ring, lines.Err()
}

func readKey(line string) (k key, err error) {
	parts := strings.Fields(line)
	if len(parts) < 2 || len(parts) > 3 {
		return k, errors.New("write a name, a SHA-256 digest in hex and, if wanted, the most requests in a minute")
	}
	if k.name = parts[0]; !plainID(k.name) {
		return k, errors.New("a key's name has 1 to 64 letters, digits and - . _")
	}
	if n, err := hex.Decode(k.digest[:], []byte(parts[1][:min(len(parts[1]), 2*sha256.Size)])); err != nil || n != sha256.Size || len(parts[1]) != 2*sha256.Size {
		return k, errors.New("the digest must have 64 hexadecimal digits; wetrun key prints one")
	}
	if len(parts) == 3 {
		if k.rate, err = strconv.Atoi(parts[2]); err != nil || k.rate < 1 || k.rate > 1_000_000 {
			return k, errors.New("the most requests in a minute must be a whole number from 1 to 1000000")
		}
	}
	return k, nil
}

// holder finds whose key a request carries. Every key is compared in full, so the
// time tells nothing of how near a guess was.
func (k *Keys) holder(h http.Header) (found key, given, ok bool) {
	scheme, secret, _ := strings.Cut(h.Get("Authorization"), " ")
	if !strings.EqualFold(scheme, "Bearer") || secret == "" {
		return key{}, false, false
	}
	digest := sha256.Sum256([]byte(strings.TrimSpace(secret)))
	for _, each := range k.ring.Get() {
		if subtle.ConstantTimeCompare(each.digest[:], digest[:]) == 1 {
			found, ok = each, true
		}
	}
	return found, true, ok
}

// refuseUnauthorized asks for a key as RFC 6750 has it.
func refuseUnauthorized(w http.ResponseWriter, given bool) error {
	challenge := `Bearer realm="wetrun"`
	if given {
		challenge += `, error="invalid_token"`
	}
	w.Header().Set("WWW-Authenticate", challenge)
	return &wire.Refusal{Kind: wire.Unauthorized}
}
