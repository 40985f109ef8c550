package wire

import (
	"encoding/binary"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"unsafe"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// An Encoder appends the value at p as JSON. There is one for each type of answer,
// made once from its fields, so that no request pays for reflection. It writes what
// the JSON library writes; a test holds the two against each other. It fails with
// ErrNotComputable, and on text that is no UTF-8.
type Encoder func(b []byte, p unsafe.Pointer) ([]byte, error)

// An Appender writes itself: AppendJSON appends it to b as JSON.
type Appender interface{ AppendJSON(b []byte) []byte }

// EncoderOf makes the encoder of a type. It panics for a type that no answer needs yet:
// a mistake of ours, found when the program starts.
func EncoderOf(t reflect.Type) Encoder {
	switch t { // those that write themselves
	case reflect.TypeFor[Quantity]():
		return func(b []byte, p unsafe.Pointer) ([]byte, error) { return (*Quantity)(p).appendTo(b) }
	case reflect.TypeFor[Number]():
		return appendFinite
	}
	if reflect.PointerTo(t).Implements(reflect.TypeFor[Appender]()) {
		return func(b []byte, p unsafe.Pointer) ([]byte, error) {
			return reflect.NewAt(t, p).Interface().(Appender).AppendJSON(b), nil
		}
	}
	for _, own := range []reflect.Type{reflect.TypeFor[json.MarshalerTo](), reflect.TypeFor[json.Marshaler]()} {
		if reflect.PointerTo(t).Implements(own) {
			panic(fmt.Sprintf("wire: %v writes itself, and has no encoder", t))
		}
	}
	switch t.Kind() {
	case reflect.Struct:
		return structEncoder(t)
	case reflect.Slice:
		return sliceEncoder(t.Elem())
	case reflect.Pointer:
		encode := EncoderOf(t.Elem())
		return func(b []byte, p unsafe.Pointer) ([]byte, error) {
			if pointee := *(*unsafe.Pointer)(p); pointee != nil {
				return encode(b, pointee)
			}
			return append(b, "null"...), nil
		}
	case reflect.String:
		return func(b []byte, p unsafe.Pointer) ([]byte, error) { return appendString(b, *(*string)(p)) }
	case reflect.Int:
		return func(b []byte, p unsafe.Pointer) ([]byte, error) {
			return strconv.AppendInt(b, int64(*(*int)(p)), 10), nil
		}
	case reflect.Bool:
		return func(b []byte, p unsafe.Pointer) ([]byte, error) { return strconv.AppendBool(b, *(*bool)(p)), nil }
	}
	panic(fmt.Sprintf("wire: no encoder for %v", t))
}

// A field is one member of an object that is written.
type field struct {
	key    string // ,"name":
	offset uintptr
	absent func(unsafe.Pointer) bool // nil for a member that is always there
	encode Encoder
}

func structEncoder(t reflect.Type) Encoder {
	fields := fieldsOf(t, 0)
	return func(b []byte, p unsafe.Pointer) ([]byte, error) {
		start := len(b)
		for i := range fields {
			f := &fields[i]
			value := unsafe.Add(p, f.offset)
			if f.absent != nil && f.absent(value) {
				continue
			}
			var err error
			if b, err = f.encode(append(b, f.key...), value); err != nil {
				return nil, err
			}
		}
		if len(b) == start {
			return append(b, "{}"...), nil
		}
		b[start] = '{' // where the comma of the first member stands
		return append(b, '}'), nil
	}
}

// fieldsOf lists the fields of a struct with those of what it embeds.
func fieldsOf(t reflect.Type, offset uintptr) (fields []field) {
	for i := range t.NumField() {
		f := t.Field(i)
		tag, tagged := f.Tag.Lookup("json")
		name, options, _ := strings.Cut(tag, ",")
		switch {
		case f.Anonymous && !tagged && f.Type.Kind() == reflect.Struct:
			fields = append(fields, fieldsOf(f.Type, offset+f.Offset)...)
			continue
		case !f.IsExported() && !tagged:
			continue
		case name == "" || name == "-" || options != "" && options != "omitzero":
			panic(fmt.Sprintf("wire: no encoder for the tag of %v.%s", t, f.Name))
		}
		member := field{key: `,"` + name + `":`, offset: offset + f.Offset, encode: EncoderOf(f.Type)}
		if options == "omitzero" {
			member.absent = absentOf(f.Type)
		}
		fields = append(fields, member)
	}
	return fields
}

func sliceEncoder(item reflect.Type) Encoder {
	encode, size := EncoderOf(item), item.Size()
	return func(b []byte, p unsafe.Pointer) ([]byte, error) {
		n := len(*(*[]struct{})(p)) // the length of any slice
		first := unsafe.Pointer(unsafe.SliceData(*(*[]struct{})(p)))
		b = append(b, '[')
		for i := range n {
			if i > 0 {
				b = append(b, ',')
			}
			var err error
			if b, err = encode(b, unsafe.Add(first, uintptr(i)*size)); err != nil {
				return nil, err
			}
		}
		return append(b, ']'), nil
	}
}

// absentOf makes what tells whether a value of the type is one that omitzero leaves out: by
// its own IsZero where it has one.
func absentOf(t reflect.Type) func(unsafe.Pointer) bool {
	type zeroer interface{ IsZero() bool }
	switch {
	case t == reflect.TypeFor[Quantity]():
		return func(p unsafe.Pointer) bool { return (*Quantity)(p).IsZero() }
	case t.Kind() != reflect.Pointer && reflect.PointerTo(t).Implements(reflect.TypeFor[zeroer]()):
		return func(p unsafe.Pointer) bool { return reflect.NewAt(t, p).Interface().(zeroer).IsZero() }
	}
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice:
		return func(p unsafe.Pointer) bool { return *(*unsafe.Pointer)(p) == nil }
	case reflect.String:
		return func(p unsafe.Pointer) bool { return *(*string)(p) == "" }
	case reflect.Bool:
		return func(p unsafe.Pointer) bool { return !*(*bool)(p) }
	case reflect.Int:
		return func(p unsafe.Pointer) bool { return *(*int)(p) == 0 }
	case reflect.Float64:
		return func(p unsafe.Pointer) bool { return *(*float64)(p) == 0 }
	case reflect.Struct:
		return func(p unsafe.Pointer) bool { return reflect.NewAt(t, p).Elem().IsZero() }
	}
	panic(fmt.Sprintf("wire: %v cannot be left out of an answer", t))
}

