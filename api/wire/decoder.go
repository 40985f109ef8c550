package wire

import (
	"bytes"
	"reflect"
	"sync"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"
)

// A source is one JSON text that is read value by value, and takes what is wrong with the
// values. Once the text cannot be read on, nothing more comes from it.
type source interface {
	kind() jsontext.Kind // of the next value: one of { } [ ] " 0 t f n, or 0 when none comes
	begin()              // passes over the bracket of an object or array that kind has seen
	// member reads the name of the next member of an object, and finds it among names,
	// from next on first; i is -1 when it is none of them. ok is false at the end.
	member(names []string, next int) (i int, name []byte, ok bool)
	item(i int) bool // whether an item of an array comes, the one with the index i
	// string returns the bytes without quotes and escapes, valid until the next read.
	string() (s []byte, ok bool)
	number() (x float64, ok bool) // infinite where it is too large for a double
	boolean() (b, ok bool)
	value() (text []byte, ok bool) // passes over a value; its text stays in the body
	// quantity reads a whole {value, unit}, whose bracket comes next. ok is false where it
	// is to be read member by member: most of a request is quantities.
	quantity() (value float64, symbol []byte, ok bool)
	skip()
	readable() bool // whether the text can be read on

	report(e FieldError, more ...string) // an error about the value at hand, or about more in it
	// listing tells whether another error would be listed, and so is worth a search for
	// what was meant.
	listing() bool
}

// A decoder reads one JSON text into a wire type. It reports every unknown, duplicate,
// wrong-case, null, wrong-type and out-of-bounds member and goes on; only bytes that are
// not one JSON text stop it.
//
// Most bodies have nothing to report. They are read by a quick reader of our own; when
// that one gives up, the body is read once more by the JSON library.
type decoder struct {
	source
	quick  quickReader
	strict strictReader
	texts  []byte // memory that short texts share
}

var decoders = sync.Pool{New: func() any { return new(decoder) }}

// Decode reads body into into, of which t is the table. The errors of single members
// come back as one refusal, which the caller may add to; nil when there are none.
func Decode[T any](body []byte, t *Table, into *T) *Refusal {
	if t.Of != reflect.TypeFor[T]() {
		panic("wire: the table is of another type") // and would write where it must not
	}
	d := decoders.Get().(*decoder)
	defer func() {
		d.quick.text = nil // what a client sent is not kept
		decoders.Put(d)
	}()
	if d.decodeQuickly(body, t, unsafe.Pointer(into)) {
		return nil
	}
	*into = *new(T)
	return d.decodeStrictly(body, t, unsafe.Pointer(into))
}

// decodeQuickly tells whether the quick reader could read the body: only then is into whole.
func (d *decoder) decodeQuickly(body []byte, t *Table, into unsafe.Pointer) bool {
	d.quick = quickReader{text: body}
	d.source = &d.quick
	t.read(d, into)
	return d.quick.ended()
}

func (d *decoder) decodeStrictly(body []byte, t *Table, into unsafe.Pointer) *Refusal {
	if len(bytes.TrimSpace(body)) == 0 {
		return &Refusal{Kind: NotJSON, Wording: "empty_body"}
	}
	d.strict.reset(body)
	defer d.strict.reset(nil)
	d.source = &d.strict
	t.read(d, into)
	return d.strict.refusal()
}

// expect tells whether the next value is of the wanted kind. If not, it reports
// null or the wrong type, and passes over the value. args are for the words of the
// type, wording.wrong_type_<typeName>.
func (d *decoder) expect(want jsontext.Kind, typeName string, args ...any) bool {
	switch got := d.kind(); {
	case got == 0:
		return false
	case got == want, want == jsontext.KindTrue && got == jsontext.KindFalse:
		return true
	case got == jsontext.KindNull:
		d.report(FieldError{Code: "null_value"})
	default:
		d.report(FieldError{Code: "wrong_type", Wording: "wrong_type_" + typeName, Args: args})
	}
	d.skip()
	return false
}

// expectString, expectNumber and expectBoolean read a value that is to be one.
func (d *decoder) expectString() (s []byte, ok bool) {
	if !d.expect(jsontext.KindString, "string") {
		return nil, false
	}
	return d.string()
}

func (d *decoder) expectNumber() (x float64, ok bool) {
	if !d.expect(jsontext.KindNumber, "number") {
		return 0, false
	}
	return d.number()
}

func (d *decoder) expectBoolean() (b, ok bool) {
	if !d.expect(jsontext.KindTrue, "boolean") {
		return false, false
	}
	return d.boolean()
}

// keep copies a text out of the body. Short ones share memory: a sheet has many labels.
func (d *decoder) keep(b []byte) string {
	const room = 256
	if len(b) > room/4 {
		return string(b)
	}
	if cap(d.texts)-len(d.texts) < len(b) {
		d.texts = make([]byte, 0, room)
	}
	start := len(d.texts)
	d.texts = append(d.texts, b...)
	return unsafe.String(unsafe.SliceData(d.texts[start:]), len(b)) // nobody writes there again
}
