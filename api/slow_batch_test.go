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

// longPlan is a request whose answer has 2 MB: every gear with every nozzle, and working.
func longPlan() string {
	gears, nozzles := make([]string, mostItems("corrections", "gears")), make([]string, mostItems("corrections", "nozzles"))
	for i := range gears {
		gears[i] = fmt.Sprintf(`{"label":"gear %d","groundSpeed":{"value":%d.25,"unit":"km/h"},"engineSpeed":{"value":1800,"unit":"rpm"}}`, i, i+2)
	}
	for i := range nozzles {
		nozzles[i] = fmt.Sprintf(`{"label":"nozzle %d","ratedFlowRate":{"value":%d.35,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}}`, i, i/4)
	}
	return `{"showWorking":true,"measured":{"applicationRate":{"value":230,"unit":"L/ha"},"groundSpeed":{"value":6,"unit":"km/h"},"engineSpeed":{"value":1800,"unit":"rpm"},"sprayPressure":{"value":3,"unit":"bar"},"gear":"gear 4"},` +
		`"targetApplicationRate":{"value":200,"unit":"L/ha"},"nozzle":{"ratedFlowRate":{"value":1.2,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}},` +
		`"boomEven":true,"labelMaximum":{"value":220,"unit":"L/ha"},"limits":{"groundSpeed":{"low":{"value":1,"unit":"km/h"},"high":{"value":30,"unit":"km/h"}},"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":6,"unit":"bar"}}},` +
		`"engineSpeedLimits":{"low":{"value":1000,"unit":"rpm"},"high":{"value":2200,"unit":"rpm"}},"ratedShaft":{"engineSpeed":{"value":2000,"unit":"rpm"}},"pump":{"type":"positive_displacement","drive":"shaft","regulation":"relief_valve"},` +
		`"gears":[` + strings.Join(gears, ",") + `],"nozzles":[` + strings.Join(nozzles, ",") + `]}`
}

// TestSlowReaderOfMuch: a client that takes its time gets every line of more than the room
// holds, and meanwhile there are turns for others.
func TestSlowReaderOfMuch(t *testing.T) {
	const perSecond = 12 << 20
	s := serverWith(t, Options{Limits: Limits{Concurrent: 2, Wait: 10 * time.Second}})
	line := `{"id":"a","operation":"corrections","request":` + longPlan() + "}\n"
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
