package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"syscall"
	"time"
)

const speedLine = `{"id":"tractor 7","operation":"ground-speed","request":{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}},{"courseLength":{"value":100,"unit":"ft"},"time":{"value":23.4,"unit":"s"}}],"uncertainty":false}}` + "\n"

// sheetLine is a whole field sheet as a line.
func sheetLine(uncertainty bool) (string, error) {
	b, err := os.ReadFile("testdata/demo/ready.json")
	if err != nil {
		return "", err
	}
	var one bytes.Buffer
	if err := json.Compact(&one, b); err != nil {
		return "", err
	}
	if !uncertainty {
		one.Truncate(one.Len() - 1)
		one.WriteString(`,"uncertainty":false}`)
	}
	return `{"id":"tractor 7","operation":"calibrations","request":` + one.String() + "}\n", nil
}

// A batchRun is how a batch went.
type batchRun struct {
	perSecond float64
	perLine   time.Duration // CPU time of the program
	client    time.Duration // CPU time of this program for a line
	most      float64       // MB of memory at the highest
}

// runBatch writes lines to the program as it takes them, on so many cores, and reads
// its answers and counts them.
func runBatch(program, line string, lines, cores int) (r batchRun, err error) {
	cmd := exec.Command(program, "batch", "-quiet")
	cmd.Env = append(os.Environ(), fmt.Sprintf("GOMAXPROCS=%d", cores))
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		return r, err
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return r, err
	}
	began, client := time.Now(), ownCPU()
	if err := cmd.Start(); err != nil {
		return r, err
	}
	go func() { // an error here shows as too few answers
		w := bufio.NewWriterSize(in, 64<<10)
		for range lines {
			_, _ = w.WriteString(line)
		}
		_ = w.Flush()
		_ = in.Close()
	}()
	answers, right := 0, []byte(`"status":200`)
	for answer := bufio.NewReaderSize(out, 256<<10); ; answers++ {
		b, err := answer.ReadSlice('\n')
		if err == io.EOF {
			break
		}
		if err != nil || !bytes.Contains(b[:min(len(b), 80)], right) {
			_ = cmd.Process.Kill()
			return r, fmt.Errorf("line %d: %v %.200s", answers+1, err, b)
		}
		if answers%(lines/20+1) == 0 {
			r.most = max(r.most, memory(cmd.Process.Pid, "VmHWM"))
		}
	}
	took := time.Since(began)
	if err := cmd.Wait(); err != nil || answers != lines {
		return r, fmt.Errorf("%d answers to %d lines: %v", answers, lines, err)
	}
	used := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	r.perSecond, r.perLine, r.client = float64(lines)/took.Seconds(), used/time.Duration(lines), (ownCPU()-client)/time.Duration(lines)
	return r, nil
}

// undisturbed is how many lines two cores with nothing else to do would answer in a
// second, by the CPU time of program and client.
func (r *batchRun) undisturbed() float64 { return 2 / (r.perLine + r.client).Seconds() }

// ownCPU is the time that this program has used.
func ownCPU() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u) // it has no way to fail with these arguments
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// bestBatch is the quickest of some runs on two cores, and on one, in turns: what else
// runs on the machine can only slow a run down.
func bestBatch(program, line string, lines, runs int) (two, one batchRun, err error) {
	for range runs {
		for cores, best := range map[int]*batchRun{2: &two, 1: &one} {
			r, err := runBatch(program, line, lines, cores)
			if err != nil {
				return two, one, err
			}
			if r.perSecond > best.perSecond {
				*best = r
			}
		}
	}
	return two, one, nil
}
