package telemetry

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"
)

// The library goes on with a default where a variable cannot be used, and says so in
// the log at most. Here that stops the start.

// samplers are those that the library knows.
var samplers = []string{"always_on", "always_off", "traceidratio", "parentbased_always_on", "parentbased_always_off", "parentbased_traceidratio"}

// checkTraces refuses settings of traces.
func checkTraces(env func(string) string) error {
	const name, share = "OTEL_TRACES_SAMPLER", "OTEL_TRACES_SAMPLER_ARG"
	sampler := strings.ToLower(strings.TrimSpace(env(name)))
	if sampler != "" && !slices.Contains(samplers, sampler) {
		return fmt.Errorf("%s is %q: write one of %s", name, env(name), strings.Join(samplers, ", "))
	}
	if arg := strings.TrimSpace(env(share)); arg != "" && strings.HasSuffix(sampler, "traceidratio") {
		if ratio, err := strconv.ParseFloat(arg, 64); err != nil || !(ratio >= 0 && ratio <= 1) {
			return fmt.Errorf("%s is %q: write a share from 0 to 1, such as 0.05", share, env(share))
		}
	}
	return nil
}

// checkMetrics refuses settings of metrics.
func checkMetrics(env func(string) string) error {
	for _, name := range []string{"OTEL_METRIC_EXPORT_INTERVAL", "OTEL_METRIC_EXPORT_TIMEOUT"} {
		const most = int64(24 * time.Hour / time.Millisecond)
		if n, err := strconv.ParseInt(env(name), 10, 64); env(name) != "" && (err != nil || n < 1 || n > most) {
			return fmt.Errorf("%s is %q: write milliseconds, a whole number from 1 to %d, such as 60000 for a minute", name, env(name), most)
		}
	}
	return nil
}

// checkEndpoint refuses where telemetry should go, if nothing can be sent there.
func checkEndpoint(name, value string) error {
	if value == "" {
		return nil
	}
	u, err := url.Parse(value)
	if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Hostname() == "" {
		return fmt.Errorf("%s is %q: write a URL, such as http://collector.example:4318", name, value)
	}
	return nil
}
