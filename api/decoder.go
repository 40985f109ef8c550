package api

import (
	"bytes"
	"errors"
	"reflect"
	"sync"
	"unicode/utf8"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"
)

// mostErrors is how many errors one problem lists.
const mostErrors = 100

// A decoder reads one JSON text, token by token, into a wire type. It reports
// every unknown, duplicate, wrong-case, null, wrong-type and out-of-bounds member
// and goes on; only bytes that are not one JSON text stop it.
//
// Most bodies have nothing to report. They are read by a quick reader of our own; when
// that one gives up, the body is read once more by the JSON library.
type decoder struct {
	quickly bool // with quick, not with tokens
	quick   quick
	input   bytes.Buffer
	tokens  jsontext.Decoder
	kept    []byte // room for texts
	path    []segment
	errors  []FieldError
	broken  *refusal
}

var decoders = sync.Pool{New: func() any { return new(decoder) }}

// strict reads duplicates too, so that they can be reported with their pointer.
var strict = jsontext.AllowDuplicateNames(true)

// gaveUp is what breaks off a quick reading.
var gaveUp = new(refusal)

// decode reads body into into, of which t is the table. The errors of single members
// come back as one refusal, which the caller may add to.
func decode[T any](body []byte, t *table, into *T) *refusal {
	if t.of != reflect.TypeFor[T]() {
		panic("api: the table is of another type") // and would write where it must not
	}
	d := decoders.Get().(*decoder)
	defer decoders.Put(d)
	if d.decodeQuickly(body, t, unsafe.Pointer(into)) {
		return nil
	}
	*into = *new(T)
	return d.decodeStrictly(body, t, unsafe.Pointer(into))
}

// decodeQuickly tells whether the body could be read, and had nothing to report.
func (d *decoder) decodeQuickly(body []byte, t *table, into unsafe.Pointer) bool {
	d.quickly, d.quick = true, quick{text: body}
	d.path, d.broken = d.path[:0], nil
	t.read(d, into)
	return d.broken == nil && d.quick.ended()
}

