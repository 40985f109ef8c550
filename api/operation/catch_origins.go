package operation

import (
	"errors"

	"wetrun/api/wire"
	"wetrun/calc/finding"
)

// catchOrigins tell where the catches that are judged stand in the request, and what to
// call them. The zero value is for a request whose own catches they are, one by one.
type catchOrigins struct {
	inSheet bool
	sources []catchOrigin // nil when nothing was caught again
}

// A catchOrigin is what a catch of a sheet was read from.
type catchOrigin struct {
	catch    int // of output.catches: itself, or the one that was caught again
	followUp int // of output.followUps, which stands in for it; -1 for none
}

var (
	output        = finding.Member("output")
	outputCatches = output.Member("catches")
)

func outputCatch(i int) finding.Place { return finding.Item("catches", i).Under(output) }

// catchesPointer and outputCatchesPointer point to all catches, which many an answer does.
var catchesPointer, outputCatchesPointer = wire.Pointer(finding.Member("catches")), wire.Pointer(outputCatches)

// pointer points to the catch i, or to all of them when it is -1.
func (o *catchOrigins) pointer(i int) string {
	switch {
	case i >= 0:
		return wire.Pointer(o.place(i))
	case o.inSheet:
		return outputCatchesPointer
	}
	return catchesPointer
}

// place is where the catch i stands.
func (o *catchOrigins) place(i int) finding.Place {
	switch {
	case !o.inSheet:
		return finding.Item("catches", i)
	case o.sources != nil && o.sources[i].followUp >= 0:
		return finding.Item("followUps", o.sources[i].followUp).Under(output)
	}
	return outputCatch(o.row(i))
}

// row is which catch of the request the catch i is or stands in for.
func (o *catchOrigins) row(i int) int {
	if o.sources == nil {
		return i
	}
	return o.sources[i].catch
}

// name is the label of the catch i, or else its number.
//
// The number is that of its row among the catches that the crew filled in, from one:
// follow-ups made later move no row, so it stays the number in their notebook, on the
// record and in the pointer, whatever was caught again. A follow-up that has no label is
// called as its drop is; see nameOfFollowUp.
func (o *catchOrigins) name(label string, i int) string { return nameOrNumber(label, o.row(i)) }

// moved puts a place among the catches where the sheet has it. What a drop
// carries is said of the catch that says so, which follow-ups leave alone, and so is what is
// wrong with that catch itself.
func (o *catchOrigins) moved(p finding.Place) finding.Place {
	i, member, ok := p.ItemOf(outputCatches)
	switch {
	case !ok || o.sources == nil:
		return p
	case member.Part() == "nozzlesOnDrop":
		return member.Under(outputCatch(o.row(i)))
	}
	if ofFirst, ok := member.After(finding.Member("first")); ok {
		return ofFirst.Under(outputCatch(o.row(i)))
	}
	return member.Under(o.place(i))
}

// judged is the reverse of moved: a place in the request, said of the catches that are
// judged. One in a catch that was caught again is left where it is.
func (o *catchOrigins) judged(p finding.Place) finding.Place {
	for i, x := range o.sources {
		at := outputCatch(x.catch)
		if x.followUp >= 0 {
			at = finding.Item("followUps", x.followUp).Under(output)
		}
		if member, ok := p.After(at); ok {
			return member.Under(outputCatch(i))
		}
	}
	return p
}

// moveWarnings puts what is unusual of the catches where the sheet has it.
func (o *catchOrigins) moveWarnings(all []finding.Warning) {
	for i := range all {
		all[i].Place = o.moved(all[i].Place)
	}
}

// moveViolations does so with what is wrong with them.
func (o *catchOrigins) moveViolations(err error) error {
	var wrong finding.Invalid
	if !errors.As(err, &wrong) {
		return err
	}
	for i := range wrong {
		wrong[i].Place = o.moved(wrong[i].Place)
	}
	return wrong
}