// appendString quotes s. Most texts have nothing to escape.
func appendString(b []byte, s string) ([]byte, error) {
	if !plain(s) {
		return jsontext.AppendQuote(b, s)
	}
	return append(append(append(b, '"'), s...), '"'), nil
}

// plain tells whether a string is ASCII without control characters, quotes and
// backslashes. It looks at eight bytes at a time: below, the highest bit of a byte is
// set where the byte is one of those, and nowhere in front of the first.
func plain(s string) bool {
	const ones, highest = 0x0101010101010101, 0x8080808080808080
	rest := unsafe.Slice(unsafe.StringData(s), len(s))
	for ; len(rest) >= 8; rest = rest[8:] {
		x := binary.LittleEndian.Uint64(rest)
		quote, backslash := x^('"'*ones), x^('\\'*ones)
		if (x|(x-' '*ones)|(quote-ones)&^quote|(backslash-ones)&^backslash)&highest != 0 {
			return false
		}
	}
	for _, c := range rest {
		if c < ' ' || c >= 0x80 || c == '"' || c == '\\' {
			return false
		}
	}
	return true
}

// appendFinite writes a bare number.
func appendFinite(b []byte, p unsafe.Pointer) ([]byte, error) {
	x := *(*float64)(p)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, ErrNotComputable
	}
	return AppendNumber(b, x), nil
}
