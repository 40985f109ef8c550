package main

import (
	"fmt"
	"math"
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
	basis := "both"
	if catches == 1 { // which has no mean
		basis = "rated"
	}
	fmt.Fprintf(&b, `],"tolerance":{"limit":{"value":10,"unit":"%%"},"basis":%q}`, basis)
	if !uncertainty {
		b.WriteString(`,"uncertainty":false`)
	}
	b.WriteString("}")
	return b.String()
}

// production is wetrun with all that costs: spans, metrics, a line of log for each
// request. Nobody takes the spans.
func production(program, addr string, more ...string) (*process, error) {
	return start(addr, []string{"OTEL_EXPORTER_OTLP_ENDPOINT=http://127.0.0.1:9"}, program,
		append([]string{"serve", "-addr", addr, "-admin-addr", address(9), "-log-format", "json", "-log-level", "info"}, more...)...)
}

// A contest is one request, and the CPU time that each server takes for it: medians of
// the rounds, and of the ratios to the fixed replies of the same round.
type contest struct {
	name                         string
	bytes                        int
	fixed, fixed2, plain, wetrun time.Duration
	plainRatio, wetrunRatio      float64
	// off is how far the two fixed replies, which are the same server twice, lie apart.
	off float64
}

func contestOf(name string, size int, wetrun, fixed, fixed2, plain []time.Duration) contest {
	var plains, wetruns, offs []float64
	for i := range fixed {
		base := float64(fixed[i]+fixed2[i]) / 2
		plains, wetruns = append(plains, float64(plain[i])/base), append(wetruns, float64(wetrun[i])/base)
		offs = append(offs, float64(fixed2[i])/float64(fixed[i]))
	}
	return contest{
		name, size, median(fixed), median(fixed2), median(plain), median(wetrun),
		median(plains), median(wetruns), math.Abs(median(offs) - 1),
	}
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
				if err := repeat(p.addr, request, requests, 4); err != nil {
					return c, fmt.Errorf("%s: %w", p.cmd, err)
				}
				after, err := p.cpu()
				if err != nil {
					return c, err
				}
				if round > 0 { // the first is to warm up
					took[i] = append(took[i], (after-before)/time.Duration(requests))
				}
			}
		}
		c = contestOf(name, size, took[0], took[1], took[2], took[3])
		if c.off <= 0.1 {
			break
		}
		fmt.Fprintf(os.Stderr, "%s: two servers that are alike differ by %.0f %%, try %d\n", name, 100*c.off, try+1)
	}
	return c, nil
}

func median[T ~int64 | ~float64](all []T) T {
	s := slices.Sorted(slices.Values(all))
	return s[len(s)/2]
}

// latency measures the capacity for a moment, then the times of requests at half of it,
// and so on in turns, since the capacity of a machine with others on it changes. The
// medians of the rounds count.
func latency(program string, rounds int) (perSecond float64, p50, p99 time.Duration, err error) {
	p, err := production(program, address(1))
	if err != nil {
		return 0, 0, 0, err
	}
	defer p.stop()
	request := post("/v1/nozzle-acceptance", sheet(12, false))
	var rates []float64
	var p50s, p99s []time.Duration
	for round := range rounds + 1 {
		const n = 8000
		began := time.Now()
		if err := repeat(p.addr, request, n, 16); err != nil {
			return 0, 0, 0, err
		}
		half := n / time.Since(began).Seconds() / 2
		times, err := paced(p.addr, request, half, time.Second, 32)
		if err != nil || len(times) == 0 {
			return 0, 0, 0, err
		}
		if round > 0 { // the first is to warm up
			slices.Sort(times)
			rates = append(rates, half)
			p50s, p99s = append(p50s, times[len(times)/2]), append(p99s, times[len(times)*99/100])
		}
	}
	return median(rates), median(p50s), median(p99s), nil
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
