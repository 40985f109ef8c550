package main

import (
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"time"
)

// A goal is a figure with its bound.
type goal struct {
	what, figure, bound string
	met                 bool
	hard                bool // noise cannot spoil it, so it may fail CI
}

func (f *figures) goals() []goal {
	c, u := &f.certain, &f.uncertain
	all := []goal{
		{"CPU of a request, fixed reply = 1", fmt.Sprintf("%.2f", c.wetrunRatio), "3.5", c.wetrunRatio <= 3.5, false},
		{"the same, against encoding/json without checks = 1", fmt.Sprintf("%.2f", c.wetrunRatio/c.plainRatio), "1", c.wetrunRatio <= c.plainRatio, false},
		{"the same with uncertainties, fixed reply = 1", fmt.Sprintf("%.2f", u.wetrunRatio), "no goal", true, false},
		atMost("allocations of a request", float64(f.allocations["TwelveCatchesCertain"]), 70, "", true),
		atMost("allocations with uncertainties", float64(f.allocations["TwelveCatchesObserved"]), 70, "", true),
		atLeast("batch: ground-speed lines a second, 2 cores", f.speed2.perSecond, 60_000),
		atLeast("batch: whole sheets a second, 2 cores", f.sheet2.perSecond, 15_000),
		{"batch: whole sheets with uncertainties a second", fmt.Sprintf("%.0f", f.sheetU.perSecond), "no goal", true, false},
		{"batch: two cores against one", fmt.Sprintf("%.2f", f.sheet2.perSecond/f.sheet1.perSecond), "1.7 or more", f.sheet2.perSecond >= 1.7*f.sheet1.perSecond, false},
		{"start to first answer", fmt.Sprintf("%.1f ms", f.first.Seconds()*1000), "30 ms", f.first < 30*time.Millisecond, false},
		atMost("memory of an idle server", f.idle, 28, " MB", false),
		atMost("the program, stripped, with its documents", f.size, 24, " MB", false),
	}
	if f.quick {
		return all
	}
	return append(all,
		goal{fmt.Sprintf("p99 / p50 at half of the capacity (%.0f/s: %.2f and %.2f ms)", f.perSecond, f.p50.Seconds()*1000, f.p99.Seconds()*1000),
			fmt.Sprintf("%.1f", float64(f.p99)/float64(f.p50)), "5", f.p99 < 5*f.p50, false},
		atMost("batch: memory at most, 1,000,000 lines", f.million.most, 64, " MB", false),
	)
}

func atMost(what string, x, bound float64, unit string, hard bool) goal {
	return goal{what, fmt.Sprintf("%.4g%s", x, unit), fmt.Sprintf("%g%s", bound, unit), x > 0 && x < bound, hard}
}

func atLeast(what string, x, bound float64) goal {
	return goal{what, fmt.Sprintf("%.0f", x), fmt.Sprintf("%.0f or more", bound), x >= bound, false}
}

// hard is an error when a goal is missed that noise cannot spoil.
func (f *figures) hard() error {
	for _, g := range f.goals() {
		if g.hard && !g.met {
			return fmt.Errorf("%s: %s, the goal is %s", g.what, g.figure, g.bound)
		}
	}
	return nil
}

func (f *figures) table() string {
	var b strings.Builder
	say := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	version, _ := exec.Command("go", "env", "GOVERSION").Output()
	say("# Speed, memory, size\n")
	say("Written by `go run ./.ci/bench -write` on %s: %d cores, %s, %.0f GB, %s/%s, %s.", time.Now().Format("2 January 2006"), runtime.NumCPU(),
		machine("/proc/cpuinfo", "model name"), memoryOfMachine(), runtime.GOOS, runtime.GOARCH, strings.TrimSpace(string(version)))
	say("The client runs on the same cores, and so does whatever else the machine does: load average %s. Times are of this machine on that day; ratios carry over.\n", load())
	say("| figure | measured | goal: at most | met |\n| --- | --- | --- | --- |")
	for _, g := range f.goals() {
		say("| %s | %s | %s | %s |", g.what, g.figure, g.bound, met(g))
	}
	say("\nWhat a second holds and what two cores gain is what was left of the machine: the batches below say what the CPU time comes to.")
	say("\n## A request\n")
	say("CPU time of the server (user and system), 4 connections, medians of rounds in turns, and in brackets of the ratios to the fixed replies of the same round; wetrun with spans (1 %%), metrics and a line of log for each request.")
	say("The two fixed replies are the same server twice: a table where they differ by more than 10 %% is void.\n")
	say("| request | bytes | fixed reply | once more | net/http and encoding/json, no checks | wetrun | the fixed ones differ by |\n| --- | --- | --- | --- | --- | --- | --- |")
	for _, c := range []*contest{&f.certain, &f.uncertain} {
		void := ""
		if c.off > 0.1 {
			void = ": VOID"
		}
		say("| %s | %d | %s | %s | %s (%.2f) | %s (%.2f) | %.1f %%%s |", c.name, c.bytes, µs(c.fixed), µs(c.fixed2), µs(c.plain), c.plainRatio, µs(c.wetrun), c.wetrunRatio, 100*c.off, void)
	}
	say("\nThe server of encoding/json never computes uncertainties, in neither row.")
	say("\n## Batches\n")
	say("`wetrun batch`, with a client that writes lines into it and reads its answers. The last column is 2 over the CPU times, for a machine that does nothing else.\n")
	say("| lines | 2 cores | 1 core | CPU time of a line | of the client | 2 cores undisturbed |\n| --- | --- | --- | --- | --- | --- |")
	for _, x := range []struct {
		name     string
		two, one *batchRun
	}{
		{"ground-speed", &f.speed2, &f.speed1}, {"whole sheet", &f.sheet2, &f.sheet1}, {"whole sheet with uncertainties", &f.sheetU, &f.sheetU1},
	} {
		say("| %s | %.0f/s | %.0f/s | %s | %s | %.0f/s |", x.name, x.two.perSecond, x.one.perSecond, µs(x.two.perLine), µs(x.two.client), x.two.undisturbed())
	}
	if len(f.curves) > 0 {
		say("\n## Growth\n\nThe exponent is fitted to the last three points: 1 is in proportion, 0 is not at all.\n")
		say("| what | points | exponent |\n| --- | --- | --- |")
		for _, c := range f.curves {
			var points []string
			for i, n := range c.at {
				points = append(points, fmt.Sprintf("%d: %.3g", n, c.cost[i]))
			}
			say("| %s, %s | %s | %.2f |", c.name, c.unit, strings.Join(points, ", "), c.exponent())
		}
	}
	return b.String()
}

func met(g goal) string {
	switch {
	case g.bound == "no goal":
		return ""
	case g.met:
		return "yes"
	}
	return "**no**"
}

func µs(d time.Duration) string { return fmt.Sprintf("%.1f µs", float64(d.Nanoseconds())/1000) }

// machine is the value of the first line of a file that begins with name.
func machine(file, name string) string {
	b, _ := os.ReadFile(file) // where it is missing, nothing is said
	for line := range strings.Lines(string(b)) {
		if key, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(key) == name {
			return strings.TrimSpace(value)
		}
	}
	return "unknown"
}

func load() string {
	b, _ := os.ReadFile("/proc/loadavg")
	one, _, _ := strings.Cut(string(b), " ")
	return one
}

func memoryOfMachine() float64 {
	var kb float64
	_, _ = fmt.Sscanf(machine("/proc/meminfo", "MemTotal"), "%f", &kb)
	return kb / 1e6
}
