package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"regexp"
	"strings"
	"testing"
	"time"
)

const speed = `{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]}`

// serving starts the command and returns its address, what ends it and its exit
// status.
func serving(t *testing.T, env map[string]string, args ...string) (addr string, end context.CancelFunc, code <-chan int) {
	t.Helper()
	return servingTo(t, t.Output(), func(name string) string { return env[name] }, args...)
}

// servingTo is serving with a log to read.
func servingTo(t *testing.T, log io.Writer, env func(string) string, args ...string) (addr string, end context.CancelFunc, code <-chan int) {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	reader, writer := io.Pipe()
	done := make(chan int, 1)
	go func() {
		args := append([]string{"serve", "-addr", "127.0.0.1:0"}, args...)
		done <- run(ctx, args, env, nil, writer, log)
		writer.Close()
	}()
	first, err := bufio.NewReader(reader).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	go io.Copy(io.Discard, reader)
	t.Cleanup(stop)
	m := regexp.MustCompile(`https?://(\S+)`).FindStringSubmatch(first)
	if m == nil {
		t.Fatalf("no address in %q", first)
	}
	return m[1], stop, done
}

func exits(t *testing.T, code <-chan int, want int) {
	t.Helper()
	select {
	case got := <-code:
		if got != want {
			t.Errorf("exit status %d, want %d", got, want)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it does not stop")
	}
}

// TestDrain: when the server is told to stop, /readyz fails first, while new
// requests and one under way are still answered; then it ends with success.
func TestDrain(t *testing.T) {
	addr, stop, code := serving(t, nil, "-drain-delay", "1s")
	get := func(path string) *http.Response {
		t.Helper()
		resp, err := http.Get("http://" + addr + path)
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		return resp
	}
	if resp := get("/readyz"); resp.StatusCode != http.StatusOK || resp.Close {
		t.Errorf("before: %s, closes %v", resp.Status, resp.Close)
	}
	conn, err := net.Dial("tcp", addr)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	fmt.Fprintf(conn, "POST /v1/ground-speed HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", len(speed), speed[:20])
	stop()
	time.Sleep(100 * time.Millisecond)
	if resp := get("/readyz"); resp.StatusCode != http.StatusServiceUnavailable || resp.Header.Get("Content-Type") != "application/problem+json" {
		t.Errorf("draining: %s %v", resp.Status, resp.Header)
	}
	if resp := get("/livez"); resp.StatusCode != http.StatusOK || !resp.Close {
		t.Errorf("draining: livez %s, closes %v", resp.Status, resp.Close)
	}
	resp, err := http.Post("http://"+addr+"/v1/ground-speed", "application/json", strings.NewReader(speed))
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		t.Errorf("a new request while draining: %s", resp.Status)
	}
	time.Sleep(1200 * time.Millisecond)
	if late, err := net.Dial("tcp", addr); err == nil {
		late.Close()
		t.Error("it still listens after the drain delay")
	}
	fmt.Fprint(conn, speed[20:])
	answer, err := http.ReadResponse(bufio.NewReader(conn), nil)
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Errorf("the request under way: %v %v", answer, err)
	}
	exits(t, code, 0)
}

// TestLogOfOneLife: a log in JSON begins and ends with what the server was.
func TestLogOfOneLife(t *testing.T) {
	log := new(safeBuffer)
	addr, stop, code := servingTo(t, log, noEnv, "-log-format", "json", "-rate-limit", "90")
	stop()
	exits(t, code, 0)
	lines := strings.Split(strings.TrimSpace(log.String()), "\n")
	for i, want := range []string{`"msg":"started","address":"` + addr + `","version":"development","keys":false,"tls":false,"rateLimit":90}`, `"msg":"stopped","allAnswered":true}`} {
		if len(lines) != 2 || !strings.HasSuffix(lines[i], want) {
			t.Errorf("no %s in %q", want, lines)
		}
	}
}

// TestStopTimeout: a client that never finishes its request cannot keep the server
// from ending, and that is not called a success.
func TestStopTimeout(t *testing.T) {
	addr, stop, code := serving(t, nil, "-stop-timeout", "200ms")
	conn, err := net.Dial("tcp", addr)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	fmt.Fprint(conn, "POST /v1/ground-speed HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 50\r\n\r\n{")
	time.Sleep(100 * time.Millisecond)
	stop()
	exits(t, code, 1)
}
