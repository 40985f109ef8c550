package api

import (
	"bufio"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"
)

// longRound is a request whose answer has 2 MB: as many catches as there may be, and working.
func longRound() string {
	catches := make([]string, mostItems("nozzle-acceptance", "catches"))
	for i := range catches {
		catches[i] = fmt.Sprintf(`{"label":"drop %d","volume":{"value":%d,"unit":"mL"},"time":{"value":60,"unit":"s"}}`, i, 1150+i%100)
	}
	return `{"showWorking":true,"uncertainty":false,"nozzle":{"size":"03"},"sprayPressure":{"value":3,"unit":"bar"},"catches":[` + strings.Join(catches, ",") + `]}`
}

// TestSlowReaderOfMuch: a client that takes its time gets every line of more than the room
// holds, and meanwhile there are turns for others.
func TestSlowReaderOfMuch(t *testing.T) {
	const perSecond = 12 << 20
	s := serverWith(t, Options{Limits: Limits{Concurrent: 2, Wait: 10 * time.Second}})
	line := `{"id":"a","operation":"nozzle-acceptance","request":` + longRound() + "}\n"
	const lines = 46
	resp, err := http.Post(s.URL+"/v1/batch", ndjson, strings.NewReader(strings.Repeat(line, lines)))
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	beside := make(chan string)
	stop := make(chan struct{})
	go func() {
		refused := ""
		for n := 1; ; n++ {
			select {
			case <-stop:
				beside <- refused
				return
			case <-time.After(50 * time.Millisecond):
			}
			single, err := http.Post(s.URL+"/v1/ground-speed", "application/json", strings.NewReader(oneRun))
			if err != nil {
				refused = err.Error()
				continue
			}
			single.Body.Close()
			if single.StatusCode != http.StatusOK {
				refused = fmt.Sprintf("request %d beside it: %s", n, single.Status)
			}
		}
	}()
	answers := bufio.NewReader(resp.Body)
	bytes, n := 0, 0
	for began := time.Now(); ; n++ {
		answer, err := answers.ReadString('\n')
		if err == io.EOF {
			break
		}
		if err != nil || !strings.HasPrefix(answer, fmt.Sprintf(`{"line":%d,"id":"a","status":200`, n+1)) {
			t.Fatalf("after %d lines, %d MB and %v: %v %.100s", n, bytes/1e6, time.Since(began), err, answer)
		}
		bytes += len(answer)
		time.Sleep(time.Until(began.Add(time.Duration(bytes) * time.Second / perSecond)))
	}
	close(stop)
	if refused := <-beside; refused != "" {
		t.Error(refused)
	}
	if n != lines || bytes < mostWaitingBytes+4<<20 {
		t.Errorf("%d of %d lines, %d bytes", n, lines, bytes)
	}
}
