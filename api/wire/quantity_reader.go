package wire

import (
	"strconv"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// The bounds of every value on the wire, in whatever unit the client uses. They
// are far outside of anything measured on a field; between them no calculation
// can leave the range of a double.
var (
	Smallest = 1e-9
	Largest  = 1e9
	nothing  = 0.0 // the lower bound where an empty cup or a new nozzle is meant
)

// kindSet is a set of quantities, one bit each.
type kindSet uint32

func KindsOf(kinds ...unit.Kind) (s kindSet) {
	for _, k := range kinds {
		s |= 1 << k
	}
	return s
}

// symbols lists the unit symbols that measure one of the set.
func (s kindSet) symbols() (all []string) {
	for _, u := range unit.All() {
		if s&(1<<u.Quantity) != 0 {
			all = append(all, u.Symbol)
		}
	}
	return all
}

// quantityReader reads {value, unit} of one of the given quantities. least is the lowest
// value that it takes: smallest, or nothing where nought is a reading too.
func quantityReader(kinds kindSet, least *float64) reader {
	return func(d *Decoder, p unsafe.Pointer) { d.quantity((*Quantity)(p), kinds, least) }
}

// unitReader reads the symbol of a unit of one of the given quantities.
func unitReader(kinds kindSet) reader {
	return func(d *Decoder, p unsafe.Pointer) { *(*unit.ID)(p) = d.unit(kinds) }
}

var quantityMembers = []string{"value", "unit"}

// quantity reads {"value": number, "unit": symbol}. It is written out instead of
// going through a table because most of a request is quantities.
func (d *Decoder) quantity(q *Quantity, kinds kindSet, least *float64) {
	if d.kind() != jsontext.KindBeginObject { // asked first, since listing the units costs
		d.expect(jsontext.KindBeginObject, "quantity", Words(kinds.symbols()))
		return
	}
	d.begin()
	var has [2]bool
	var value float64
	var sound bool
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
			value, sound = d.expectNumber()
		default:
			id = d.unit(kinds)
		}
		has[i], next = true, i+1
	}
	if !d.sound() {
		return
	}
	if !has[0] {
		d.report(FieldError{Code: "required"}, "value")
	}
	if !has[1] {
		symbols := kinds.symbols()
		d.report(FieldError{Code: "unit_required", Allowed: symbols, Args: []any{Words(symbols)}}, "unit")
	}
	if sound && d.bounded(value, id, least) && id != unit.None {
		*q = Quantity{value, id}
	}
}

func (d *Decoder) bounded(value float64, id unit.ID, least *float64) bool {
	e := FieldError{Code: "too_small", Limit: least}
	switch {
	case value > Largest:
		e = FieldError{Code: "too_large", Limit: &Largest}
	case value >= *least:
		return true
	case value <= 0 && least == &Smallest:
		e.Code = "not_positive"
	}
	e.Args = []any{Figure(*e.Limit, id.Symbol())}
	d.report(e, "value")
	return false
}

// unit reads a symbol that measures one of kinds.
func (d *Decoder) unit(kinds kindSet) unit.ID {
	symbol, ok := d.expectString()
	if !ok {
		return unit.None
	}
	id := unit.Lookup(string(symbol))
	if id != unit.None && kinds&(1<<id.Kind()) != 0 {
		return id
	}
	if d.listing() {
		d.report(UnitError(string(symbol), id, kinds))
	} else {
		d.report(FieldError{})
	}
	return unit.None
}

// Figure is a number in full, with its unit, such as a limit or a reading that was sent.
func Figure(x float64, symbol string) text.Figure {
	return text.Figure{Digits: strconv.FormatFloat(x, 'f', -1, 64), Unit: symbol}
}
