package main

import (
	"bufio"
	"bytes"
	"fmt"
	"net"
	"strconv"
	"strings"
	"sync"
	"time"
)

// A conn sends the same request over and over on one connection, doing as little as it
// can, so that the machine is the server's.
type conn struct {
	net.Conn
	r *bufio.Reader
}

func dial(addr string) (*conn, error) {
	c, err := net.Dial("tcp", addr)
	if err != nil {
		return nil, err
	}
	return &conn{c, bufio.NewReaderSize(c, 64<<10)}, nil
}

// post is the bytes of a request.
func post(path, body string) []byte {
	return fmt.Appendf(nil, "POST %s HTTP/1.1\r\nHost: bench\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", path, len(body), body)
}

// ask sends a request and returns the size of the answer's body.
func (c *conn) ask(request []byte) (size int, err error) {
	if _, err := c.Write(request); err != nil {
		return 0, err
	}
	for first := true; ; first = false {
		line, err := c.r.ReadSlice('\n')
		if err != nil {
			return 0, err
		}
		switch {
		case first && !bytes.HasPrefix(line, []byte("HTTP/1.1 200")):
			return 0, fmt.Errorf("%s", bytes.TrimSpace(line))
		case len(line) == 2:
			_, err := c.r.Discard(size)
			return size, err
		}
		if name, value, ok := strings.Cut(string(line), ":"); ok && strings.EqualFold(name, "Content-Length") {
			if size, err = strconv.Atoi(strings.TrimSpace(value)); err != nil {
				return 0, err
			}
		}
	}
}

// repeat sends n requests over so many connections at once.
func repeat(addr string, request []byte, n, connections int) error {
	errs := make(chan error, connections)
	var all sync.WaitGroup
	for i := range connections {
		all.Go(func() {
			c, err := dial(addr)
			if err != nil {
				errs <- err
				return
			}
			defer c.Close()
			for range n/connections + min(1, max(0, n%connections-i)) {
				if _, err := c.ask(request); err != nil {
					errs <- err
					return
				}
			}
		})
	}
	all.Wait()
	close(errs)
	return <-errs
}

// once sends one request and returns the size of its answer.
func once(addr string, request []byte) (int, error) {
	c, err := dial(addr)
	if err != nil {
		return 0, err
	}
	defer c.Close()
	return c.ask(request)
}

// paced sends requests at a rate, whether the answers come or not, and returns how long
// each took from when it was due.
func paced(addr string, request []byte, perSecond float64, span time.Duration, connections int) ([]time.Duration, error) {
	due := make(chan time.Time, 1<<16)
	times := make([][]time.Duration, connections)
	errs := make(chan error, connections)
	var all sync.WaitGroup
	for i := range connections {
		c, err := dial(addr)
		if err != nil {
			return nil, err
		}
		all.Go(func() {
			defer c.Close()
			for at := range due {
				if _, err := c.ask(request); err != nil {
					errs <- err
					return
				}
				times[i] = append(times[i], time.Since(at))
			}
		})
	}
	began, step := time.Now(), time.Duration(float64(time.Second)/perSecond)
	for n := 0; time.Duration(n)*step < span; {
		for ; time.Duration(n)*step <= time.Since(began); n++ {
			due <- began.Add(time.Duration(n) * step)
		}
		time.Sleep(100 * time.Microsecond)
	}
	close(due)
	all.Wait()
	close(errs)
	var joined []time.Duration
	for _, t := range times {
		joined = append(joined, t...)
	}
	return joined, <-errs
}
