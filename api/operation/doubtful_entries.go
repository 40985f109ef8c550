package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/internal/text"
)

// warnDoubtfulEntry is the warning for an entry that a sheet would ask about first.
const warnDoubtfulEntry = "doubtful_entry"

// doubtful are the warnings of an operation that is one part of a sheet: request makes the
// sheet that has it, in and x are what was worked out from it.
func doubtful(ctx context.Context, part string, in calc.FieldSheetInput, x calc.FieldSheetResult, request func() *CalibrationsRequest) (all []Warning) {
	if len(calc.Doubts(&in, &x)) == 0 {
		return nil
	}
	sheet, lang := request(), text.From(ctx)
	in.Typed = sheet
	for _, d := range calc.Doubts(&in, &x) {
		p, _ := sheet.parts(lang)
		var a StepAnswer
		sheet.ask(lang, &p, &d, &a)
		at, ok := d.Entry.After(finding.Member(part))
		if !ok {
			at = d.Entry
		}
		all = append(all, Warning{warnDoubtfulEntry, wire.Pointer(at), a.Text, a.Slip, a.WouldAgree})
	}
	return all
}
