package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"syscall"
	"time"
)

// A batchRow is one kind of lines that go through in one way, on two cores and on one.
type batchRow struct {
	way, name string
	goal      float64 // lines a second; 0 is none
	two, one  batchRun
}

// A batchRun is how a batch went.
type batchRun struct {
	perSecond float64
	perLine   time.Duration // CPU time of the program
	client    time.Duration // CPU time of this program for a line
	most      float64       // MB of memory at the highest
}

func (r *batchRun) settle(lines int, took, program, client time.Duration) {
	r.perSecond, r.perLine, r.client = float64(lines)/took.Seconds(), program/time.Duration(lines), client/time.Duration(lines)
}

// undisturbed is how many lines two cores with nothing else to do would answer in a
// second, by the CPU time of program and client.
func (r *batchRun) undisturbed() float64 { return 2 / (r.perLine + r.client).Seconds() }

// batchRows measures all kinds in both ways, with so many lines.
func batchRows(program string, speeds, sheets, runs int) ([]batchRow, error) {
	certain, err := sheetLine(false)
	if err != nil {
		return nil, err
	}
	uncertain, err := sheetLine(true)
	if err != nil {
		return nil, err
	}
	const command, served = "`wetrun batch`", "`POST /v1/batch`"
	var rows []batchRow
	for _, x := range []struct {
		way, name, line string
		goal            float64
		lines           int
		run             func(program, line string, lines, cores int) (batchRun, error)
	}{
		{command, "ground-speed lines", speedLine, 60_000, speeds, runCommand},
		{command, "whole sheets", certain, 15_000, sheets, runCommand},
		{command, "whole sheets with uncertainties", uncertain, 0, sheets / 2, runCommand},
		{served, "ground-speed lines", speedLine, 60_000, speeds, runServed},
		{served, "whole sheets", certain, 15_000, sheets, runServed},
	} {
		row := batchRow{way: x.way, name: x.name, goal: x.goal}
		// The quickest counts, in turns: what else runs on the machine can only slow a run down.
		for range runs {
			for cores, best := range map[int]*batchRun{2: &row.two, 1: &row.one} {
				r, err := x.run(program, x.line, x.lines, cores)
				if err != nil {
					return nil, fmt.Errorf("%s, %s: %w", x.way, x.name, err)
				}
				if r.perSecond > best.perSecond {
					*best = r
				}
			}
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// runCommand puts lines through the command, on so many cores.
func runCommand(program, line string, lines, cores int) (r batchRun, err error) {
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
	if r.most, err = converse(in, out, line, lines, cmd.Process.Pid); err != nil {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		return r, err
	}
	took := time.Since(began)
	if err := cmd.Wait(); err != nil {
		return r, err
	}
	r.settle(lines, took, cmd.ProcessState.UserTime()+cmd.ProcessState.SystemTime(), ownCPU()-client)
	return r, nil
}

// converse writes lines as they are taken, reads their answers meanwhile and counts
// them. It returns the most memory, in MB, that the process had.
func converse(in io.WriteCloser, out io.Reader, line string, lines, pid int) (most float64, err error) {
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
			return most, fmt.Errorf("line %d: %v %.200s", answers+1, err, b)
		}
		if answers%(lines/20+1) == 0 {
			most = max(most, memory(pid, "VmHWM"))
		}
	}
	if answers != lines {
		return most, fmt.Errorf("%d answers to %d lines", answers, lines)
	}
	return most, nil
}

// ownCPU is the time that this program has used.
func ownCPU() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u) // it has no way to fail with these arguments
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
