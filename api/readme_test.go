package api

import (
	"net/http"
	"os"
	"regexp"
	"strings"
	"testing"
)

// TestReadmeExample runs the curl of the README and compares the answer it quotes.
func TestReadmeExample(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile("(?s)/v1/(ground-speed) .*?-d '(.*?)'\n```\n\n```json\n(.*?)\n```").FindStringSubmatch(string(text))
	if m == nil {
		t.Fatal("the README has no curl with its answer")
	}
	w := post(t, m[1], m[2])
	same(t, http.StatusOK, w.Code, m[3], w.Body.String())
	for _, o := range operations {
		if !strings.Contains(string(text), "/v1/"+o.name+"`") {
			t.Errorf("the README does not list %s", o.name)
		}
	}
}

// TestReadmeWorking finds the line of working that the README quotes.
func TestReadmeWorking(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`(?m)^\{"method".*\}$`).FindString(string(text))
	w := post(t, "application-rate", `{"nozzleFlowRate":{"value":0.4,"unit":"gal_us/min"},"groundSpeed":{"value":5,"unit":"mph"},
		"sprayedWidthPerNozzle":{"value":20,"unit":"in"},"showWorking":true}`)
	if m == "" || !strings.Contains(w.Body.String(), m) {
		t.Errorf("the README quotes\n%s\nthe service says\n%s", m, w.Body)
	}
}

// TestReadmeBatch posts the file of the README's batch, as it is: each of its lines has
// an answer. curl would send the file of -d without its line ends.
func TestReadmeBatch(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`/v1/batch -H 'Content-Type: application/x-ndjson' --data-binary @(\S+)`).FindSubmatch(text)
	if m == nil {
		t.Fatal("the README has no curl of a batch")
	}
	lines, err := os.ReadFile("../" + string(m[1]))
	if err != nil {
		t.Fatal(err)
	}
	_, replies := batch(t, string(lines))
	if len(replies) != 3 {
		t.Errorf("%d replies", len(replies))
	}
	for _, r := range replies {
		if r.Status != http.StatusOK || !strings.Contains(r.ID, "(invented)") {
			t.Errorf("line %d, %s: %+v", r.Line, r.ID, r.Problem)
		}
	}
	if strings.Contains(string(text), "\n `") {
		t.Error("a line of the README begins with a stray space")
	}
}
