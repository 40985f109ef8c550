package wire

import (
	"strconv"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// The bounds of every value on the wire, in whatever unit the client uses. They
// are far outside of anything measured on a field; between them no calculation
// can leave the range of a double. Where an empty cup or a new nozzle is meant,
// 0 is the lower one, and what lies between the two is 0.
const (
	SmallestValue = 1e-9
	LargestValue  = 1e9
)

// A KindSet is a set of quantities, one bit each.
type KindSet uint32

// has tells whether a unit measures one of the set.
func (s KindSet) has(id unit.ID) bool { return id != unit.None && s&(1<<id.Kind()) != 0 }

// symbols lists the symbols of the units that measure one of the set.
func (s KindSet) symbols() (all []string) {
	for _, u := range unit.All() {
		if s&(1<<u.Quantity) != 0 {
			all = append(all, u.Symbol)
		}
	}
	return all
}

// quantityReader reads {value, unit} of one of the given quantities. least is the lowest
// value that it takes: SmallestValue, or 0 where that is a reading too.
func quantityReader(kinds KindSet, least float64) reader {
	return func(d *decoder, p unsafe.Pointer) { d.quantity((*Quantity)(p), kinds, least) }
}

// unitReader reads the symbol of a unit of one of the given quantities.
func unitReader(kinds KindSet) reader {
	return func(d *decoder, p unsafe.Pointer) { *(*unit.ID)(p) = d.unit(kinds) }
}

var quantityMembers = []string{"value", "unit"}

// quantity reads {"value": number, "unit": symbol}.
func (d *decoder) quantity(q *Quantity, kinds KindSet, least float64) {
	if d.kind() != jsontext.KindBeginObject { // asked first, since listing the units costs
		d.expect(jsontext.KindBeginObject, "quantity", Enumeration(kinds.symbols()))
		return
	}
	if value, symbol, ok := d.source.quantity(); ok {
		if d.readable() {
			d.measured(q, value, d.unitNamed(symbol, kinds), least)
		}
		return
	}
	d.begin()
	var has [2]bool
	var value float64
	var isNumber bool
	var id unit.ID
	next := 0
	for {
		i, name, ok := d.member(quantityMembers, next)
		if !ok {
			break
		}
		if i < 0 {
			d.unknown(string(name), quantityMembers)
			continue
		}
		switch {
		case has[i]:
			d.report(FieldError{Code: "duplicate_member"})
			d.skip()
		case i == 0:
			value, isNumber = d.expectNumber()
		default:
			id = d.unit(kinds)
		}
		has[i], next = true, i+1
	}
	if !d.readable() {
		return
	}
	if !has[0] {
		d.report(FieldError{Code: finding.CodeRequired}, "value")
	}
	if !has[1] {
		symbols := kinds.symbols()
		d.report(FieldError{Code: "unit_required", Allowed: symbols, Args: []any{Enumeration(symbols)}}, "unit")
	}
	if isNumber {
		d.measured(q, value, id, least)
	}
}

// measured keeps a quantity that is in bounds.
func (d *decoder) measured(q *Quantity, value float64, id unit.ID, least float64) {
	if value < least || value > LargestValue {
		d.report(outOfBounds(value, least, id.Symbol()), "value")
	} else if id != unit.None {
		if value < SmallestValue { // squares of its share of anything would leave the range
			value = 0
		}
		*q = Quantity{value, id}
	}
}

// outOfBounds is the error about a value below least or above LargestValue.
func outOfBounds(value, least float64, symbol string) FieldError {
	switch {
	case value > LargestValue:
		return beyond("too_large", LargestValue, Figure(LargestValue, symbol))
	case value <= 0 && least > 0:
		return beyond("not_positive", least, Figure(least, symbol))
	}
	return beyond("too_small", least, Figure(least, symbol))
}

// beyond is the error about something beyond a limit, which its words name.
func beyond(code string, limit float64, worded any) FieldError {
	return FieldError{Code: code, Limit: &limit, Args: []any{worded}}
}

// unit reads a symbol that measures one of kinds.
func (d *decoder) unit(kinds KindSet) unit.ID {
	symbol, ok := d.expectString()
	if !ok {
		return unit.None
	}
	return d.unitNamed(symbol, kinds)
}

func (d *decoder) unitNamed(symbol []byte, kinds KindSet) unit.ID {
	id := unit.Lookup(string(symbol))
	if kinds.has(id) {
		return id
	}
	if d.listing() {
		d.report(unitError(string(symbol), id, kinds))
	} else {
		d.report(FieldError{})
	}
	return unit.None
}

// Figure is a number in full, with its unit, such as a limit or a reading that was sent.
func Figure(x float64, symbol string) text.Figure {
	if symbol == unit.IDOne.Symbol() {
		symbol = "" // people write a plain number
	}
	return text.Figure{Digits: strconv.FormatFloat(x, 'f', -1, 64), Unit: symbol}
}
