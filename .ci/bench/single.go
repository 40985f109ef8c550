package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"time"
)

// sheet is an invented round: catches of drops with three nozzles, two in twelve outside.
func sheet(catches int, uncertainty bool) string {
	var b strings.Builder
	b.WriteString(`{"nozzle":{"ratedFlowRate":{"value":0.5,"unit":"gal_us/min"},"ratedPressure":{"value":40,"unit":"psi"}},"sprayPressure":{"value":60,"unit":"psi"},"catches":[`)
	for i := range catches {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, `{"label":"drop %d","position":%q,"nozzles":3,"volume":{"value":%d,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}}`,
			i+1, []string{"left", "center", "right"}[i*3/catches], 112+4*(i%12))
	}
	b.WriteString(`],"tolerance":{"limit":{"value":10,"unit":"%"},"basis":"both"}`)
	if !uncertainty {
		b.WriteString(`,"uncertainty":false`)
	}
	b.WriteString("}")
	return b.String()
}

// production is wetrun with all that costs: spans, metrics, a line of log for each
// request. Nobody takes the spans.
func production(program, addr string) (*process, error) {
	return start(addr, []string{"OTEL_EXPORTER_OTLP_ENDPOINT=http://127.0.0.1:9"}, program,
		"serve", "-addr", addr, "-admin-addr", address(9), "-log-format", "json", "-log-level", "info")
}

// A contest is one request, and the CPU time that each server takes for it.
type contest struct {
	name  string
	bytes int
	// The medians of five rounds. fixed2 is the fixed reply once more: how far it is
	// from the first is how far anything may be off by chance.
	fixed, fixed2, plain, wetrun time.Duration
}

func (c *contest) ratio(t time.Duration) float64 { return float64(t) / float64(c.fixed+c.fixed2) * 2 }

// off is how far the two fixed servers, which are the same, lie apart.
func (c *contest) off() float64 {
	return 2 * (float64(max(c.fixed, c.fixed2)-min(c.fixed, c.fixed2)) / float64(c.fixed+c.fixed2))
}

// compete measures CPU time per request of each server, round by round, and once more
// when the two that are alike differ by more than a tenth.
func compete(program, name, body string, requests, rounds int) (c contest, err error) {
	request := post("/v1/nozzle-acceptance", body)
	wet, err := production(program, address(1))
	if err != nil {
		return c, err
	}
	defer wet.stop()
	size, err := once(wet.addr, request)
	if err != nil {
		return c, err
	}
	servers := []*process{wet}
	for i, args := range [][]string{{"fixed", fmt.Sprint(size)}, {"fixed", fmt.Sprint(size)}, {"plain", fmt.Sprint(size)}} {
		self, err := os.Executable()
		if err != nil {
			return c, err
		}
		p, err := start(address(2+i), nil, self, append([]string{"-serve", address(2 + i)}, args...)...)
		if err != nil {
			return c, err
		}
		defer p.stop()
		servers = append(servers, p)
	}
	for try := range 4 {
		took := make([][]time.Duration, len(servers))
		for round := range rounds + 1 {
			for i := range servers {
				p := servers[i]
				before, err := p.cpu()
				if err != nil {
					return c, err
				}
				n := requests
				if i == 1 || i == 2 {
					n *= 3 // they are quick, and the clock has ticks of 10 ms
				}
				if err := repeat(p.addr, request, n, 4); err != nil {
					return c, fmt.Errorf("%s: %w", p.cmd, err)
				}
				after, err := p.cpu()
				if err != nil {
					return c, err
				}
				if round > 0 { // the first is to warm up
					took[i] = append(took[i], (after-before)/time.Duration(n))
				}
			}
		}
		c = contest{name, size, median(took[1]), median(took[2]), median(took[3]), median(took[0])}
		if c.off() <= 0.1 {
			break
		}
		fmt.Fprintf(os.Stderr, "%s: two servers that are alike differ by %.0f %%, try %d\n", name, 100*c.off(), try+1)
	}
	return c, nil
}

func median[T ~int64 | ~float64](all []T) T {
	s := slices.Sorted(slices.Values(all))
	return s[len(s)/2]
}

// latency is half of the capacity, and the times of requests at that rate.
func latency(program string, span time.Duration) (perSecond float64, p50, p99 time.Duration, err error) {
	p, err := production(program, address(1))
	if err != nil {
		return 0, 0, 0, err
	}
	defer p.stop()
	request := post("/v1/nozzle-acceptance", sheet(12, false))
	const n = 20_000
	if err := repeat(p.addr, request, n/10, 16); err != nil {
		return 0, 0, 0, err
	}
	began := time.Now()
	if err := repeat(p.addr, request, n, 16); err != nil {
		return 0, 0, 0, err
	}
	perSecond = n / time.Since(began).Seconds() / 2
	times, err := paced(p.addr, request, perSecond, span, 32)
	if err != nil || len(times) == 0 {
		return 0, 0, 0, err
	}
	slices.Sort(times)
	return perSecond, times[len(times)/2], times[len(times)*99/100], nil
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
