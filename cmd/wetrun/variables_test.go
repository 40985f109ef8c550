package main

import (
	"strings"
	"testing"
)

// TestVariablesThatAreRefused: a misspelt setting, and an empty one that was to
// protect, do not go unnoticed; what others add does no harm.
func TestVariablesThatAreRefused(t *testing.T) {
	for variable, says := range map[string]string{
		"WETRUN_KEY=keys.txt":           "WETRUN_KEY is no setting; the nearest is WETRUN_KEYS",
		"WETRUN_MAX_CONNECTION=5":       "the nearest is WETRUN_MAX_CONNECTIONS",
		"WETRUN_BATCH_PART=5":           "the nearest is WETRUN_BATCH_PARTS",
		"WETRUN_PORT=8080":              "WETRUN_PORT is no setting",
		"WETRUN_KEYS=":                  "WETRUN_KEYS is empty: write the name of a file",
		"WETRUN_TLS_CERT=":              "WETRUN_TLS_CERT is empty",
		"WETRUN_TLS_KEY=":               "WETRUN_TLS_KEY is empty",
		"WETRUN_KEYS=keys.txt":          "",
		"WETRUN_READ_TIMEOUT=":          "",
		"WETRUN_BATCH_PARTS=":           "",
		"WETRUNNER=1":                   "",
		"OTEL_TRACES_SAMPLER=always_on": "",
		// of a service called wetrun, as Kubernetes adds them
		"WETRUN_SERVICE_HOST=10.0.0.1":                "",
		"WETRUN_SERVICE_PORT=80":                      "",
		"WETRUN_SERVICE_PORT_HTTP=80":                 "",
		"WETRUN_PORT=tcp://10.0.0.1:80":               "",
		"WETRUN_PORT_80_TCP=tcp://10.0.0.1:80":        "",
		"WETRUN_PORT_80_TCP_ADDR=10.0.0.1":            "",
		"WETRUN_CANARY_SERVICE_HOST=10.0.0.2":         "",
		"WETRUN_CANARY_PORT_80_TCP_PROTO=tcp":         "",
		"WETRUN_CANARY_PORT_80_TCP=tcp://10.0.0.2:80": "",
	} {
		err := checkVariables([]string{"PATH=/bin", "WETRUN_ADDR=:8080", variable})
		switch {
		case says == "" && err != nil, says != "" && (err == nil || !strings.Contains(err.Error(), says)):
			t.Errorf("%s: %v, want %q", variable, err, says)
		}
	}
}
