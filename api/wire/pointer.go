package wire

import (
	"strconv"
	"strings"
)

// Segment is one step of the path that the decoder stands at.
type Segment struct {
	Name  string
	Index int // used when name is empty
}

// PointerTo writes the decoder's path as a JSON pointer in a URI fragment.
func PointerTo(path []Segment, more ...string) string {
	var b strings.Builder
	b.WriteByte('#')
	for _, s := range path {
		b.WriteByte('/')
		if s.Name == "" {
			b.WriteString(strconv.Itoa(s.Index))
		} else {
			b.WriteString(escapePointer(s.Name))
		}
	}
	for _, s := range more {
		b.WriteByte('/')
		b.WriteString(escapePointer(s))
	}
	return b.String()
}

// escapePointer escapes a reference token by RFC 6901 and then percent-encodes
// what a URI fragment may not hold. Long names are cut: the start tells enough.
func escapePointer(s string) string {
	const most = 64
	if len(s) > most {
		s = strings.ToValidUTF8(s[:most], "")
	}
	plain := true
	for i := 0; i < len(s); i++ {
		if !Unreserved(s[i]) {
			plain = false
		}
	}
	if plain {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c == '~':
			b.WriteString("~0")
		case c == '/':
			b.WriteString("~1")
		case Unreserved(c):
			b.WriteByte(c)
		default:
			b.WriteString("%" + strings.ToUpper(strconv.FormatInt(int64(c)+0x100, 16)[1:]))
		}
	}
	return b.String()
}

func Unreserved(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '.' || c == '_'
}
