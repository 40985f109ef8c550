package main

import (
	"fmt"
	"runtime"
	"syscall"
	"time"
)

// A pace is how long requests take that come at a rate. The medians of rounds count.
type pace struct {
	perSecond float64
	p50, p99  time.Duration
}

func (p *pace) ratio() float64 { return float64(p.p99) / float64(p.p50) }

func (p *pace) String() string {
	return fmt.Sprintf("%.0f/s: %.2f and %.2f ms", p.perSecond, p.p50.Seconds()*1000, p.p99.Seconds()*1000)
}

// latency measures the capacity for a moment, then the times of requests at half of it,
// of wetrun and of a fixed reply, and so on in turns, since the capacity of a machine
// with others on it changes.
func latency(program string, rounds int) (wetrun, fixed pace, err error) {
	wet, err := production(program, address(1), nil)
	if err != nil {
		return wetrun, fixed, err
	}
	defer wet.stop()
	request := post("/v1/nozzle-acceptance", sheet(12, false))
	size, err := once(wet.addr, request)
	if err != nil {
		return wetrun, fixed, err
	}
	reply, err := startRival(address(2), "fixed", fmt.Sprint(size))
	if err != nil {
		return wetrun, fixed, err
	}
	defer reply.stop()
	var rates [2][]float64
	var p50s, p99s [2][]time.Duration
	for round := range rounds + 1 {
		for i, p := range []*process{wet, reply} {
			full, err := repeat(p.addr, request, 8000, 16)
			if err != nil {
				return wetrun, fixed, err
			}
			half := full.perSecond() / 2
			l, err := paced(p.addr, request, half, time.Second, 32)
			if err != nil {
				return wetrun, fixed, err
			}
			if round > 0 { // the first is to warm up
				rates[i] = append(rates[i], half)
				p50s[i], p99s[i] = append(p50s[i], l.at(0.5)), append(p99s[i], l.at(0.99))
			}
		}
	}
	return pace{median(rates[0]), median(p50s[0]), median(p99s[0])}, pace{median(rates[1]), median(p50s[1]), median(p99s[1])}, nil
}

// paced sends requests at a rate, whether the answers come or not, and returns how long
// each took from when it was due.
func paced(addr string, request []byte, perSecond float64, span time.Duration, connections int) (l lap, err error) {
	all, err := dialAll(addr, connections)
	defer all.close()
	if err != nil {
		return l, err
	}
	step := time.Duration(float64(time.Second) / perSecond)
	due := make(chan time.Time, span/step+1) // room for all, so that the clock never waits
	began := time.Now()
	go keepTime(began, step, span, due)
	l.times, err = all.each(func(_ int, c *conn) (times []time.Duration, err error) {
		for at := range due {
			if _, err := c.ask(request); err != nil {
				return nil, err
			}
			times = append(times, time.Since(at))
		}
		return times, nil
	})
	l.span = time.Since(began)
	return l, err
}

// keepTime says when a request is due, at each step of a span. It sleeps by the system
// call, on a thread of its own: time.Sleep of an idle program wakes up to a millisecond
// late, which would send the requests in bursts.
func keepTime(began time.Time, step, span time.Duration, due chan<- time.Time) {
	runtime.LockOSThread()
	// The thread is to go on afterwards: a server dies with the one that started it.
	defer runtime.UnlockOSThread()
	defer close(due)
	slack(1) // else the kernel lets up to 50 µs pass, to wake up for several at once
	defer slack(0)
	for at := time.Duration(0); at < span; at += step {
		for wait := at - time.Since(began); wait > 0; wait = at - time.Since(began) {
			nap := syscall.NsecToTimespec(int64(wait))
			_ = syscall.Nanosleep(&nap, nil) // a signal ends it early, and the loop goes on
		}
		due <- began.Add(at)
	}
}

// slack is by how many nanoseconds the kernel may wake this thread late; 0 is the usual.
func slack(ns uintptr) {
	_, _, _ = syscall.RawSyscall(syscall.SYS_PRCTL, syscall.PR_SET_TIMERSLACK, ns, 0)
}

// A holdUp is what the machine takes from a thread that only reads the clock.
type holdUp struct {
	share   float64 // of the time, lost in gaps over shortestGap
	longest time.Duration
}

const shortestGap = 100 * time.Microsecond

// heldUp does not lock its thread: every 10 ms Go's scheduler asks who else wants to run,
// and a locked thread would sleep until another wakes it, which is no gap of the machine.
func heldUp(span time.Duration) (h holdUp) {
	var lost time.Duration
	began := time.Now()
	for last := began; last.Sub(began) < span; {
		now := time.Now()
		if gap := now.Sub(last); gap > shortestGap {
			lost, h.longest = lost+gap, max(h.longest, gap)
		}
		last = now
	}
	h.share = lost.Seconds() / span.Seconds()
	return h
}
