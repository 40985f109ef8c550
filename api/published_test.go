package api

import (
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/calc/unit"
)

// publishedCase is one worked example of testdata/published, with its source.
type publishedCase struct {
	ID         string
	Kind       string // see the kinds in register_test.go
	Title      string
	Publisher  string
	Year       int
	URL        string
	Provenance string
	Request    json.RawMessage
	Expect     []expectation
}

// An expectation is a printed value: the member that must show it, the number as
// it is printed (as text, so that its digits count), and its unit. Allow is how
// many units of the last printed digit the answer may be off, where the source
// rounded on the way; half a unit when left out. Text expects a word instead.
type expectation struct {
	Member  string
	Printed string
	Unit    string
	Allow   float64
	Text    string
}

// TestPublishedExamples posts every worked example and finds the printed value in
// the answer, to the last digit that its source prints.
func TestPublishedExamples(t *testing.T) {
	seen := map[string]string{}
	for _, o := range operation.All {
		files, err := filepath.Glob("../testdata/published/" + o.Name + "/*.json")
		if err != nil || len(files) == 0 {
			t.Errorf("testdata/published/%s has no example: write one for each printed value, with its source", o.Name)
		}
		for _, file := range files {
			var c publishedCase
			readJSON(t, file, &c)
			if other := seen[c.ID]; other != "" {
				t.Errorf("%s: the id %s is taken by %s", file, c.ID, other)
			}
			seen[c.ID] = file
			if err := c.checkSource(); err != nil {
				t.Errorf("%s: %v", file, err)
			}
			t.Run(o.Name+"/"+c.ID, func(t *testing.T) { checkPublished(t, o.Name, c) })
		}
	}
}

func checkPublished(t *testing.T, operation string, c publishedCase) {
	w := post(t, operation, string(c.Request))
	if w.Code != http.StatusOK {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	var answer any
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil {
		t.Fatal(err)
	}
	for _, e := range c.Expect {
		got, err := follow(answer, e.Member)
		switch {
		case err != nil:
			t.Error(err)
		case e.Printed == "":
			if fmt.Sprint(got) != e.Text {
				t.Errorf("%s is %v, the source says %s", e.Member, got, e.Text)
			}
		default:
			checkPrinted(t, e, got)
		}
	}
}

func checkPrinted(t *testing.T, e expectation, got any) {
	t.Helper()
	printed, err := strconv.ParseFloat(e.Printed, 64)
	if err != nil {
		t.Fatal(err)
	}
	x, isNumber := got.(float64)
	if m, ok := got.(map[string]any); ok {
		var value float64
		value, isNumber = si(m)
		x = value / unit.Lookup(e.Unit).Factor()
		if a, b := unit.Lookup(m["unit"].(string)).Kind(), unit.Lookup(e.Unit).Kind(); a != b {
			t.Errorf("%s is a %s, the source's unit is one of %s", e.Member, a, b)
		}
	}
	_, decimals, _ := strings.Cut(e.Printed, ".")
	allow := e.Allow
	if allow == 0 {
		allow = 0.5
	}
	// 5e-6 relative: the answer itself has six digits.
	if off := math.Abs(x - printed); !isNumber || off > allow*math.Pow(10, -float64(len(decimals)))+5e-6*math.Abs(printed) {
		t.Errorf("%s is %v (%v %s), the source prints %s", e.Member, got, x, e.Unit, e.Printed)
	}
}

// follow follows a JSON pointer.
func follow(v any, pointer string) (any, error) {
	for step := range strings.SplitSeq(strings.TrimPrefix(pointer, "/"), "/") {
		switch x := v.(type) {
		case map[string]any:
			v = x[step]
		case []any:
			i, err := strconv.Atoi(step)
			if err != nil || i >= len(x) {
				return nil, fmt.Errorf("%s: no item %s", pointer, step)
			}
			v = x[i]
		}
		if v == nil {
			return nil, fmt.Errorf("%s: no member %s", pointer, step)
		}
	}
	return v, nil
}
