package main

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httputil"
	"time"
)

// runServed puts lines through POST /v1/batch of a server in production, on so many
// cores: one connection, both ways at once.
func runServed(program, line string, lines, cores int) (r batchRun, err error) {
	p, err := production(program, address(1), []string{fmt.Sprintf("GOMAXPROCS=%d", cores)})
	if err != nil {
		return r, err
	}
	defer p.stop()
	c, err := net.Dial("tcp", p.addr)
	if err != nil {
		return r, err
	}
	defer c.Close()
	before, err := p.cpu()
	if err != nil {
		return r, err
	}
	began, client := time.Now(), ownCPU()
	if _, err := io.WriteString(c, "POST /v1/batch HTTP/1.1\r\nHost: bench\r\nContent-Type: application/x-ndjson\r\nTransfer-Encoding: chunked\r\n\r\n"); err != nil {
		return r, err
	}
	answer, err := http.ReadResponse(bufio.NewReaderSize(c, 64<<10), nil)
	if err != nil {
		return r, err
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		return r, fmt.Errorf("%s", answer.Status)
	}
	if r.most, err = converse(chunked(c), answer.Body, line, lines, p.cmd.Process.Pid); err != nil {
		return r, err
	}
	took, used := time.Since(began), ownCPU()-client
	after, err := p.cpu()
	if err != nil {
		return r, err
	}
	r.most = max(r.most, memory(p.cmd.Process.Pid, "VmHWM"))
	r.settle(lines, took, after-before, used)
	return r, nil
}

// A chunker writes the body of a request in chunks, with few system calls.
type chunker struct {
	io.WriteCloser
	wire *bufio.Writer
}

func chunked(w io.Writer) *chunker {
	wire := bufio.NewWriterSize(w, 64<<10)
	return &chunker{httputil.NewChunkedWriter(wire), wire}
}

func (c *chunker) Close() error {
	if err := c.WriteCloser.Close(); err != nil {
		return err
	}
	if _, err := c.wire.WriteString("\r\n"); err != nil { // no trailers
		return err
	}
	return c.wire.Flush()
}
