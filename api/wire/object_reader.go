package wire

import (
	"slices"
	"strings"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/calc/finding"
)

// read reads an object into the struct at p. Members mostly come in the order of the
// table, so the search starts after the last one found.
func (t *Table) read(d *decoder, p unsafe.Pointer) {
	if !d.expect(jsontext.KindBeginObject, "object", t.wording...) {
		return
	}
	d.begin()
	var seen uint64
	next := 0
	for {
		i, name, ok := d.member(t.Names, next)
		if !ok {
			break
		}
		if i < 0 {
			d.unknown(string(name), t.Names)
			continue
		}
		m := &t.Members[i]
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
	if missing == 0 || !d.readable() {
		return
	}
	for i := range t.Members {
		if missing&(1<<i) != 0 {
			d.report(FieldError{Code: finding.CodeRequired}, t.Members[i].Name)
		}
	}
}

// find is the index of a name, looked for from next on first; -1 when it is not among names.
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
	e := FieldError{Code: "unknown_member", Allowed: known, Args: []any{Enumeration(known)}}
	if i := slices.IndexFunc(known, func(k string) bool { return strings.EqualFold(name, k) }); i >= 0 {
		e = FieldError{Code: "wrong_case", Allowed: known[i : i+1], Args: []any{known[i]}}
	} else if k := nearest(name, known); k != "" {
		e = FieldError{Code: "misspelt_member", Allowed: []string{k}, Args: []any{k}}
	}
	d.report(e, name)
	d.skip()
}
