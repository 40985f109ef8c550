//go:build !race

package operation

import (
	"context"
	"encoding/json"
	"testing"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/openapi/contract"
)

// TestMethodsAloneAllocateNothing: where no working is asked for, saying by which methods
// an answer was computed leaves nothing for the collector of garbage.
func TestMethodsAloneAllocateNothing(t *testing.T) {
	for name, work := range map[string]func(working.Working){
		"ground-speed":       workOfRuns(t),
		"nozzle-acceptance":  workOfCatches(t),
		"pattern-uniformity": workOfPattern(t),
		"tank-loads":         workOfLoads(t),
	} {
		shown := working.New(true)
		if work(shown); len(shown.Written()) == 0 {
			t.Errorf("%s: no lines at all", name)
		}
		w := working.New(false)
		if n := testing.AllocsPerRun(100, func() { work(w) }); n != 0 {
			t.Errorf("%s: %v allocations for the methods alone", name, n)
		}
	}
}

func requestOf[T any](t *testing.T, body string) *T {
	t.Helper()
	r := new(T)
	if no := wire.Decode([]byte(body), wire.TableOf[T](), r); no != nil {
		t.Fatal(no)
	}
	return r
}

// exampleOf is the longest of the document's examples of an operation.
func exampleOf(t *testing.T, operation string) string {
	t.Helper()
	document, err := contract.Document()
	if err != nil {
		t.Fatal(err)
	}
	var longest string
	for _, x := range document.Paths.Value("/v1/" + operation).Post.RequestBody.Value.Content["application/json"].Examples {
		b, err := json.Marshal(x.Value.Value)
		if err != nil {
			t.Fatal(err)
		}
		if len(b) > len(longest) {
			longest = string(b)
		}
	}
	return longest
}

func workOfRuns(t *testing.T) func(working.Working) {
	r := requestOf[GroundSpeedRequest](t, exampleOf(t, "ground-speed"))
	a, err := groundSpeed(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	return func(w working.Working) { r.work(w, &a) }
}

func workOfCatches(t *testing.T) func(working.Working) {
	r := requestOf[NozzleAcceptanceRequest](t, exampleOf(t, "nozzle-acceptance"))
	in := r.input()
	in.Measuring, _ = r.MeasuringRequest.input()
	x, err := calc.NozzleAcceptance(in)
	if err != nil {
		t.Fatal(err)
	}
	a := r.answer(context.Background(), x)
	return func(w working.Working) { r.work(w, &x, &a) }
}

func workOfPattern(t *testing.T) func(working.Working) {
	r := requestOf[PatternUniformityRequest](t, exampleOf(t, "pattern-uniformity"))
	x, err := calc.PatternUniformity(r.input())
	if err != nil {
		t.Fatal(err)
	}
	a := r.answer(context.Background(), x)
	return func(w working.Working) { r.work(w, &x, &a) }
}

func workOfLoads(t *testing.T) func(working.Working) {
	r := requestOf[TankLoadsRequest](t, exampleOf(t, "tank-loads"))
	x, err := calc.TankLoads(r.input())
	if err != nil {
		t.Fatal(err)
	}
	a := r.answer(context.Background(), &x)
	return func(w working.Working) { r.work(w, &x, &a) }
}
