package main

import (
	"crypto/tls"
	"errors"
	"fmt"
	"log/slog"

	"wetrun/internal/reload"
)

// tlsConfig reads certificate and key, and reads them again when they change. It is
// nil when neither is set.
func (c *config) tlsConfig(log *slog.Logger) (*tls.Config, error) {
	switch {
	case c.tlsCert == "" && c.tlsKey == "":
		return nil, nil
	case c.tlsCert == "" || c.tlsKey == "":
		return nil, errors.New("TLS needs both files, -tls-cert and -tls-key")
	}
	load := func() (*tls.Certificate, error) {
		pair, err := tls.LoadX509KeyPair(c.tlsCert, c.tlsKey)
		return &pair, err
	}
	pair, err := reload.New(log, load, c.tlsCert, c.tlsKey)
	if err != nil {
		return nil, fmt.Errorf("-tls-cert and -tls-key cannot be used: %w", err)
	}
	return &tls.Config{
		MinVersion:     tls.VersionTLS12,
		NextProtos:     []string{"h2", "http/1.1"},
		GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) { return pair.Get(), nil },
	}, nil
}
