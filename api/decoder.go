package api

import (
	"bytes"
	"errors"
	"io"
	"sync"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// mostErrors is how many errors one problem lists.
const mostErrors = 100

// A decoder reads one JSON text, token by token, into a wire type. It reports
// every unknown, duplicate, wrong-case, null, wrong-type and out-of-bounds member
// and goes on; only bytes that are not one JSON text stop it.
type decoder struct {
	input  bytes.Buffer
	tokens jsontext.Decoder
	path   []segment
	errors []FieldError
	broken *refusal
}

var decoders = sync.Pool{New: func() any { return new(decoder) }}

// strict reads duplicates too, so that they can be reported with their pointer.
var strict = jsontext.AllowDuplicateNames(true)

// decode reads body into into. The errors of single members come back as one
// refusal, which the caller may add to.
func decode[T any](body []byte, o *object[T], into *T) *refusal {
	d := decoders.Get().(*decoder)
	defer decoders.Put(d)
	d.input = *bytes.NewBuffer(body) // jsontext reads a Buffer in place
	d.tokens.Reset(&d.input, strict)
	d.path, d.errors, d.broken = d.path[:0], nil, nil
	if len(bytes.TrimSpace(body)) == 0 {
		return &refusal{kind: notJSON, wording: "empty_body"}
	}
	readObject(d, o, into)
	if d.broken == nil {
		if _, err := d.tokens.ReadToken(); err != io.EOF {
			d.broken = &refusal{kind: notJSON, args: []any{d.tokens.InputOffset()}}
		}
	}
	switch {
	case d.broken != nil:
		return d.broken
	case len(d.errors) > 0:
		return &refusal{kind: invalidRequest, fields: d.errors}
	}
	return nil
}

// fail records that the bytes are not JSON from here on. Text nested deeper than
// the reader follows is refused as a member instead.
func (d *decoder) fail(err error) {
	if d.broken != nil {
		return
	}
	const deepest = 10_000 // of jsontext
	if d.tokens.StackDepth() >= deepest {
		d.report(FieldError{Code: "too_deep"})
		d.broken = &refusal{kind: invalidRequest, fields: d.errors}
		return
	}
	offset := d.tokens.InputOffset()
	var syntax *jsontext.SyntacticError
	if errors.As(err, &syntax) {
		offset = syntax.ByteOffset
	}
	d.broken = &refusal{kind: notJSON, args: []any{offset}}
}

// report adds an error about the value at the present path.
func (d *decoder) report(e FieldError, more ...string) {
	if len(d.errors) < mostErrors {
		e.Pointer = pointerTo(d.path, more...)
		d.errors = append(d.errors, e)
	}
}

// peek returns the kind of the next token: one of { } [ ] " 0 t f n, or 0 when
// the text is broken.
func (d *decoder) peek() jsontext.Kind {
	if d.broken != nil {
		return 0
	}
	k := d.tokens.PeekKind()
	if k == jsontext.KindInvalid {
		_, err := d.tokens.ReadToken()
		d.fail(err)
		return 0
	}
	return k
}

func (d *decoder) skip() {
	if err := d.tokens.SkipValue(); err != nil {
		d.fail(err)
	}
}

// expect tells whether the next value is of the wanted kind. If not, it reports
// null or the wrong type, and passes over the value. more is for the words of the
// type, problem.wrong_type_<typeName>.
func (d *decoder) expect(want jsontext.Kind, typeName string, more ...any) bool {
	switch got := d.peek(); {
	case got == 0:
		return false
	case got == want, want == jsontext.KindTrue && got == jsontext.KindFalse:
		return true
	case got == jsontext.KindNull:
		d.report(FieldError{Code: "null_value"})
	default:
		d.report(FieldError{Code: "wrong_type", wording: "wrong_type_" + typeName, args: more})
	}
	d.skip()
	return false
}

// raw reads a string and returns its bytes without quotes, valid until the next
// read; escapes are resolved.
func (d *decoder) raw() ([]byte, bool) {
	v, err := d.tokens.ReadValue()
	if err != nil {
		d.fail(err)
		return nil, false
	}
	if bytes.IndexByte(v, '\\') < 0 {
		return v[1 : len(v)-1], true
	}
	s, err := jsontext.AppendUnquote(nil, v)
	return s, err == nil
}

// number reads a JSON number; one too large for a double comes back infinite.
func (d *decoder) number() (x float64, ok bool) {
	if !d.expect(jsontext.KindNumber, "number") {
		return 0, false
	}
	token, err := d.tokens.ReadToken()
	if err != nil {
		d.fail(err)
		return 0, false
	}
	x, _ = token.Float() // the error means infinite, and no bounds hold that
	return x, true
}

// text reads a string of at most most characters.
func (d *decoder) text(most int) (string, bool) {
	if !d.expect(jsontext.KindString, "string") {
		return "", false
	}
	b, ok := d.raw()
	if !ok {
		return "", false
	}
	if utf8.RuneCount(b) > most {
		limit := float64(most)
		d.report(FieldError{Code: "too_long", Limit: &limit, args: []any{most}})
		return "", false
	}
	return string(b), true
}
