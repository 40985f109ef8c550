package api

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unsafe"
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

// tables are those that have been made, by what they were made from.
var tables = map[tableKey]*table{}

// A tableKey is what a table is made from: a struct, and the tags that stand on where it
// is used.
type tableKey struct {
	of       reflect.Type
	is, zero string
}

// tableOf is the table of a struct.
func tableOf[T any]() *table { return tableWith(tableKey{of: reflect.TypeFor[T]()}) }

// requestTable is that of a whole request, of which the validator tells what is missing.
func requestTable[T any]() *table {
	t := *tableOf[T]()
	t.required = 0
	noteTags(t.of)
	return &t
}

func tableWith(key tableKey) *table {
	if t := tables[key]; t != nil {
		return t
	}
	t := &table{of: key.of, members: membersOf(key, 0)}
	for i, m := range t.members {
		if slices.Contains(t.names, m.name) {
			panic(fmt.Sprintf("api: %v.%s: there are two of that name", key.of, m.name))
		}
		t.names = append(t.names, m.name)
		if m.required {
			t.required |= 1 << i
		}
	}
	t.wording = []any{words(t.names)}
	if len(t.members) > 64 {
		panic(fmt.Sprintf("api: %v has more than 64 members, and the set of seen ones no room for them", key.of))
	}
	tables[key] = t
	return t
}

// membersOf lists the members of a struct that lies at an offset in another.
func membersOf(key tableKey, offset uintptr) (all []member) {
	for i := range key.of.NumField() {
		f := taggedField{StructField: key.of.Field(i), key: key, used: []string{"json", "validate"}}
		name := memberName(f.StructField)
		switch {
		case f.Anonymous && name == "":
			zero := f.take("zero")
			embedded := membersOf(tableKey{of: f.Type, zero: zero}, offset+f.Offset)
			if zero != "" && !slices.ContainsFunc(embedded, func(m member) bool { return m.name == zero && m.shape.Kinds != 0 }) {
				f.fail("it has no quantity " + zero)
			}
			all = append(all, embedded...)
		case name == "" && f.IsExported():
			f.fail("it has no name")
		case name != "": // one without is for the calculation, not for the wire
			m := member{name: name, offset: offset + f.Offset}
			m.required = slices.Contains(strings.Split(f.Tag.Get("validate"), ","), "required")
			m.read, m.shape = f.takes(f.Type)
			all = append(all, m)
		}
		f.checkTags()
	}
	return all
}
