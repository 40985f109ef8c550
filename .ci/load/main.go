// Command load posts a field sheet over and over and counts every answer that is
// not a right one. A connection that breaks is a failure too.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"slices"
	"sync"
	"time"
)

func main() {
	url := flag.String("url", "", "what to post to")
	sheet := flag.String("sheet", "", "file with the body")
	want := flag.String("want", "", "text that each answer must hold")
	span := flag.Duration("for", time.Minute, "how long")
	workers := flag.Int("workers", 8, "how many clients at once")
	pause := flag.Duration("pause", 5*time.Millisecond, "pause of each client between requests")
	var ask asking
	flag.StringVar(&ask.mediaType, "type", "application/json", "media type of the body")
	flag.StringVar(&ask.accept, "accept", "", "media type to ask for")
	flag.IntVar(&ask.status, "status", http.StatusOK, "status that each answer must have")
	flag.BoolVar(&ask.anew, "anew", false, "a new connection for each request")
	flag.Parse()
	ask.url, ask.want = *url, []byte(*want)
	body, err := os.ReadFile(*sheet)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	// The transport may not send a request twice by itself, so each has a body that
	// cannot be read again.
	clients := &http.Client{Timeout: 10 * time.Second, Transport: &http.Transport{MaxIdleConnsPerHost: *workers}}
	var (
		mutex  sync.Mutex
		times  []time.Duration
		faults = map[string]int{}
		all    sync.WaitGroup
	)
	until := time.Now().Add(*span)
	for range *workers {
		all.Go(func() {
			for time.Now().Before(until) {
				began := time.Now()
				fault := ask.post(clients, body)
				took := time.Since(began)
				mutex.Lock()
				times = append(times, took)
				if fault != "" {
					faults[fault]++
				}
				mutex.Unlock()
				time.Sleep(*pause)
			}
		})
	}
	all.Wait()
	slices.Sort(times)
	failed := 0
	for fault, n := range faults {
		fmt.Printf("%d times: %s\n", n, fault)
		failed += n
	}
	fmt.Printf("%d requests, %d failed", len(times), failed)
	if len(times) > 0 {
		fmt.Printf(", median %v, p99 %v, longest %v", times[len(times)/2], times[len(times)*99/100], times[len(times)-1])
	}
	fmt.Println()
	if failed > 0 || len(times) < 100 {
		os.Exit(1)
	}
}

// asking is what is asked for, and what must come.
type asking struct {
	url, mediaType, accept string
	want                   []byte
	status                 int
	anew                   bool
}

// post returns what went wrong, or nothing.
func (a *asking) post(c *http.Client, body []byte) string {
	req, err := http.NewRequest(http.MethodPost, a.url, io.NopCloser(bytes.NewReader(body)))
	if err != nil {
		return err.Error()
	}
	req.ContentLength = int64(len(body))
	req.Close = a.anew
	req.Header.Set("Content-Type", a.mediaType)
	if a.accept != "" {
		req.Header.Set("Accept", a.accept)
	}
	resp, err := c.Do(req)
	if err != nil {
		return err.Error()
	}
	defer resp.Body.Close()
	answer, err := io.ReadAll(resp.Body)
	switch {
	case err != nil:
		return err.Error()
	case resp.StatusCode != a.status:
		return resp.Status
	case !bytes.Contains(answer, a.want):
		return "an answer without " + string(a.want)
	}
	return ""
}
