package main

import (
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"time"
)

const (
	pageFile = "testdata/bench/README.md"
	// endOfHead is the last line of it that is written by hand.
	endOfHead = "<!-- measured -->\n\n"
)

// headOfPage is what stands above the table.
func headOfPage() (string, error) {
	text, err := os.ReadFile(pageFile)
	if err != nil {
		return "", err
	}
	head, _, found := strings.Cut(string(text), endOfHead)
	if !found {
		return "", fmt.Errorf("%s has no line %q, below which to write", pageFile, strings.TrimSpace(endOfHead))
	}
	return head + endOfHead, nil
}

// A page is the text of the table while it grows.
type page struct{ strings.Builder }

func (p *page) say(format string, a ...any) { fmt.Fprintf(p, format+"\n", a...) }

func (f *figures) table() string {
	var p page
	version, _ := exec.Command("go", "env", "GOVERSION").Output()
	p.say("## Measured\n")
	p.say("Written by `go run ./.ci/bench -write` on %s: %d cores, %s, %.0f GB, %s/%s, %s.", time.Now().Format("2 January 2006"), runtime.NumCPU(),
		machine("/proc/cpuinfo", "model name"), memoryOfMachine(), runtime.GOOS, runtime.GOARCH, strings.TrimSpace(string(version)))
	p.say("The client runs on the same cores, and so does whatever else the machine does: load average %s. Times are of this machine on that day; ratios carry over.\n", loadAverage())
	p.say("| figure | measured | goal: at most | met |\n| --- | --- | --- | --- |")
	for _, g := range f.goals() {
		bound := g.bound
		if bound == "" {
			bound = "no goal"
		}
		p.say("| %s | %s | %s | %s |", g.what, g.figure, bound, g.verdict())
	}
	p.say("\nWhat a second holds and what two cores gain is what was left of the machine: the batches below say what the CPU time comes to.")
	if !f.quick {
		p.say("p99 is also what the machine itself holds up: beside nothing else, a thread that only reads the clock lost %.2f %% of %.0f s in gaps over %.0f µs, %.1f ms in the longest. The row of the fixed reply, by the same client in the same rounds, says what a server that does nothing gets here.",
			100*f.held.share, holdUpSpan.Seconds(), µsOf(shortestGap), f.held.longest.Seconds()*1000)
	}
	f.requestTable(&p)
	f.batchTable(&p)
	f.growthTables(&p)
	return p.String()
}

func (f *figures) requestTable(p *page) {
	p.say("\n### A request\n")
	p.say("CPU time of the server (user and system), 4 connections, medians of rounds in turns; in brackets the ratios to the fixed replies of the same round. wetrun runs with spans (1 %%), metrics and a line of log for each request.")
	p.say("The two fixed replies are the same server twice: a row where they differ by more than %.0f %% is void.\n", 100*mostOff)
	p.say("| request | bytes | fixed reply | once more | net/http and encoding/json, no checks | wetrun | the fixed ones differ by |\n| --- | --- | --- | --- | --- | --- | --- |")
	for i := range f.contests {
		c := &f.contests[i]
		void := ""
		if c.void() {
			void = ": VOID"
		}
		p.say("| `%s`, %s | %d | %s | %s | %s (%.2f) | %s (%.2f) | %.1f %%%s |", c.operation, c.name, c.bytes, µs(c.fixed), µs(c.fixed2), µs(c.plain), c.plainRatio, µs(c.wetrun), c.wetrunRatio, 100*c.off, void)
	}
}

func (f *figures) batchTable(p *page) {
	p.say("\n### Batches\n")
	p.say("A client writes lines and reads the answers meanwhile, through pipes of the command, or on one connection to a server as above. The last column is 2 over the CPU times, for a machine that does nothing else.\n")
	p.say("| lines | 2 cores | 1 core | CPU time of a line | of the client | 2 cores undisturbed |\n| --- | --- | --- | --- | --- | --- |")
	for i := range f.batches {
		r := &f.batches[i]
		p.say("| %s: %s | %.0f/s | %.0f/s | %s | %s | %.0f/s |", r.way, r.name, r.two.perSecond, r.one.perSecond, µs(r.two.perLine), µs(r.two.client), r.two.undisturbed())
	}
}

func (f *figures) growthTables(p *page) {
	if f.quick {
		return
	}
	p.say("\n### Growth\n\nThe exponent is fitted to the last three points: 1 is in proportion, 0 is not at all.\n")
	p.say("| what | points | exponent |\n| --- | --- | --- |")
	for _, c := range f.curves {
		var points []string
		for i, n := range c.at {
			points = append(points, fmt.Sprintf("%d: %.3g", n, c.cost[i]))
		}
		p.say("| %s, %s | %s | %.2f |", c.name, c.unit, strings.Join(points, ", "), c.exponent())
	}
	p.say("\nConnections that each send a request as soon as the one before it is answered. While cores are free the rate should rise and p50 stay; once they are full the rate should stay and p50 rise in proportion.\n")
	p.say("| connections | requests a second | p50 |\n| --- | --- | --- |")
	for _, l := range f.loads {
		p.say("| %d | %.0f | %.2f ms |", l.connections, l.perSecond, l.p50.Seconds()*1000)
	}
}

func µs(d time.Duration) string { return fmt.Sprintf("%.1f µs", µsOf(d)) }
