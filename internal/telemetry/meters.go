package telemetry

import (
	"context"
	"maps"
	"sync"
	"sync/atomic"
	"time"

	"go.opentelemetry.io/otel/attribute"
	"go.opentelemetry.io/otel/metric"
)

// meters are the instruments. Their attributes are words of this program, never of
// a client, so there are only so many sets of them; each is made once.
type meters struct {
	requests   metric.Float64Histogram
	operations metric.Int64Counter
	verdicts   metric.Int64Counter
	rejected   metric.Int64Counter

	requestSets   sets[requestKey]
	operationSets sets[operationKey]
	verdictSets   sets[operationKey]
	rejectedSets  sets[string]
}

type requestKey struct {
	method, route string
	status        int
}

type operationKey struct{ operation, word string }

// The bounds of the histogram of durations, in seconds. A calculation takes about
// a tenth of a millisecond, so they begin far below the usual ones.
var durations = []float64{.0001, .00025, .0005, .001, .0025, .005, .01, .025, .05, .1, .25, .5, 1, 2.5, 5, 10}

func newMeters(m metric.Meter) (*meters, error) {
	requests, err := m.Float64Histogram("http.server.request.duration", metric.WithUnit("s"),
		metric.WithDescription("Duration of HTTP requests."), metric.WithExplicitBucketBoundaries(durations...))
	if err != nil {
		return nil, err
	}
	operations, err := m.Int64Counter("wetrun.operations", metric.WithUnit("{operation}"),
		metric.WithDescription("Calculations asked for, by outcome: answered, refused or failed."))
	if err != nil {
		return nil, err
	}
	verdicts, err := m.Int64Counter("wetrun.verdicts", metric.WithUnit("{verdict}"),
		metric.WithDescription("Verdicts and decisions of the answers."))
	if err != nil {
		return nil, err
	}
	rejected, err := m.Int64Counter("wetrun.rejected_members", metric.WithUnit("{member}"),
		metric.WithDescription("Members of requests that could not be used, by code."))
	if err != nil {
		return nil, err
	}
	return &meters{requests: requests, operations: operations, verdicts: verdicts, rejected: rejected}, nil
}

func (m *meters) request(ctx context.Context, key requestKey, took time.Duration) {
	s := m.requestSets.get(key, func(k requestKey) attribute.Set {
		return attribute.NewSet(
			attribute.String("http.request.method", k.method),
			attribute.String("http.route", k.route),
			attribute.Int("http.response.status_code", k.status),
		)
	})
	m.requests.Record(ctx, took.Seconds(), s.record...)
}

// An Outcome is how a calculation ended.
type Outcome string

// The outcomes.
const (
	Answered Outcome = "answered"
	Refused  Outcome = "refused"
	Failed   Outcome = "failed"
)

// Operation counts one calculation.
func (t *Telemetry) Operation(ctx context.Context, operation string, outcome Outcome) {
	if t == nil {
		return
	}
	s := t.meters.operationSets.get(operationKey{operation, string(outcome)}, func(k operationKey) attribute.Set {
		return attribute.NewSet(attribute.String("operation", k.operation), attribute.String("outcome", k.word))
	})
	t.meters.operations.Add(ctx, 1, s.add...)
}

// Verdict counts what an answer decided, in one of the words of the contract.
func (t *Telemetry) Verdict(ctx context.Context, operation, verdict string) {
	if t == nil || verdict == "" {
		return
	}
	s := t.meters.verdictSets.get(operationKey{operation, verdict}, func(k operationKey) attribute.Set {
		return attribute.NewSet(attribute.String("operation", k.operation), attribute.String("verdict", k.word))
	})
	t.meters.verdicts.Add(ctx, 1, s.add...)
}

// Rejected counts one member of a request that could not be used.
func (t *Telemetry) Rejected(ctx context.Context, code string) {
	if t == nil {
		return
	}
	s := t.meters.rejectedSets.get(code, func(code string) attribute.Set {
		return attribute.NewSet(attribute.String("code", code))
	})
	t.meters.rejected.Add(ctx, 1, s.add...)
}

// sets holds the attributes made so far. Readers take no lock; a new set is rare.
type sets[K comparable] struct {
	made  atomic.Pointer[map[K]options]
	mutex sync.Mutex
}

// options is one set of attributes, ready for both kinds of instrument.
type options struct {
	record []metric.RecordOption
	add    []metric.AddOption
}

func (s *sets[K]) get(key K, set func(K) attribute.Set) options {
	if made := s.made.Load(); made != nil {
		if o, ok := (*made)[key]; ok {
			return o
		}
	}
	s.mutex.Lock()
	defer s.mutex.Unlock()
	with := metric.WithAttributeSet(set(key))
	o, grown := options{[]metric.RecordOption{with}, []metric.AddOption{with}}, map[K]options{key: {}}
	if made := s.made.Load(); made != nil {
		maps.Copy(grown, *made)
	}
	grown[key] = o
	s.made.Store(&grown)
	return o
}
