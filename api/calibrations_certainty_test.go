package api

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"wetrun/api/operation"
)

type plainQuantity struct{ Value float64 }

type plainUncertainty map[string]struct{ Expanded plainQuantity }

// A certainAnswer is what the tests below read of an answer.
type certainAnswer struct {
	Output struct {
		Result struct {
			Catches  []struct{ Label, Conformance, ConformanceDetail string }
			Sampling struct{ Detail string }
		}
	}
	Speed struct {
		Result struct {
			GroundSpeed plainQuantity
			Uncertainty plainUncertainty
		}
	}
	Rate struct {
		Result struct {
			ApplicationRate plainQuantity
			Uncertainty     plainUncertainty
		}
	}
}

// TestCertaintyOnPaper: the record and the summary say how well the numbers are known,
// in the figures and words of the JSON answer.
func TestCertaintyOnPaper(t *testing.T) {
	for name, sheet := range map[string]string{
		"in order": demo(t, "ready"),
		// Close to 42.33 US fl oz, the low end of the range: 90 % of the maker's flow,
		// 0.2 US gal/min at 40 psi, of three nozzles at 60 psi in 30 s.
		"too close":    strings.Replace(demo(t, "ready"), "46.2", "42.4", 1),
		"out of order": demo(t, "boom-to-repair"),
	} {
		t.Run(name, func(t *testing.T) {
			var a certainAnswer
			w := call(t, "POST", "/v1/calibrations", sheet)
			if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
				t.Fatal(err)
			}
			output, rate := a.Output.Result, a.Rate.Result
			want := []string{
				fmt.Sprintf("%.0f US gal/acre ± %.2g (95%%)", rate.ApplicationRate.Value, rate.Uncertainty["applicationRate"].Expanded.Value),
				fmt.Sprintf("%.3g mph ± %.2g (95%%)", a.Speed.Result.GroundSpeed.Value, a.Speed.Result.Uncertainty["groundSpeed"].Expanded.Value),
			}
			if name != "out of order" { // where nothing is said of catches that are not judged
				want = append(want, output.Sampling.Detail)
			}
			close := 0
			for _, c := range output.Catches {
				if c.Conformance == "too_close" {
					close++
					want = append(want, c.Label+": "+c.ConformanceDetail)
				}
			}
			if name == "too close" && close != 1 {
				t.Fatalf("%d too close", close)
			}
			page := call(t, "POST", "/v1/calibrations", sheet, "Accept", "text/html").Body.String()
			summary, ok, err := operation.Summarize(context.Background(), strings.NewReader(sheet))
			if err != nil || !ok {
				t.Fatal(ok, err)
			}
			for _, words := range want {
				if !strings.Contains(page, strings.ReplaceAll(words, "'", "&#39;")) {
					t.Errorf("the record does not say %q", words)
				}
				if !strings.Contains(string(summary), words) {
					t.Errorf("the summary does not say %q", words)
				}
			}
			if got := strings.Count(page, ", too close to call</td>"); got != close {
				t.Errorf("%d of %d catches are marked as too close", got, close)
			}
		})
	}
}

// TestCertaintyLeftOut: without uncertainty no number has one, and none is promised.
func TestCertaintyLeftOut(t *testing.T) {
	sheet := strings.Replace(demo(t, "ready"), "{", `{"uncertainty":false,`, 1)
	page := call(t, "POST", "/v1/calibrations", sheet, "Accept", "text/html").Body.String()
	if !strings.Contains(page, "111 US gal/acre on the treated area") || strings.Contains(page, "±") {
		t.Error("the record speaks of uncertainty")
	}
}

// TestOutlierWithAnAction: a catch of 600 mL among eleven of 500 stands apart and is worn,
// by a fifth. It is replaced and then caught again, so nobody is told to catch it first.
func TestOutlierWithAnAction(t *testing.T) {
	scattered := []float64{500, 501, 499, 500, 500.5, 499.5, 501, 499, 500, 500.5, 499.5}
	const again = "Far from the other catches"
	for last, want := range map[float64]bool{530: true, 600: false} {
		sheet := decided(append(scattered[:11:11], last), rateTarget("200", "250"), "")
		summary, _, err := operation.Summarize(context.Background(), strings.NewReader(sheet))
		if err != nil {
			t.Fatal(err)
		}
		page := call(t, "POST", "/v1/calibrations", sheet, "Accept", "text/html").Body.String()
		if strings.Contains(page, "n12: "+again) != want || strings.Contains(string(summary), "n12: "+again) != want {
			t.Errorf("%v mL: told to catch it again: want %v\n%s", last, want, summary)
		}
	}
}
