package main

import (
	"bytes"
	"net/netip"
	"slices"
	"strings"
	"testing"
	"time"
)

// TestSettings reads each kind of setting from a flag and from the environment; a
// flag wins.
func TestSettings(t *testing.T) {
	env := map[string]string{
		"WETRUN_READ_TIMEOUT": "7s", "WETRUN_WRITE_TIMEOUT": "8s", "WETRUN_RATE_LIMIT": "90", "WETRUN_ALLOW_ORIGINS": "none",
		"WETRUN_TRUSTED_PROXIES": "10.1.2.3/8, 192.0.2.7,2001:db8::/32",
	}
	var errs bytes.Buffer
	c, err := readConfig([]string{"-read-timeout", "9s", "-max-concurrent=3"}, func(name string) string { return env[name] }, &errs)
	if err != nil {
		t.Fatal(err, errs.String())
	}
	if c.readTimeout != 9*time.Second || c.writeTimeout != 8*time.Second || c.limits.Rate != 90 || c.limits.Concurrent != 3 || c.origins != nil || c.addr != "127.0.0.1:8080" {
		t.Errorf("%+v", c)
	}
	want := []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8"), netip.MustParsePrefix("192.0.2.7/32"), netip.MustParsePrefix("2001:db8::/32")}
	if !slices.Equal(c.limits.TrustedProxies, want) {
		t.Errorf("trusted %v", c.limits.TrustedProxies)
	}
}

// TestBadSettings: each is refused, naming what was set and what would be right.
func TestBadSettings(t *testing.T) {
	for _, c := range []struct{ name, value, says string }{
		{"READ_TIMEOUT", "30", "such as 500ms"},
		{"READ_TIMEOUT", "0s", "at least 1ms"},
		{"MAX_WAIT", "-1s", "at least 0s"},
		{"MAX_HEADER_BYTES", "12", "from 1024 to"},
		{"MAX_CONCURRENT", "many", "whole number"},
		{"MAX_CONNECTIONS", "0", "from 1 to"},
		{"RATE_LIMIT", "-1", "from 0 to"},
		{"TRUSTED_PROXIES", "10.0.0.0/8,proxy.example", `"proxy.example" is not a network`},
		{"LOG_LEVEL", "trace", "write debug, info, warn or error"},
		{"LOG_FORMAT", "xml", "write text or json"},
		{"ADDR", "127.0.0.1", "write HOST:PORT"},
		{"ADDR", "127.0.0.1:", "write HOST:PORT"},
		{"ADMIN_ADDR", "9090", "write HOST:PORT"},
		{"ALLOW_ORIGINS", "https://a.example,b.example", `"b.example" is no origin`},
	} {
		var out, errs bytes.Buffer
		env := func(name string) string {
			if name == "WETRUN_"+c.name {
				return c.value
			}
			return ""
		}
		if code := run(t.Context(), []string{"serve"}, env, nil, &out, &errs); code != 2 || !strings.Contains(errs.String(), "WETRUN_"+c.name) || !strings.Contains(errs.String(), c.says) {
			t.Errorf("WETRUN_%s=%s: %d %s", c.name, c.value, code, errs.String())
		}
		flag := "-" + strings.ToLower(strings.ReplaceAll(c.name, "_", "-"))
		errs.Reset()
		if code := run(t.Context(), []string{"serve", flag, c.value}, noEnv, nil, &out, &errs); code != 2 || !strings.Contains(errs.String(), flag) || !strings.Contains(errs.String(), c.says) {
			t.Errorf("%s %s: %d %s", flag, c.value, code, errs.String())
		}
	}
}
