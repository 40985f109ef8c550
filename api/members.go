package api

import (
	"bytes"
	"reflect"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"
)

// A table is how the decoder reads one JSON object into a struct. tableOf makes it from
// the fields of the struct.
type table struct {
	of       reflect.Type
	members  []member
	names    []string
	required uint64 // those that must be there, a bit each
	wording  []any  // the names, for the words of a value that is no object
}

// A member is one row of such a table.
type member struct {
	name     string
	required bool
	offset   uintptr // of its field in the struct
	read     reader
	shape    shape
}

// A reader reads the next value into the field at p.
type reader func(d *decoder, p unsafe.Pointer)

// A shape describes what a member takes. The decoder enforces it through read;
// tests hold it against the document.
type shape struct {
	Type    string // quantity, object, array, string, integer, number, boolean
	Kinds   kindSet
	Low     float64  // quantities, numbers, array lengths
	High    float64  // numbers, array lengths, string lengths
	Allowed []string // words of a string, or of the strings of an array
	Pattern string
	Format  string
	Members []member // of an object, or of the objects of an array
}

func (t *table) shape() shape { return shape{Type: "object", Members: t.members} }

// read reads an object into the struct at p. Members mostly come in the order of the
// table, so the search starts after the last one found.
func (t *table) read(d *decoder, p unsafe.Pointer) {
	if !d.expect(jsontext.KindBeginObject, "object", t.wording...) {
		return
	}
	d.begin()
	var seen uint64
	next := 0
	for {
		i, name, ok := d.member(t.names, next)
		if !ok {
			break
		}
		if i < 0 {
			d.unknown(string(name), t.names)
			continue
		}
		m := &t.members[i]
		if seen&(1<<i) != 0 {
			d.report(FieldError{Code: "duplicate_member"})
			d.skip()
		} else {
			seen |= 1 << i
			m.read(d, unsafe.Add(p, m.offset))
		}
		next = i + 1
	}
	missing := t.required &^ seen
	if missing == 0 || !d.sound() {
		return
	}
	for i := range t.members {
		if missing&(1<<i) != 0 {
			d.report(FieldError{Code: "required"}, t.members[i].name)
		}
	}
}

// find looks for a name, from next on first; -1 when it is not among names.
func find(name []byte, names []string, next int) int {
	for range names {
		if next == len(names) {
			next = 0
		}
		if string(name) == names[next] {
			return next
		}
		next++
	}
	return -1
}

// unknown reports a member that the object does not have, with the one that was
// probably meant.
func (d *decoder) unknown(name string, known []string) {
	if !d.listing() {
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
