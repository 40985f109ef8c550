package api

import (
	"bytes"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/calc/unit"
)

// An object is the table by which the decoder reads one JSON object into a T.
type object[T any] struct {
	members  []member[T]
	names    []string
	required uint64 // those that must be there, a bit each
	wording  []any  // the names, for the words of a value that is no object
}

// A member is one row of such a table.
type member[T any] struct {
	name     string
	required bool
	read     func(*decoder, *T)
	shape    shape
}

// A shape describes what a member takes. The decoder enforces it through read;
// tests hold it against the document.
type shape struct {
	Type    string // quantity, object, array, string, integer, boolean
	Kinds   kindSet
	Low     float64  // quantities, integers, array lengths
	High    float64  // integers, array lengths, string lengths
	Allowed []string // words of a string, or of the strings of an array
	Pattern string
	Format  string
	Members []memberShape
}

type memberShape struct {
	Name     string
	Required bool
	shape
}

func objectOf[T any](members ...member[T]) *object[T] {
	o := &object[T]{members: members}
	for i, m := range members {
		o.names = append(o.names, m.name)
		if m.required {
			o.required |= 1 << i
		}
	}
	o.wording = []any{words(o.names)}
	if len(members) > 64 {
		panic("api: an object of more than 64 members needs a wider set of seen ones")
	}
	return o
}

func (o *object[T]) shape() shape {
	s := shape{Type: "object"}
	for _, m := range o.members {
		s.Members = append(s.Members, memberShape{m.name, m.required, m.shape})
	}
	return s
}

// require marks a member that must be there.
func require[T any](m member[T]) member[T] {
	m.required = true
	return m
}

// readObject reads the members of one object. Members mostly come in the order
// of the table, so the search starts after the last one found.
func readObject[T any](d *decoder, o *object[T], into *T) {
	if !d.expect(jsontext.KindBeginObject, "object", o.wording...) {
		return
	}
	d.begin()
	var seen uint64
	next := 0
	for {
		i, name, ok := d.memberOf(o.names, next)
		if !ok {
			break
		}
		if i < 0 {
			d.unknown(string(name), o.names)
			continue
		}
		m := &o.members[i]
		d.enter(segment{name: m.name})
		if seen&(1<<i) != 0 {
			d.report(FieldError{Code: "duplicate_member"})
			d.skip()
		} else {
			seen |= 1 << i
			m.read(d, into)
		}
		d.leave()
		next = i + 1
	}
	if d.broken != nil || o.required&^seen == 0 {
		return
	}
	for i := range o.members {
		if o.members[i].required && seen&(1<<i) == 0 {
			d.report(FieldError{Code: "required"}, o.members[i].name)
		}
	}
}

// memberOf reads the name of the next member and finds it among names, from next on
// first; i is -1 when it is none of them. ok is false at the end, as for name.
func (d *decoder) memberOf(names []string, next int) (i int, name []byte, ok bool) {
	if d.quickly && d.broken == nil {
		if !d.quick.more('}') {
			d.going() // or at its end
			return 0, nil, false
		}
		if i := d.quick.among(names[next:]); i >= 0 {
			return next + i, nil, d.going()
		}
		name, ok = d.quick.name(), d.going()
	} else {
		name, ok = d.name()
	}
	if !ok {
		return 0, nil, false
	}
	for range names {
		if next == len(names) {
			next = 0
		}
		if string(name) == names[next] {
			return next, name, true
		}
		next++
	}
	return -1, name, true
}

// unknown reports a member that the object does not have, with the one that was
// probably meant.
func (d *decoder) unknown(name string, known []string) {
	if !d.listens() {
		d.report(FieldError{})
		d.skip()
		return
	}
	e := FieldError{Code: "unknown_member", Allowed: known, args: []any{words(known)}}
	for _, k := range known {
		if bytes.EqualFold([]byte(name), []byte(k)) {
			e = FieldError{Code: "wrong_case", Allowed: []string{k}, args: []any{k}}
		}
	}
	if e.Code == "unknown_member" {
		if k := nearest(name, known); k != "" {
			e = FieldError{Code: "misspelt_member", Allowed: []string{k}, args: []any{k}}
		}
	}
	d.report(e, name)
	d.skip()
}

// quantity is a member {value, unit} of one of the given quantities.
func quantity[T any](name string, at func(*T) *Quantity, kinds ...unit.Kind) member[T] {
	set := kindsOf(kinds...)
	return member[T]{
		name:  name,
		read:  func(d *decoder, into *T) { d.quantity(at(into), set, &smallest) },
		shape: shape{Type: "quantity", Kinds: set, Low: smallest},
	}
}

// amount is a quantity that may be nought: an empty cup, the hours of a new nozzle.
func amount[T any](name string, at func(*T) *Quantity, kinds ...unit.Kind) member[T] {
	set := kindsOf(kinds...)
	return member[T]{
		name:  name,
		read:  func(d *decoder, into *T) { d.quantity(at(into), set, &nothing) },
		shape: shape{Type: "quantity", Kinds: set},
	}
}

