package main

import (
	"bufio"
	"bytes"
	"cmp"
	"fmt"
	"io"
	"net"
	"net/http"
	"slices"
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

// repeat sends n requests over so many connections at once, each as soon as the one
// before it is answered.
func repeat(addr string, request []byte, n, connections int) (l lap, err error) {
	all, err := dialAll(addr, connections)
	defer all.close()
	if err != nil {
		return l, err
	}
	began := time.Now()
	l.times, err = all.each(func(i int, c *conn) (times []time.Duration, err error) {
		for range n/connections + min(1, max(0, n%connections-i)) {
			sent := time.Now()
			if _, err := c.ask(request); err != nil {
				return nil, err
			}
			times = append(times, time.Since(sent))
		}
		return times, nil
	})
	l.span = time.Since(began)
	return l, err
}

// A lap is how long each of some requests took, and all of them together.
type lap struct {
	times []time.Duration
	span  time.Duration
}

func (l *lap) perSecond() float64 { return float64(len(l.times)) / l.span.Seconds() }

// at is the time that a share of the requests kept within.
func (l *lap) at(share float64) time.Duration {
	s := slices.Sorted(slices.Values(l.times))
	return s[int(float64(len(s))*share)]
}

type crowd []*conn

func dialAll(addr string, n int) (all crowd, err error) {
	for range n {
		c, err := dial(addr)
		if err != nil {
			return all, err
		}
		all = append(all, c)
	}
	return all, nil
}

func (all crowd) close() {
	for _, c := range all {
		_ = c.Close()
	}
}

// each runs work for all connections at once and joins what they return.
func (all crowd) each(work func(i int, c *conn) ([]time.Duration, error)) (joined []time.Duration, err error) {
	times, errs := make([][]time.Duration, len(all)), make([]error, len(all))
	var done sync.WaitGroup
	for i, c := range all {
		done.Go(func() { times[i], errs[i] = work(i, c) })
	}
	done.Wait()
	return slices.Concat(times...), cmp.Or(errs...)
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

// fetch returns the answer to one request, whole.
func fetch(addr, operation, body string) ([]byte, error) {
	resp, err := http.Post("http://"+addr+"/v1/"+operation, "application/json", strings.NewReader(body))
	if err != nil {
		return nil, err
	}
	defer resp.Body.Close()
	b, err := io.ReadAll(resp.Body)
	if err == nil && resp.StatusCode != http.StatusOK {
		err = fmt.Errorf("%s: %.200s", resp.Status, b)
	}
	return b, err
}
