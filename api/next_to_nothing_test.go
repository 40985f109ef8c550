package api

import (
	"net/http"
	"regexp"
	"strings"
	"testing"

	"wetrun/api/operation"
)

// noNumber finds what a number that is none looks like in text.
var noNumber = regexp.MustCompile(`NaN|\bInf\b|∞`)

// TestNextToNothing: cups of next to nothing are empty ones, in each form of the answer; the
// share that a jug is off by of so little has no square.
func TestNextToNothing(t *testing.T) {
	forms := func(sheet string) (json, page, lines string) {
		answer, ok, err := operation.Summarize(t.Context(), strings.NewReader(sheet))
		if err != nil || !ok {
			t.Fatalf("%v %s", err, answer)
		}
		w := call(t, http.MethodPost, "/v1/calibrations", sheet, "Accept", "text/html")
		if w.Code != http.StatusOK {
			t.Fatalf("the record: %d", w.Code)
		}
		return call(t, http.MethodPost, "/v1/calibrations", sheet).Body.String(), w.Body.String(), string(answer)
	}
	ready := demo(t, "ready")
	volume := regexp.MustCompile(`("volume": \{\s*"value": )[\d.]+`)
	for _, catches := range []int{1, 12} {
		cups := func(amount string) string {
			left := catches
			return volume.ReplaceAllStringFunc(ready, func(cup string) string {
				if left--; left < 0 {
					return cup
				}
				return volume.ReplaceAllString(cup, "${1}"+amount)
			})
		}
		empty, _, emptyLines := forms(cups("0"))
		for _, amount := range []string{"1e-300", "1e-150", "1e-100", "9e-10"} {
			answer, page, lines := forms(cups(amount))
			if answer != empty || lines != emptyLines {
				t.Errorf("%d of %s: not as empty: %.300s", catches, amount, answer)
			}
			if found := noNumber.FindString(page + lines); found != "" {
				t.Errorf("%d of %s: the record or the summary says %s", catches, amount, found)
			}
		}
		for _, amount := range []string{"1e-9", "1e-6", "0.001"} {
			answer, page, lines := forms(cups(amount))
			if found := noNumber.FindString(answer + page + lines); found != "" {
				t.Errorf("%d of %s: %s", catches, amount, found)
			}
		}
	}
}