// amounts is a member that is an array of least to most quantities, each of which
// may be nought.
func amounts[T any](name string, at func(*T) *[]Quantity, least, most int, kind unit.Kind) member[T] {
	set := kindsOf(kind)
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			items := at(into)
			*items = make([]Quantity, 0, 16)
			d.items(least, most, func(i int) {
				*items = append(*items, Quantity{})
				d.quantity(&(*items)[i], set, &nothing)
			})
		},
		shape: shape{Type: "array", Kinds: set, Low: float64(least), High: float64(most)},
	}
}

// symbol is a member that is the symbol of a unit of one of the given quantities.
func symbol[T any](name string, at func(*T) *unit.ID, kinds ...unit.Kind) member[T] {
	set := kindsOf(kinds...)
	return member[T]{
		name:  name,
		read:  func(d *decoder, into *T) { *at(into) = d.unit(set) },
		shape: shape{Type: "string", Allowed: set.symbols()},
	}
}

// nested is a member that is an object itself.
func nested[T, U any](name string, at func(*T) *U, o *object[U]) member[T] {
	return member[T]{
		name:  name,
		read:  func(d *decoder, into *T) { readObject(d, o, at(into)) },
		shape: o.shape(),
	}
}

// part makes the members of an object those of one that embeds it.
func part[T, U any](at func(*T) *U, o *object[U]) (members []member[T]) {
	for _, m := range o.members {
		members = append(members, member[T]{
			name: m.name, required: m.required, shape: m.shape,
			read: func(d *decoder, into *T) { m.read(d, at(into)) },
		})
	}
	return members
}

// optional is a member that is an object, and that being there says something by
// itself.
func optional[T, U any](name string, at func(*T) **U, o *object[U]) member[T] {
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			u := new(U)
			*at(into) = u
			readObject(d, o, u)
		},
		shape: o.shape(),
	}
}

// list is a member that is an array of least to most objects.
func list[T, U any](name string, at func(*T) *[]U, least, most int, o *object[U]) member[T] {
	items := o.shape()
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			items := at(into)
			*items = make([]U, 0, 16)
			d.items(least, most, func(i int) {
				*items = append(*items, *new(U))
				readObject(d, o, &(*items)[i])
			})
		},
		shape: shape{Type: "array", Low: float64(least), High: float64(most), Members: items.Members},
	}
}

// items reads an array of least to most items, each by read; what is over is
// passed over and reported.
func (d *decoder) items(least, most int, read func(i int)) {
	if !d.expect(jsontext.KindBeginArray, "array") {
		return
	}
	d.begin()
	n := 0
	for d.more() {
		if n++; n > most {
			d.skip()
			continue
		}
		d.enter(segment{index: n - 1})
		read(n - 1)
		d.leave()
	}
	if d.broken == nil {
		d.length(n, least, most)
	}
}

func (d *decoder) length(n, least, most int) {
	if n < least {
		limit := float64(least)
		d.report(FieldError{Code: "too_few", Limit: &limit, args: []any{least}})
	}
	if n > most {
		limit := float64(most)
		d.report(FieldError{Code: "too_many", Limit: &limit, args: []any{most}})
	}
}

// label is a member that is free text of at most most characters.
func label[T any](name string, at func(*T) *string, most int) member[T] {
	return member[T]{
		name:  name,
		read:  func(d *decoder, into *T) { *at(into), _ = d.text(most) },
		shape: shape{Type: "string", High: float64(most)},
	}
}

// oneOf is a member that takes one of a few words.
func oneOf[T any](name string, at func(*T) *string, allowed ...string) member[T] {
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			if !d.expect(jsontext.KindString, "string") {
				return
			}
			raw, ok := d.raw()
			for _, a := range allowed {
				if ok && string(raw) == a {
					*at(into) = a
					return
				}
			}
			if ok {
				d.report(FieldError{Code: "not_allowed", Allowed: allowed, args: []any{words(allowed)}})
			}
		},
		shape: shape{Type: "string", Allowed: allowed},
	}
}

// count is a member that is a whole number from least to most.
func count[T any](name string, at func(*T) *int, least, most int) member[T] {
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			x, ok := d.number()
			switch {
			case !ok:
			case x < float64(least):
				limit := float64(least)
				d.report(FieldError{Code: "too_small", Limit: &limit, args: []any{figure(limit, "")}})
			case x > float64(most):
				limit := float64(most)
				d.report(FieldError{Code: "too_large", Limit: &limit, args: []any{figure(limit, "")}})
			case x != float64(int(x)):
				d.report(FieldError{Code: "wrong_type", wording: "wrong_type_integer"})
			default:
				*at(into) = int(x)
			}
		},
		shape: shape{Type: "integer", Low: float64(least), High: float64(most)},
	}
}

// flag is a member that is true or false. A pointer, so that missing is not false.
func flag[T any](name string, at func(*T) **bool) member[T] {
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			if b, ok := d.boolean(); ok {
				*at(into) = &b
			}
		},
		shape: shape{Type: "boolean"},
	}
}
