package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// warnDoubtfulEntry is the warning for an entry that a sheet would ask about first.
const warnDoubtfulEntry = "doubtful_entry"

// doubtful are the warnings of an operation that is one part of a sheet: sheet has the
// request there, in and x what was worked out from it.
func doubtful(ctx context.Context, part string, in calc.FieldSheetInput, x calc.FieldSheetResult, sheet func() (*CalibrationsRequest, *sheetParts)) (all []Warning) {
	in.TypedIn = func(at finding.Place) unit.ID {
		r, p := sheet()
		return r.quantityAt(p, at).Unit
	}
	for _, d := range calc.Doubts(&in, &x) {
		r, p := sheet()
		var a StepAnswer
		r.ask(text.From(ctx), p, &d, &a)
		at, ok := d.Entry.After(finding.Member(part))
		if !ok {
			at = d.Entry
		}
		all = append(all, Warning{warnDoubtfulEntry, wire.Pointer(at), a.Text, a.Slip, a.WouldAgree})
	}
	return all
}
