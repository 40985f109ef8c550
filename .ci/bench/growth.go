package main

import (
	"math"
	"time"
)

// A curve is how a cost grows, and the exponent of the power that fits it from the
// point on where the fixed part no longer rules.
type curve struct {
	name, unit string
	at         []int
	cost       []float64
}

// exponent is the slope of the logarithms over the last three points.
func (c *curve) exponent() float64 {
	n := len(c.at)
	if n < 3 {
		return math.NaN()
	}
	var sx, sy, sxx, sxy float64
	for i := n - 3; i < n; i++ {
		x, y := math.Log(float64(c.at[i])), math.Log(c.cost[i])
		sx, sy, sxx, sxy = sx+x, sy+y, sxx+x*x, sxy+x*y
	}
	return (3*sxy - sx*sy) / (3*sxx - sx*sx)
}

// A load is what so many clients get that each send a request as soon as the one before
// it is answered.
type load struct {
	connections int
	perSecond   float64
	p50         time.Duration
}

// growing measures CPU time over catches of a request and over connections, with what
// the connections get, and the time of a batch over its lines.
func growing(program string) (curves []curve, loads []load, err error) {
	// More than the usual turns, so that none of 2,000 clients at once is sent away.
	p, err := production(program, address(1), nil, "-max-concurrent", "4096", "-max-wait", "30s")
	if err != nil {
		return nil, nil, err
	}
	defer p.stop()
	catches := curve{name: "CPU time of a request by catches", unit: "µs"}
	for _, n := range []int{1, 3, 10, 30, 100, 300, 1000} {
		request, requests := post("/v1/nozzle-acceptance", sheet(n, false)), 30_000/(n+9)
		if _, err := repeat(p.addr, request, max(requests/10, 4), 4); err != nil { // to warm up
			return nil, nil, err
		}
		took, err := p.cpuOf(request, requests, 4)
		if err != nil {
			return nil, nil, err
		}
		catches.at, catches.cost = append(catches.at, n), append(catches.cost, µsOf(took))
	}
	connections := curve{name: "CPU time of a request by connections", unit: "µs"}
	request := post("/v1/nozzle-acceptance", sheet(12, false))
	for _, n := range []int{1, 2, 4, 10, 100, 500, 2000} {
		if _, err := repeat(p.addr, request, max(800, n), n); err != nil { // to warm up
			return nil, nil, err
		}
		took, err := p.cpuOf(request, 8000, n)
		if err != nil {
			return nil, nil, err
		}
		// Once more for the clock, ten times each at least.
		l, err := repeat(p.addr, request, max(8000, 10*n), n)
		if err != nil {
			return nil, nil, err
		}
		connections.at, connections.cost = append(connections.at, n), append(connections.cost, µsOf(took))
		loads = append(loads, load{n, l.perSecond(), l.at(0.5)})
	}
	lines := curve{name: "time of a batch by lines", unit: "s"}
	for _, n := range []int{1000, 10_000, 100_000, 1_000_000} {
		r, err := runCommand(program, speedLine, n, 2)
		if err != nil {
			return nil, nil, err
		}
		lines.at, lines.cost = append(lines.at, n), append(lines.cost, float64(n)/r.perSecond)
	}
	return []curve{catches, connections, lines}, loads, nil
}

func µsOf(d time.Duration) float64 { return float64(d.Nanoseconds()) / 1000 }
