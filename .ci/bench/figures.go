package main

import (
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"time"
)

// figures are all that is measured.
type figures struct {
	quick              bool
	certain, uncertain contest
	allocations        map[string]int // by benchmark
	perSecond          float64
	p50, p99           time.Duration
	speed2, speed1     batchRun
	sheet2, sheet1     batchRun
	sheetU, sheetU1    batchRun
	million            batchRun
	first              time.Duration
	idle, size         float64 // MB
	curves             []curve
}

func (f *figures) measure(program string) (err error) {
	requests, rounds, speeds, sheets, runs := 2000, 15, 100_000, 20_000, 3
	if f.quick {
		requests, rounds, speeds, sheets, runs = 1000, 5, 10_000, 1000, 1
	}
	info, err := os.Stat(program)
	if err != nil {
		return err
	}
	f.size = float64(info.Size()) / 1e6
	say := func(what string) { fmt.Fprintln(os.Stderr, time.Now().Format(time.TimeOnly), what) }
	say("a request")
	if f.certain, err = compete(program, "12 catches", sheet(12, false), requests, rounds); err != nil {
		return err
	}
	if f.uncertain, err = compete(program, "12 catches with uncertainties", sheet(12, true), requests, rounds); err != nil {
		return err
	}
	say("allocations")
	if f.allocations, err = allocations(); err != nil {
		return err
	}
	say("the start")
	if f.first, f.idle, err = beginnings(program, 11); err != nil {
		return err
	}
	say("batches")
	line, err := sheetLine(false)
	if err != nil {
		return err
	}
	if f.speed2, f.speed1, err = bestBatch(program, speedLine, speeds, runs); err != nil {
		return err
	}
	if f.sheet2, f.sheet1, err = bestBatch(program, line, sheets, runs); err != nil {
		return err
	}
	if line, err = sheetLine(true); err != nil {
		return err
	}
	if f.sheetU, f.sheetU1, err = bestBatch(program, line, sheets/2, runs); err != nil {
		return err
	}
	if f.quick {
		return nil
	}
	say("latency")
	if f.perSecond, f.p50, f.p99, err = latency(program, 9); err != nil {
		return err
	}
	say("a million lines")
	if f.million, err = runBatch(program, speedLine, 1_000_000, 2); err != nil {
		return err
	}
	say("growth")
	f.curves, err = growing(program)
	return err
}

var allocated = regexp.MustCompile(`(?m)^Benchmark(\w+?)(?:-\d+)?\s.*\s(\d+) allocs/op`)

// allocations asks the benchmarks of the api.
func allocations() (map[string]int, error) {
	out, err := exec.Command("go", "test", "./api", "-run", "^$", "-bench", "TwelveCatches", "-benchmem", "-benchtime", "3000x").CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("%w: %s", err, out)
	}
	found := map[string]int{}
	for _, m := range allocated.FindAllStringSubmatch(string(out), -1) {
		if found[m[1]], err = strconv.Atoi(m[2]); err != nil {
			return nil, err
		}
	}
	return found, nil
}
