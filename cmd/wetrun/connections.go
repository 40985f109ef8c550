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
	return &boundedConn{c, sync.OnceFunc(func() { <-b.open })}, nil
}

func (b *bounded) Close() error {
	b.end()
	return b.TCPListener.Close()
}

type boundedConn struct {
	*net.TCPConn
	leave func()
}

func (c *boundedConn) Close() error {
	defer c.leave()
	return c.TCPConn.Close()
}
