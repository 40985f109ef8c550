package main

import (
	"net"
	"sync"
)

// bounded accepts so many connections at once; who comes later waits in the queue of
// the system. Its connections stay TCP connections to net/http, which half-closes
// them after an answer that came before the end of the request, so that the client
// reads the answer and not a reset.
type bounded struct {
	*net.TCPListener
	open  chan struct{}
	ended chan struct{}
	end   func()
}

func boundedListener(l *net.TCPListener, most int) *bounded {
	ended := make(chan struct{})
	return &bounded{l, make(chan struct{}, most), ended, sync.OnceFunc(func() { close(ended) })}
}

func (b *bounded) Accept() (net.Conn, error) {
	select {
	case b.open <- struct{}{}:
	case <-b.ended:
		return nil, net.ErrClosed
	}
	c, err := b.AcceptTCP()
	if err != nil {
		<-b.open
		return nil, err
	}
	return &boundedConn{TCPConn: c, leave: sync.OnceFunc(func() { <-b.open })}, nil
}

func (b *bounded) Close() error {
	b.end()
	return b.TCPListener.Close()
}

type boundedConn struct {
	*net.TCPConn
	leave func()

	held []byte
	due  int // bytes that come before held ones go out
}

func (c *boundedConn) Close() error {
	defer c.leave()
	return c.TCPConn.Close()
}

// Gather makes one packet of the next n bytes and what is written along with them.
// net/http has a buffer of 4 KiB, and would send the head of an answer and the begin of
// its body first, and wake the client for them. Since the head is part of what comes,
// more than n bytes follow, and none are held for long.
func (c *boundedConn) Gather(n int) { c.due = n }

func (c *boundedConn) Write(p []byte) (int, error) {
	if c.due > len(c.held)+len(p) {
		c.held = append(c.held, p...)
		return len(p), nil
	}
	c.due = 0
	if len(c.held) == 0 {
		return c.TCPConn.Write(p)
	}
	held := int64(len(c.held))
	n, err := (&net.Buffers{c.held, p}).WriteTo(c.TCPConn)
	c.held = c.held[:0]
	return int(max(0, n-held)), err
}
