package api

import (
	"strconv"
	"strings"

	"wetrun/calc"
)

// pointer turns the Go path of a calc violation or warning into the JSON pointer
// of the member: Catches[2].Volume becomes #/catches/2/volume. Field names of
// calc inputs are the member names of the wire with an upper-case first letter.
func pointer(path string) string {
	var b strings.Builder
	b.Grow(len(path) + 4)
	b.WriteByte('#')
	start := true
	for _, c := range []byte(path) {
		switch {
		case c == '.':
			start = true
		case c == '[':
			b.WriteByte('/')
		case c == ']':
		case start:
			b.WriteByte('/')
			b.WriteString(strings.ToLower(string(c)))
			start = false
		default:
			b.WriteByte(c)
		}
	}
	return b.String()
}

// indexed is the Go path of a list's item.
func indexed(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

// refused turns the violations of calc into a 422.
func refused(v calc.Invalid) *refusal {
	r := &refusal{kind: invalidRequest}
	for _, x := range v {
		e := FieldError{Pointer: pointer(x.Field), Code: x.Code}
		switch {
		case x.Allowed != "":
			e.Allowed = strings.Split(x.Allowed, "\n")
			e.wording, e.args = x.Code+"_allowed", []any{words(e.Allowed)}
		case x.Because != "":
			e.wording, e.args = x.Code+"_because", []any{memberPath(x.Because)}
		case x.Instead != "":
			e.wording, e.args = x.Code+"_or", []any{memberPaths(x.Instead)}
		}
		r.fields = append(r.fields, e)
	}
	return r
}

// memberPath words the Go path of a member for a sentence: Machine.BedWidth
// becomes machine.bedWidth, and of a member in a list only its own name is said.
func memberPath(path string) string {
	if i := strings.LastIndexByte(path, ']'); i >= 0 {
		path = path[i+2:]
	}
	return strings.ReplaceAll(pointer(path)[len("#/"):], "/", ".")
}

func memberPaths(paths string) string {
	list := strings.Split(paths, ",")
	for i := range list {
		list[i] = memberPath(list[i])
	}
	return words(list)
}

// segment is one step of the path that the decoder stands at.
type segment struct {
	name  string
	index int // used when name is empty
}

// pointerTo writes the decoder's path as a JSON pointer in a URI fragment.
func pointerTo(path []segment, more ...string) string {
	var b strings.Builder
	b.WriteByte('#')
	for _, s := range path {
		b.WriteByte('/')
		if s.name == "" {
			b.WriteString(strconv.Itoa(s.index))
		} else {
			b.WriteString(escapePointer(s.name))
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
		if !unreserved(s[i]) {
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
		case unreserved(c):
			b.WriteByte(c)
		default:
			b.WriteString("%" + strings.ToUpper(strconv.FormatInt(int64(c)+0x100, 16)[1:]))
		}
	}
	return b.String()
}

func unreserved(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '.' || c == '_'
}
