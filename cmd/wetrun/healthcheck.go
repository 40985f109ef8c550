package main

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"time"
)

// healthcheck asks the server of the same settings whether it is ready. It fails
// when that is not so, or nobody answers.
func healthcheck(ctx context.Context, args []string, env func(string) string, errs io.Writer) error {
	c, err := readConfig(args, env, errs)
	if err != nil {
		return errors.New("without sound settings there is nobody to ask") // not status 2, which Docker keeps for itself
	}
	url, err := c.readyURL()
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(ctx, 3*time.Second)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, url, nil)
	if err != nil {
		return err
	}
	// The server is asked on this machine, where its certificate need not be known,
	// and never through a proxy.
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{InsecureSkipVerify: true}}}
	resp, err := client.Do(req)
	if err != nil {
		return err
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		return fmt.Errorf("%s answers %s", url, resp.Status)
	}
	return nil
}

// readyURL is where this machine reaches a server that listens on the address.
func (c *config) readyURL() (string, error) {
	scheme, addr := "http", c.addr
	switch {
	case c.adminAddr != "": // where clients take no connections away
		addr = c.adminAddr
	case c.tlsCert != "":
		scheme = "https"
	}
	host, port, err := net.SplitHostPort(addr)
	if err != nil {
		return "", err
	}
	if ip := net.ParseIP(host); host == "" || ip.IsUnspecified() {
		host = "127.0.0.1"
		if ip != nil && ip.To4() == nil {
			host = "::1"
		}
	}
	return scheme + "://" + net.JoinHostPort(host, port) + "/readyz", nil
}
