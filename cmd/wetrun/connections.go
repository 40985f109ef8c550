package main

import (
	"net"
	"sync"
)

// A boundedListener accepts so many connections at once; who comes later waits in the queue
// of the system. Its connections stay TCP connections to net/http, which half-closes them
// after an answer that came before the end of the request, so that the client reads the
// answer and not a reset.
type boundedListener struct {
	*net.TCPListener
	open  chan struct{}
	ended chan struct{}
	end   func()
}

func boundListener(l *net.TCPListener, most int) *boundedListener {
	ended := make(chan struct{})
	return &boundedListener{l, make(chan struct{}, most), ended, sync.OnceFunc(func() { close(ended) })}
}

func (b *boundedListener) Accept() (net.Conn, error) {
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

func (b *boundedListener) Close() error {
	b.end()
	return b.TCPListener.Close()
}

type boundedConn struct {
	*net.TCPConn
	leave func()

	gathered []byte
	ahead    int // bytes that come before gathered ones go out
}

func (c *boundedConn) Close() error {
	defer c.leave()
	return c.TCPConn.Close()
}

// Gather makes one packet of the next n bytes and what is written along with them.
// net/http has a buffer of 4 KiB, and would send the head of an answer and the begin of
// its body first, and wake the client for them. Since the head is part of what comes,
// more than n bytes follow, and none are kept for long.
func (c *boundedConn) Gather(n int) { c.ahead = n }

func (c *boundedConn) Write(p []byte) (int, error) {
	if c.ahead > len(c.gathered)+len(p) {
		c.gathered = append(c.gathered, p...)
		return len(p), nil
	}
	c.ahead = 0
	if len(c.gathered) == 0 {
		return c.TCPConn.Write(p)
	}
	gathered := int64(len(c.gathered))
	n, err := (&net.Buffers{c.gathered, p}).WriteTo(c.TCPConn)
	c.gathered = c.gathered[:0]
	return int(max(0, n-gathered)), err
}
