package wire

import (
	"strconv"
	"unicode/utf8"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"
)

// A quick reader goes through JSON text as clients mostly write it, in a third of the
// time that the JSON library takes. It has no errors: at whatever it does not know to
// be right it gives up, and the decoder reads the body anew with the library, which
// knows, and says what is wrong. So it may refuse too much, never too little; a fuzz
// test holds it to that.
type quick struct {
	text   []byte
	at     int
	first  bool // the object or array has just begun, so no comma comes next
	gaveUp bool
}

// byte is the next byte that is not white space; 0 at the end.
func (q *quick) byte() byte {
	for q.at < len(q.text) {
		switch c := q.text[q.at]; c {
		case ' ', '\t', '\n', '\r':
			q.at++
		default:
			return c
		}
	}
	return 0
}

// take passes over c, which has to come next.
func (q *quick) take(c byte) {
	if q.byte() != c || c == 0 {
		q.gaveUp = true
		return
	}
	q.at++
}

// report gives up: the library finds the error again, and lists it.
func (q *quick) report(FieldError, ...string) { q.gaveUp = true }

func (q *quick) listing() bool { return false }

// skip gives up too: what is passed over is not as it should be.
func (q *quick) skip() { q.gaveUp = true }

func (q *quick) sound() bool { return !q.gaveUp }

func (q *quick) kind() jsontext.Kind {
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
func (q *quick) begin() {
	q.at++
	q.first = true
}

func (q *quick) item(int) bool { return q.more(']') }

func (q *quick) member(names []string, next int) (i int, name []byte, ok bool) {
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
func (q *quick) more(closing byte) bool {
	c := q.byte()
	if c == closing {
		q.at++
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
func (q *quick) name() []byte {
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
func (q *quick) among(names []string) int {
	if q.byte() != '"' {
		return -1
	}
	rest := q.text[q.at+1:]
	for i, name := range names {
		if len(rest) > len(name) && rest[len(name)] == '"' && string(rest[:len(name)]) == name {
			q.at += len(name) + 2
			q.take(':')
			return i
		}
	}
	return -1
}

// string reads a string, of which the quote comes next. One with an escape is left
// to the library.
func (q *quick) string() (s []byte, ok bool) {
	start, ascii := q.at+1, true
	for i := start; i < len(q.text); i++ {
		switch c := q.text[i]; {
		case c == '"':
			s := q.text[start:i]
			if !ascii && !utf8.Valid(s) {
				q.gaveUp = true
				return nil, false
			}
			q.at = i + 1
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
func (q *quick) number() (x float64, ok bool) {
	start := q.at
	if q.text[q.at] == '-' {
		q.at++
	}
	if q.at < len(q.text) && q.text[q.at] == '0' {
		q.at++
	} else {
		q.digits()
	}
	if q.at < len(q.text) && q.text[q.at] == '.' {
		q.at++
		q.digits()
	}
	if q.at < len(q.text) && q.text[q.at]|0x20 == 'e' {
		q.at++
		if q.at < len(q.text) && (q.text[q.at] == '+' || q.text[q.at] == '-') {
			q.at++
		}
		q.digits()
	}
	if q.gaveUp {
		return 0, false
	}
	s := q.text[start:q.at]
	x, err := strconv.ParseFloat(unsafe.String(unsafe.SliceData(s), len(s)), 64) // which keeps no reference to it
	q.gaveUp = err != nil
	return x, err == nil
}

// digits passes over one digit or more.
func (q *quick) digits() {
	start := q.at
	for q.at < len(q.text) && q.text[q.at] >= '0' && q.text[q.at] <= '9' {
		q.at++
	}
	if q.at == start {
		q.gaveUp = true
	}
}

// boolean reads true or false.
func (q *quick) boolean() (b, ok bool) {
	for _, word := range [...]string{"true", "false"} {
		if end := q.at + len(word); end <= len(q.text) && string(q.text[q.at:end]) == word {
			q.at = end
			return word == "true", true
		}
	}
	q.gaveUp = true
	return false, false
}

func (q *quick) value() ([]byte, bool) {
	start := q.at
	q.pass(0)
	return q.text[start:q.at], !q.gaveUp
}

// pass passes over a value. Deep ones are left to the library.
func (q *quick) pass(depth int) {
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
	default: // null, which no answer of ours needs
		q.gaveUp = true
	}
}

// ended tells whether nothing is left.
func (q *quick) ended() bool { return !q.gaveUp && q.byte() == 0 && q.at == len(q.text) }
