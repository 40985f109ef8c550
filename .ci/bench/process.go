package main

import (
	"bytes"
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

// cpu is the time that the process has used, user and system (proc(5), stat).
func (p *process) cpu() (time.Duration, error) {
	b, err := os.ReadFile(filepath.Join("/proc", strconv.Itoa(p.cmd.Process.Pid), "stat"))
	if err != nil {
		return 0, err
	}
	f := strings.Fields(string(b[bytes.LastIndexByte(b, ')')+1:])) // behind the name, from the third field
	user, err := strconv.Atoi(f[11])
	if err != nil {
		return 0, err
	}
	system, err := strconv.Atoi(f[12])
	return time.Duration(user+system) * (time.Second / 100), err
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

// build makes the program as its Dockerfile does.
func build(folder string) (string, error) {
	out := filepath.Join(folder, "wetrun")
	cmd := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w", "-o", out, "./cmd/wetrun")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	cmd.Stderr = os.Stderr
	return out, cmd.Run()
}
