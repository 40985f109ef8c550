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

// growing measures CPU time over catches of a request and over connections, and the time
// of a batch over its lines.
func growing(program string) ([]curve, error) {
	catches := curve{name: "CPU time of a request by catches", unit: "µs"}
	// More than the usual turns, so that none of 2,000 clients at once is sent away.
	p, err := production(program, address(1), "-max-concurrent", "4096", "-max-wait", "30s")
	if err != nil {
		return nil, err
	}
	defer p.stop()
	perRequest := func(request []byte, n, connections int) (float64, error) {
		if err := repeat(p.addr, request, max(n/10, connections), connections); err != nil {
			return 0, err
		}
		before, err := p.cpu()
		if err != nil {
			return 0, err
		}
		if err := repeat(p.addr, request, n, connections); err != nil {
			return 0, err
		}
		after, err := p.cpu()
		return float64((after - before).Microseconds()) / float64(n), err
	}
	for _, n := range []int{1, 3, 10, 30, 100, 300, 1000} {
		took, err := perRequest(post("/v1/nozzle-acceptance", sheet(n, false)), 30_000/(n+9), 4)
		if err != nil {
			return nil, err
		}
		catches.at, catches.cost = append(catches.at, n), append(catches.cost, took)
	}
	connections := curve{name: "CPU time of a request by connections", unit: "µs"}
	for _, n := range []int{1, 10, 100, 500, 2000} {
		took, err := perRequest(post("/v1/nozzle-acceptance", sheet(12, false)), 8000, n)
		if err != nil {
			return nil, err
		}
		connections.at, connections.cost = append(connections.at, n), append(connections.cost, took)
	}
	lines := curve{name: "time of a batch by lines", unit: "s"}
	for _, n := range []int{1000, 10_000, 100_000, 1_000_000} {
		r, err := runBatch(program, speedLine, n, 2)
		if err != nil {
			return nil, err
		}
		lines.at, lines.cost = append(lines.at, n), append(lines.cost, (time.Duration(float64(n)/r.perSecond*1e9)).Seconds())
	}
	return []curve{catches, connections, lines}, nil
}
