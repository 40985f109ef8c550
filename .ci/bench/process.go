package main

import (
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// A process is a server that this program started.
type process struct {
	cmd  *exec.Cmd
	addr string
}

// start runs a server on addr and waits until it listens.
func start(addr string, env []string, name string, args ...string) (*process, error) {
	p := &process{exec.Command(name, args...), addr}
	p.cmd.Env = append(os.Environ(), env...)
	p.cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL} // none outlives this program
	log, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		return nil, err
	}
	defer log.Close()
	p.cmd.Stdout, p.cmd.Stderr = log, log // a file, so that nobody copies what is logged
	if err := p.cmd.Start(); err != nil {
		return nil, err
	}
	for range 20_000 {
		if c, err := net.Dial("tcp", addr); err == nil {
			return p, c.Close()
		}
		time.Sleep(200 * time.Microsecond)
	}
	p.stop()
	return nil, fmt.Errorf("%s does not listen on %s", name, addr)
}

func (p *process) stop() {
	_ = p.cmd.Process.Kill()
	_ = p.cmd.Wait()
}

// cpu is the time that the threads of the process have run, user and system, as the
// scheduler counts it (schedstat): the clock of /proc/PID/stat has ticks of 10 ms.
func (p *process) cpu() (sum time.Duration, err error) {
	threads, err := filepath.Glob(filepath.Join("/proc", strconv.Itoa(p.cmd.Process.Pid), "task", "*", "schedstat"))
	if err != nil || len(threads) == 0 {
		return 0, fmt.Errorf("no times of process %d: %v", p.cmd.Process.Pid, err)
	}
	for _, file := range threads {
		b, err := os.ReadFile(file)
		if err != nil {
			return 0, err
		}
		ran, _, _ := strings.Cut(string(b), " ")
		ns, err := strconv.ParseInt(ran, 10, 64)
		if err != nil {
			return 0, err
		}
		sum += time.Duration(ns)
	}
	return sum, nil
}

// memory reads a line of /proc/PID/status, such as VmRSS or VmHWM, in MB.
func memory(pid int, name string) float64 {
	b, err := os.ReadFile(filepath.Join("/proc", strconv.Itoa(pid), "status"))
	if err != nil {
		return 0
	}
	for line := range strings.Lines(string(b)) {
		if f := strings.Fields(line); len(f) > 1 && f[0] == name+":" {
			kb, _ := strconv.ParseFloat(f[1], 64)
			return kb * 1024 / 1e6
		}
	}
	return 0
}

// build makes the program as a release has it.
func build(folder string) (string, error) {
	out := filepath.Join(folder, "wetrun")
	cmd := exec.Command(".ci/build", out)
	cmd.Stderr = os.Stderr
	return out, cmd.Run()
}
