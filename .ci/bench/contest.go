package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"time"
)

// mostOff is how far two servers that are alike may lie apart before what is measured
// between others means nothing.
const mostOff = 0.1

// A contest is one request, and the CPU time that each server takes for it: medians of
// the rounds, and of the ratios to the fixed replies of the same round.
type contest struct {
	name, operation, body string
	hasGoal               bool
	requests              int // of a round

	bytes                        int
	fixed, fixed2, plain, wetrun time.Duration
	plainRatio, wetrunRatio      float64
	// off is how far the two fixed replies, which are the same server twice, lie apart.
	off float64
}

func (c *contest) void() bool { return c.off > mostOff }

// contests are the requests that are compared, those with goals first.
func contests() ([]contest, error) {
	certain, err := fieldSheet(false)
	if err != nil {
		return nil, err
	}
	uncertain, err := fieldSheet(true)
	return []contest{
		{name: "12 catches", operation: "nozzle-acceptance", body: sheet(12, false), hasGoal: true, requests: 2000},
		{name: "a whole sheet", operation: "calibrations", body: certain, hasGoal: true, requests: 1000},
		{name: "12 catches with uncertainties", operation: "nozzle-acceptance", body: sheet(12, true), requests: 2000},
		{name: "a whole sheet with uncertainties", operation: "calibrations", body: uncertain, requests: 1000},
	}, err
}

// compete measures CPU time per request of each server, round by round, and again when
// the two that are alike differ too much.
func (c *contest) compete(program, folder string, rounds, tries int) error {
	servers, stop, err := c.servers(program, folder)
	defer stop()
	if err != nil {
		return err
	}
	request := post("/v1/"+c.operation, c.body)
	for try := range tries {
		took := make([][]time.Duration, len(servers))
		for round := range rounds + 1 {
			for i, p := range servers {
				each, err := p.cpuOf(request, c.requests, 4)
				if err != nil {
					return fmt.Errorf("%s: %w", p.cmd, err)
				}
				if round > 0 { // the first is to warm up
					took[i] = append(took[i], each)
				}
			}
		}
		c.settle(took[0], took[1], took[2], took[3])
		if !c.void() {
			break
		}
		fmt.Fprintf(os.Stderr, "%s: two servers that are alike differ by %.0f %%, try %d\n", c.name, 100*c.off, try+1)
	}
	return nil
}

// servers starts wetrun, two of the fixed reply and the plain one, which learn from
// wetrun's answer what to give.
func (c *contest) servers(program, folder string) (all []*process, stop func(), err error) {
	stop = func() {
		for _, p := range all {
			p.stop()
		}
	}
	wet, err := production(program, address(1), nil)
	if err != nil {
		return all, stop, err
	}
	all = append(all, wet)
	answer, err := fetch(wet.addr, c.operation, c.body)
	if err != nil {
		return all, stop, err
	}
	c.bytes = len(answer)
	requestFile, answerFile := filepath.Join(folder, "request.json"), filepath.Join(folder, "answer.json")
	if err := os.WriteFile(requestFile, []byte(c.body), 0o600); err != nil {
		return all, stop, err
	}
	if err := os.WriteFile(answerFile, answer, 0o600); err != nil {
		return all, stop, err
	}
	size := fmt.Sprint(c.bytes)
	for i, args := range [][]string{{"fixed", size}, {"fixed", size}, {"plain", c.operation, requestFile, answerFile}} {
		p, err := startRival(address(2+i), args...)
		if err != nil {
			return all, stop, err
		}
		all = append(all, p)
	}
	plain, err := fetch(address(4), c.operation, c.body)
	if err != nil {
		return all, stop, err
	}
	return all, stop, alike(plain, answer)
}

func (c *contest) settle(wetrun, fixed, fixed2, plain []time.Duration) {
	var plains, wetruns, offs []float64
	for i := range fixed {
		base := float64(fixed[i]+fixed2[i]) / 2
		plains, wetruns = append(plains, float64(plain[i])/base), append(wetruns, float64(wetrun[i])/base)
		offs = append(offs, float64(fixed2[i])/float64(fixed[i]))
	}
	c.fixed, c.fixed2, c.plain, c.wetrun = median(fixed), median(fixed2), median(plain), median(wetrun)
	c.plainRatio, c.wetrunRatio, c.off = median(plains), median(wetruns), math.Abs(median(offs)-1)
}

// cpuOf is the CPU time that each of n requests takes of the server.
func (p *process) cpuOf(request []byte, n, connections int) (time.Duration, error) {
	before, err := p.cpu()
	if err != nil {
		return 0, err
	}
	if _, err := repeat(p.addr, request, n, connections); err != nil {
		return 0, err
	}
	after, err := p.cpu()
	return (after - before) / time.Duration(n), err
}

func median[T ~int64 | ~float64](all []T) T {
	s := slices.Sorted(slices.Values(all))
	return s[len(s)/2]
}
