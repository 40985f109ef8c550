package main

import (
	"fmt"
	"log/slog"
	"net"
	"net/http"
)

// serveAdmin answers scrapes of metrics on an address of its own, which clients need
// not reach, and the checks of health: where clients hold every connection that
// -max-connections allows, those would not get through, and a sound server would be
// restarted. It returns what ends it.
func (c *config) serveAdmin(metrics, service http.Handler, log *slog.Logger) (end func(), err error) {
	listener, err := net.Listen("tcp", c.adminAddr)
	if err != nil {
		return nil, fmt.Errorf("cannot listen on %s: %w; choose another address with -admin-addr or WETRUN_ADMIN_ADDR", c.adminAddr, err)
	}
	mux := http.NewServeMux()
	mux.Handle("GET /metrics", metrics)
	mux.Handle("GET /livez", service)
	mux.Handle("GET /readyz", service)
	server := c.server(mux, log)
	go func() {
		if err := server.Serve(listener); err != http.ErrServerClosed {
			log.Error("metrics are not served any more", "error", err)
		}
	}()
	log.Info("metrics are served", "url", fmt.Sprintf("http://%s/metrics", listener.Addr()))
	return func() { _ = server.Close() }, nil
}
