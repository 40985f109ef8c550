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
	quick         bool
	contests      []contest
	allocations   map[string]int // by benchmark
	batches       []batchRow
	million       batchRun
	servedMillion batchRun
	held          holdUp
	wetrun, fixed pace
	first         time.Duration
	idle, size    float64 // MB
	curves        []curve
	loads         []load
}

// holdUpSpan is how long the machine itself is looked at.
const holdUpSpan = 10 * time.Second

func (f *figures) measure(program, folder string) (err error) {
	rounds, tries, speeds, sheets, runs := 15, 4, 100_000, 20_000, 3
	if f.quick {
		rounds, tries, speeds, sheets, runs = 5, 1, 10_000, 1000, 1
	}
	info, err := os.Stat(program)
	if err != nil {
		return err
	}
	f.size = float64(info.Size()) / 1e6
	say := func(what string) { fmt.Fprintln(os.Stderr, time.Now().Format(time.TimeOnly), what) }
	all, err := contests()
	if err != nil {
		return err
	}
	for _, c := range all {
		if f.quick {
			if !c.hasGoal {
				continue
			}
			c.requests /= 2
		}
		say(c.name)
		if err := c.compete(program, folder, rounds, tries); err != nil {
			return err
		}
		f.contests = append(f.contests, c)
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
	if f.batches, err = batchRows(program, speeds, sheets, runs); err != nil || f.quick {
		return err
	}
	say("the machine itself")
	f.held = heldUp(holdUpSpan)
	say("latency")
	if f.wetrun, f.fixed, err = latency(program, 9); err != nil {
		return err
	}
	say("a million lines")
	if f.million, err = runCommand(program, speedLine, 1_000_000, 2); err != nil {
		return err
	}
	if f.servedMillion, err = runServed(program, speedLine, 1_000_000, 2); err != nil {
		return err
	}
	say("growth")
	f.curves, f.loads, err = growing(program)
	return err
}

var allocated = regexp.MustCompile(`(?m)^Benchmark(\w+?)(?:-\d+)?\s.*\s(\d+) allocs/op`)

// allocations asks the benchmarks of the api.
func allocations() (map[string]int, error) {
	out, err := exec.Command("go", "test", "./api", "-run", "^$", "-bench", "TwelveCatches|SheetCertain", "-benchmem", "-benchtime", "3000x").CombinedOutput()
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