func (d *decoder) decodeStrictly(body []byte, t *table, into unsafe.Pointer) *refusal {
	d.quickly = false
	d.quick.text = body
	d.input = *bytes.NewBuffer(body) // jsontext reads a Buffer in place
	d.tokens.Reset(&d.input, strict)
	d.path, d.errors, d.broken = d.path[:0], nil, nil
	if len(bytes.TrimSpace(body)) == 0 {
		return &refusal{kind: notJSON, wording: "empty_body"}
	}
	t.read(d, into)
	if d.broken == nil {
		if more := bytes.TrimLeft(body[d.tokens.InputOffset():], " \t\r\n"); len(more) > 0 {
			d.broken = brokenAt(body, int64(len(body)-len(more)))
			if more[0] == '{' {
				d.broken.wording = secondText
			}
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
	d.broken = brokenAt(d.quick.text, offset)
}

// secondText words that another text follows the one that was asked for, and
// secondTextInLine what that means in a batch.
const (
	secondText       = "second_text"
	secondTextInLine = "second_text_in_line"
)

// brokenAt refuses a body that is no JSON from an offset on, and says the place as
// editors do too: line and column, counted from 1.
func brokenAt(body []byte, offset int64) *refusal {
	before := body[:min(int(offset), len(body))]
	line := bytes.LastIndexByte(before, '\n') + 1
	return &refusal{kind: notJSON, args: []any{offset, bytes.Count(before, []byte{'\n'}) + 1, utf8.RuneCount(before[line:]) + 1}}
}

// report adds an error about the value at the present path.
func (d *decoder) report(e FieldError, more ...string) {
	if d.quickly {
		d.broken = gaveUp
		return
	}
	if len(d.errors) < mostErrors {
		e.Pointer = pointerTo(d.path, more...)
		d.errors = append(d.errors, e)
	}
}

// listens tells whether another error would be listed, and so is worth a search for what
// was meant.
func (d *decoder) listens() bool { return !d.quickly && len(d.errors) < mostErrors }

// peek returns the kind of the next token: one of { } [ ] " 0 t f n, or 0 when
// the text is broken.
func (d *decoder) peek() jsontext.Kind {
	if d.broken != nil {
		return 0
	}
	if d.quickly {
		k := d.quick.kind()
		if !d.going() {
			return 0
		}
		return k
	}
	k := d.tokens.PeekKind()
	if k == jsontext.KindInvalid {
		_, err := d.tokens.ReadToken()
		d.fail(err)
		return 0
	}
	return k
}

// going tells whether the text can be read on.
func (d *decoder) going() bool {
	if d.quick.lost && d.quickly && d.broken == nil {
		d.broken = gaveUp
	}
	return d.broken == nil
}

// enter and leave keep the path of what may be reported, which is nothing quickly.
func (d *decoder) enter(s segment) {
	if !d.quickly {
		d.path = append(d.path, s)
	}
}

func (d *decoder) leave() {
	if !d.quickly {
		d.path = d.path[:len(d.path)-1]
	}
}

// begin reads the bracket of an object or array that peek has seen.
func (d *decoder) begin() {
	if d.quickly {
		d.quick.begin()
		return
	}
	_, _ = d.tokens.ReadToken() // cannot fail after peek
}

// name reads the name of an object's next member, as raw does. ok is false when the
// object has ended, or the text is broken.
func (d *decoder) name() (name []byte, ok bool) {
	if d.quickly {
		if ok = d.broken == nil && d.quick.more('}'); ok {
			name = d.quick.name()
		}
		return name, d.going() && ok
	}
	if d.peek() == jsontext.KindString {
		return d.raw()
	}
	d.end()
	return nil, false
}

// more tells whether an array goes on with another item.
func (d *decoder) more() bool {
	if d.quickly {
		ok := d.broken == nil && d.quick.more(']')
		return d.going() && ok
	}
	if k := d.peek(); k != jsontext.KindEndArray {
		return k != 0
	}
	d.end()
	return false
}

// end reads the bracket that closes an object or array.
func (d *decoder) end() {
	if d.broken != nil {
		return
	}
	if _, err := d.tokens.ReadToken(); err != nil {
		d.fail(err)
	}
}

func (d *decoder) skip() {
	if d.quickly {
		d.broken = gaveUp
		return
	}
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
	if d.quickly {
		s := d.quick.string()
		return s, d.going()
	}
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
	if d.quickly {
		x = d.quick.number()
		return x, d.going()
	}
	token, err := d.tokens.ReadToken()
	if err != nil {
		d.fail(err)
		return 0, false
	}
	x, _ = token.Float() // the error means infinite, and no bounds hold that
	return x, true
}

// boolean reads true or false.
func (d *decoder) boolean() (b, ok bool) {
	if !d.expect(jsontext.KindTrue, "boolean") {
		return false, false
	}
	if d.quickly {
		b = d.quick.boolean()
		return b, d.going()
	}
	token, err := d.tokens.ReadToken()
	if err != nil { // "fals" begins like false
		d.fail(err)
		return false, false
	}
	return token.Bool(), true
}

// value passes over a value and returns its text, which stays in the body.
func (d *decoder) value() ([]byte, bool) {
	if d.quickly {
		v := d.quick.value(0)
		return v, d.going()
	}
	v, err := d.tokens.ReadValue()
	if err != nil {
		d.fail(err)
	}
	return v, err == nil
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
	return d.keep(b), true
}

// keep copies a text out of the body. Short ones share memory: a sheet has many labels.
func (d *decoder) keep(b []byte) string {
	const room = 256
	if len(b) > room/4 {
		return string(b)
	}
	if cap(d.kept)-len(d.kept) < len(b) {
		d.kept = make([]byte, 0, room)
	}
	start := len(d.kept)
	d.kept = append(d.kept, b...)
	return unsafe.String(unsafe.SliceData(d.kept[start:]), len(b)) // nobody writes there again
}
