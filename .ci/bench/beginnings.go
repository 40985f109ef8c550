package main

import "time"

// production is wetrun with all that costs: spans, metrics, a line of log for each
// request. Nobody takes the spans.
func production(program, addr string, env []string, more ...string) (*process, error) {
	return start(addr, append([]string{"OTEL_EXPORTER_OTLP_ENDPOINT=http://127.0.0.1:9"}, env...), program,
		append([]string{"serve", "-addr", addr, "-admin-addr", address(9), "-log-format", "json", "-log-level", "info", "-max-connections", "4096"}, more...)...)
}

// beginnings are the median time from the start of the program to its first answer, and
// the memory of one that has answered it and waits.
func beginnings(program string, times int) (first time.Duration, idle float64, err error) {
	request := post("/v1/ground-speed", `{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]}`)
	var all []time.Duration
	var memories []float64
	for range times {
		began := time.Now()
		p, err := start(address(1), nil, program, "serve", "-addr", address(1))
		if err != nil {
			return 0, 0, err
		}
		_, err = once(p.addr, request)
		all = append(all, time.Since(began))
		time.Sleep(200 * time.Millisecond)
		memories = append(memories, memory(p.cmd.Process.Pid, "VmRSS"))
		p.stop()
		if err != nil {
			return 0, 0, err
		}
	}
	return median(all), median(memories), nil
}
