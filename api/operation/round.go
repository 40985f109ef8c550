package operation

import (
	"errors"

	"wetrun/api/wire"
	"wetrun/calc/finding"
)

// A round tells where the catches that are judged stand in the request, and what to call
// them. The zero round is that of a request whose own catches they are, one by one.
type round struct {
	inSheet bool
	sources []catchSource // nil when nothing was caught again
}

// A catchSource is what a catch of a sheet's round was read from.
type catchSource struct {
	catch    int // of output.catches: itself, or the one that was caught again
	followUp int // of output.followUps, which stands in for it; -1 for none
}

var (
	output        = finding.Member("output")
	outputCatches = output.Member("catches")
)

func outputCatch(i int) finding.Place { return finding.Item("catches", i).Under(output) }

// Pointers to all catches, which many an answer has.
var catchesPointer, outputCatchesPointer = wire.Pointer(finding.Member("catches")), wire.Pointer(outputCatches)

// pointer points to the catch i of the round, or to all of them when it is -1.
func (r *round) pointer(i int) string {
	switch {
	case i >= 0:
		return wire.Pointer(r.place(i))
	case r.inSheet:
		return outputCatchesPointer
	}
	return catchesPointer
}

// place is where the catch i of the round stands.
func (r *round) place(i int) finding.Place {
	switch {
	case !r.inSheet:
		return finding.Item("catches", i)
	case r.sources != nil && r.sources[i].followUp >= 0:
		return finding.Item("followUps", r.sources[i].followUp).Under(output)
	}
	return outputCatch(r.row(i))
}

// row is which catch of the request the catch i is or stands in for.
func (r *round) row(i int) int {
	if r.sources == nil {
		return i
	}
	return r.sources[i].catch
}

// name is the label of the catch i of the round, or else its number.
//
// The number is that of its row among the catches that the crew filled in, from one:
// follow-ups made later move no row, so it stays the number in their notebook, on the
// record and in the pointer, whatever was caught again. A follow-up that has no label is
// called as its drop is; see nameOfFollowUp.
func (r *round) name(label string, i int) string { return nameOrNumber(label, r.row(i)) }

// moved puts a place among the catches of the round where the sheet has it. What a drop
// carries is said of the catch that says so, which follow-ups leave alone.
func (r *round) moved(p finding.Place) finding.Place {
	i, member, ok := p.ItemOf(outputCatches)
	switch {
	case !ok || r.sources == nil:
		return p
	case member.Part() == "nozzlesOnDrop":
		return member.Under(outputCatch(r.row(i)))
	}
	return member.Under(r.place(i))
}

// moveWarnings moves what is unusual of the catches of the round.
func (r *round) moveWarnings(all []finding.Warning) {
	for i := range all {
		all[i].Place = r.moved(all[i].Place)
	}
}

// moveViolations moves what is wrong with them.
func (r *round) moveViolations(err error) error {
	var wrong finding.Invalid
	if !errors.As(err, &wrong) {
		return err
	}
	for i := range wrong {
		wrong[i].Place = r.moved(wrong[i].Place)
	}
	return wrong
}
