package wire

import (
	"strconv"
	"strings"
	"unicode/utf8"
	"unsafe"

	"wetrun/calc/finding"
)

// Pointer renders a place as the JSON pointer of the member, in a URI fragment: the item 2
// of catches, its volume, is #/catches/2/volume. Names of places need no escaping.
func Pointer(p finding.Place) string {
	b := append(make([]byte, 0, 64), '#')
	for name, item := range p.Steps() {
		b = append(append(b, '/'), name...)
		if item >= 0 {
			b = strconv.AppendInt(append(b, '/'), int64(item), 10)
		}
	}
	return string(b)
}

// pointerPattern is that of a JSON pointer to a member, with or without the # of a fragment.
const pointerPattern = "^#?/."

// readPointer reads a JSON pointer, as an answer gives it.
func readPointer(d *decoder, p unsafe.Pointer) {
	s, ok := d.expectString()
	if !ok {
		return
	}
	path, ok := strings.CutPrefix(strings.TrimPrefix(string(s), "#"), "/")
	switch {
	case utf8.RuneCount(s) > LongestLabel:
		d.report(beyond("too_long", LongestLabel, LongestLabel))
	case !ok || path == "":
		d.report(FieldError{Code: "not_a_pointer"})
	default:
		*(*string)(p) = string(s)
	}
}

// PlaceOf is the place that a JSON pointer points to.
func PlaceOf(pointer string) (place finding.Place) {
	names := strings.Split(strings.TrimPrefix(strings.TrimPrefix(pointer, "#"), "/"), "/")
	for n := 0; n < len(names); n++ {
		step := finding.Member(names[n])
		if n+1 < len(names) {
			if i, err := strconv.Atoi(names[n+1]); err == nil && i >= 0 {
				step = finding.Item(names[n], i)
				n++
			}
		}
		place = step.Under(place)
	}
	return place
}

// A segment is one step of the path of a reader.
type segment struct {
	name  string
	index int // where name is empty
}

// pathPointer renders the path of a reader likewise, with more names behind it, which may
// be whatever a client wrote.
func pathPointer(path []segment, more ...string) string {
	b := []byte{'#'}
	for _, s := range path {
		if b = append(b, '/'); s.name == "" {
			b = strconv.AppendInt(b, int64(s.index), 10)
		} else {
			b = append(b, s.name...)
		}
	}
	for _, name := range more {
		b = appendEscaped(append(b, '/'), name)
	}
	return string(b)
}

// appendEscaped escapes a reference token by RFC 6901 and then percent-encodes what a URI
// fragment may not hold. Long names are cut: the start tells enough.
func appendEscaped(b []byte, name string) []byte {
	const most = 64
	if len(name) > most {
		name = strings.ToValidUTF8(name[:most], "")
	}
	for i := range len(name) {
		switch c := name[i]; {
		case c == '~':
			b = append(b, "~0"...)
		case c == '/':
			b = append(b, "~1"...)
		case Unreserved(c):
			b = append(b, c)
		default:
			const hex = "0123456789ABCDEF"
			b = append(b, '%', hex[c>>4], hex[c&15])
		}
	}
	return b
}

// Unreserved tells whether a character stands for itself in any part of a URI.
func Unreserved(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '.' || c == '_'
}
