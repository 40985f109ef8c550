package wire

import (
	"strconv"
	"unicode/utf8"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"
)

// A quickReader goes through JSON text as clients mostly write it, in a third of the
// time that the JSON library takes. It has no errors: at whatever it does not know to
// be right it gives up, and the decoder reads the body anew with the library, which
// knows, and says what is wrong. So it may refuse too much, never too little; a fuzz
// test holds it to that.
type quickReader struct {
	text   []byte
	pos    int  // in text
	first  bool // the object or array has just begun, so no comma comes next
	gaveUp bool
}

// byte is the next byte that is not white space; 0 at the end.
func (q *quickReader) byte() byte {
	for q.pos < len(q.text) {
		switch c := q.text[q.pos]; c {
		case ' ', '\t', '\n', '\r':
			q.pos++
		default:
			return c
		}
	}
	return 0
}

// take passes over c, which has to come next.
func (q *quickReader) take(c byte) {
	if q.byte() != c || c == 0 {
		q.gaveUp = true
		return
	}
	q.pos++
}

// report gives up: the library finds the error again, and lists it.
func (q *quickReader) report(FieldError, ...string) { q.gaveUp = true }

func (q *quickReader) listing() bool { return false }

// skip gives up too: what is passed over is not as it should be.
func (q *quickReader) skip() { q.gaveUp = true }

func (q *quickReader) readable() bool { return !q.gaveUp }

func (q *quickReader) kind() jsontext.Kind {
	if q.gaveUp {
		return 0
	}
	switch c := q.byte(); {
	case c == '{', c == '[', c == '"', c == 't', c == 'f', c == 'n':
		return jsontext.Kind(c)
	case c == '-', c >= '0' && c <= '9':
		return jsontext.KindNumber
	}
	q.gaveUp = true
	return 0
}

// begin passes over the bracket that opens an object or array.
func (q *quickReader) begin() {
	q.pos++
	q.first = true
}

func (q *quickReader) item(int) bool { return q.more(']') }

func (q *quickReader) member(names []string, next int) (i int, name []byte, ok bool) {
	if !q.more('}') {
		return 0, nil, false
	}
	if i := q.among(names[next:]); i >= 0 {
		return next + i, nil, !q.gaveUp
	}
	name = q.name()
	return find(name, names, next), name, !q.gaveUp
}

// more tells whether another item comes before the closing bracket, and passes over
// what stands in front of it: the comma, or the bracket itself.
func (q *quickReader) more(closing byte) bool {
	c := q.byte()
	if c == closing {
		q.pos++
		q.first = false
		return false
	}
	if !q.first {
		q.take(',')
	}
	q.first = false
	return !q.gaveUp
}

// name reads the name of a member, and the colon after it.
func (q *quickReader) name() []byte {
	if q.byte() != '"' {
		q.gaveUp = true
		return nil
	}
	s, _ := q.string()
	q.take(':')
	return s
}

// among passes over the name of a member, and the colon after it, if it is one of
// names, and returns which; -1 for another one.
func (q *quickReader) among(names []string) int {
	if q.byte() != '"' {
		return -1
	}
	rest := q.text[q.pos+1:]
	for i, name := range names {
		if len(rest) > len(name) && rest[len(name)] == '"' && string(rest[:len(name)]) == name {
			q.pos += len(name) + 2
			q.take(':')
			return i
		}
	}
	return -1
}

// quantity leaves to the library what is not one number and one string.
func (q *quickReader) quantity() (value float64, symbol []byte, ok bool) {
	q.begin()
	var hasValue, hasUnit bool
	for q.more('}') {
		switch i, c := q.among(quantityMembers), q.byte(); {
		case i == 0 && !hasValue && (c == '-' || c >= '0' && c <= '9'):
			value, hasValue = q.number()
		case i == 1 && !hasUnit && c == '"':
			symbol, hasUnit = q.string()
		default:
			q.gaveUp = true
		}
	}
	q.gaveUp = q.gaveUp || !hasValue || !hasUnit
	return value, symbol, true
}

// string reads a string, of which the quote comes next. One with an escape is left
// to the library.
func (q *quickReader) string() (s []byte, ok bool) {
	start, ascii := q.pos+1, true
	for i := start; i < len(q.text); i++ {
		switch c := q.text[i]; {
		case c == '"':
			s := q.text[start:i]
			if !ascii && !utf8.Valid(s) {
				q.gaveUp = true
				return nil, false
			}
			q.pos = i + 1
			return s, true
		case c == '\\' || c < ' ':
			q.gaveUp = true
			return nil, false
		case c >= utf8.RuneSelf:
			ascii = false
		}
	}
	q.gaveUp = true
	return nil, false
}

// number reads a number by the grammar of JSON, which is narrower than Go's.
func (q *quickReader) number() (x float64, ok bool) {
	start := q.pos
	if q.text[q.pos] == '-' {
		q.pos++
	}
	if q.pos < len(q.text) && q.text[q.pos] == '0' {
		q.pos++
	} else {
		q.digits()
	}
	if q.pos < len(q.text) && q.text[q.pos] == '.' {
		q.pos++
		q.digits()
	}
	if q.pos < len(q.text) && q.text[q.pos]|0x20 == 'e' {
		q.pos++
		if q.pos < len(q.text) && (q.text[q.pos] == '+' || q.text[q.pos] == '-') {
			q.pos++
		}
		q.digits()
	}
	if q.gaveUp {
		return 0, false
	}
	s := q.text[start:q.pos]
	x, err := strconv.ParseFloat(unsafe.String(unsafe.SliceData(s), len(s)), 64) // which keeps no reference to it
	q.gaveUp = err != nil
	return x, err == nil
}

// digits passes over one digit or more.
func (q *quickReader) digits() {
	start := q.pos
	for q.pos < len(q.text) && q.text[q.pos] >= '0' && q.text[q.pos] <= '9' {
		q.pos++
	}
	if q.pos == start {
		q.gaveUp = true
	}
}

// boolean reads true or false.
func (q *quickReader) boolean() (b, ok bool) {
	for _, word := range [...]string{"true", "false"} {
		if end := q.pos + len(word); end <= len(q.text) && string(q.text[q.pos:end]) == word {
			q.pos = end
			return word == "true", true
		}
	}
	q.gaveUp = true
	return false, false
}

func (q *quickReader) value() ([]byte, bool) {
	start := q.pos
	q.pass(0)
	return q.text[start:q.pos], !q.gaveUp
}

// pass passes over a value. Deep ones are left to the library.
func (q *quickReader) pass(depth int) {
	const deepest = 32
	switch kind := q.kind(); {
	case depth > deepest:
		q.gaveUp = true
	case kind == jsontext.KindBeginObject:
		q.begin()
		for q.more('}') {
			q.name()
			q.pass(depth + 1)
		}
	case kind == jsontext.KindBeginArray:
		q.begin()
		for q.more(']') {
			q.pass(depth + 1)
		}
	case kind == jsontext.KindString:
		q.string()
	case kind == jsontext.KindNumber:
		q.number()
	case kind == jsontext.KindTrue, kind == jsontext.KindFalse:
		q.boolean()
	default: // null, which no request may hold
		q.gaveUp = true
	}
}

// ended tells whether all of the text has been read.
func (q *quickReader) ended() bool { return !q.gaveUp && q.byte() == 0 && q.pos == len(q.text) }
