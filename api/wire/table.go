package wire

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unsafe"
)

// A Table is how the decoder reads one JSON object into a struct. TableOf makes it from
// the fields of the struct.
type Table struct {
	Of       reflect.Type // the struct
	Members  []Member
	Names    []string // of the members
	required uint64   // those that must be there, a bit each
	wording  []any    // the names, for the words of a value that is no object
}

// A Member is one member of the object.
type Member struct {
	Name     string
	Required bool
	offset   uintptr // of its field in the struct
	read     reader
	Shape    Shape
}

// A reader reads the next value into the field at p.
type reader func(d *decoder, p unsafe.Pointer)

// A Shape describes what a member takes. The decoder enforces it through read;
// tests hold it against the document.
type Shape struct {
	Type    string // quantity, object, array, string, integer, number, boolean
	Kinds   KindSet
	Low     float64  // quantities, numbers, array lengths
	High    float64  // numbers, array lengths, string lengths
	Allowed []string // words of a string, or of the strings of an array
	Pattern string
	Format  string
	Members []Member // of an object, or of the objects of an array
}

// Shape is what the whole object takes.
func (t *Table) Shape() Shape { return Shape{Type: "object", Members: t.Members} }

// tables are those that have been made, by what they were made from.
var tables = map[tableKey]*Table{}

// A tableKey is what a table is made from: a struct, and the tags that stand on where it
// is used.
type tableKey struct {
	of       reflect.Type
	is, zero string
}

// TableOf is the table of a struct. It panics where the tags of a field do not fit its type.
func TableOf[T any]() *Table { return tableWith(tableKey{of: reflect.TypeFor[T]()}) }

// RequestTable is the table of a whole request, of which CheckPresence tells what is missing.
func RequestTable[T any]() *Table {
	t := *TableOf[T]()
	t.required = 0
	addValidated(t.Of)
	return &t
}

func tableWith(key tableKey) *Table {
	if t := tables[key]; t != nil {
		return t
	}
	t := &Table{Of: key.of, Members: membersOf(key, 0)}
	for i, m := range t.Members {
		if slices.Contains(t.Names, m.Name) {
			panic(fmt.Sprintf("wire: %v.%s: there are two of that name", key.of, m.Name))
		}
		t.Names = append(t.Names, m.Name)
		if m.Required {
			t.required |= 1 << i
		}
	}
	t.wording = []any{Enumeration(t.Names)}
	if len(t.Members) > 64 {
		panic(fmt.Sprintf("wire: %v has more than 64 members, and the set of seen ones no room for them", key.of))
	}
	tables[key] = t
	return t
}

// membersOf lists the members of a struct that lies at an offset in another.
func membersOf(key tableKey, offset uintptr) (all []Member) {
	for i := range key.of.NumField() {
		f := taggedField{StructField: key.of.Field(i), key: key, used: []string{"json", "validate"}}
		name := MemberName(f.StructField)
		switch {
		case f.Anonymous && name == "":
			zero := f.take("zero")
			embedded := membersOf(tableKey{of: f.Type, zero: zero}, offset+f.Offset)
			if zero != "" && !slices.ContainsFunc(embedded, func(m Member) bool { return m.Name == zero && m.Shape.Kinds != 0 }) {
				f.fail("it has no quantity " + zero)
			}
			all = append(all, embedded...)
		case name == "" && f.IsExported():
			f.fail("it has no name")
		case name != "": // one without is for the calculation, not for the wire
			m := Member{Name: name, offset: offset + f.Offset}
			m.Required = slices.Contains(strings.Split(f.Tag.Get("validate"), ","), "required")
			m.read, m.Shape = f.takes(f.Type)
			all = append(all, m)
		}
		f.checkTags()
	}
	return all
}
