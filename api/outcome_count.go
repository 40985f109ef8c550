package api

import (
	"context"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/telemetry"
)

// countOutcome tells telemetry how a request ended, and what was decided.
func countOutcome(ctx context.Context, t *telemetry.Telemetry, o operation.Outcome) {
	switch {
	case o.Refusal == nil:
		t.Operation(ctx, o.Operation, telemetry.Answered)
		t.Verdict(ctx, o.Operation, o.Verdict)
	case o.Refusal.Kind == wire.InternalError:
		t.Operation(ctx, o.Operation, telemetry.Failed)
	default:
		t.Operation(ctx, o.Operation, telemetry.Refused)
		for _, e := range o.Refusal.Fields {
			t.Rejected(ctx, e.Code)
		}
	}
}
