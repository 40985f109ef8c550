package wire

import (
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
	skip()
	sound() bool // whether the text can be read on

	report(e FieldError, more ...string) // an error about the value at hand, or about more in it
	// listing tells whether another error would be listed, and so is worth a search for
	// what was meant.
	listing() bool
}

// A Decoder reads one JSON text into a wire type. It reports every unknown, duplicate,
// wrong-case, null, wrong-type and out-of-bounds member and goes on; only bytes that are
// not one JSON text stop it.
//
// Most bodies have nothing to report. They are read by a quick reader of our own; when
// that one gives up, the body is read once more by the JSON library.
type Decoder struct {
	source
	quick  quick
	tokens tokens
	kept   []byte // room for texts
}

var decoders = sync.Pool{New: func() any { return new(Decoder) }}

// Decode reads body into into, of which t is the table. The errors of single members
// come back as one refusal, which the caller may add to.
func Decode[T any](body []byte, t *Table, into *T) *Refusal {
	if t.Of != reflect.TypeFor[T]() {
		panic("wire: the table is of another type") // and would write where it must not
	}
	d := decoders.Get().(*Decoder)
	defer decoders.Put(d)
	if d.DecodeQuickly(body, t, unsafe.Pointer(into)) {
		return nil
	}
	*into = *new(T)
	return d.DecodeStrictly(body, t, unsafe.Pointer(into))
}

// DecodeQuickly tells whether the body could be read, and had nothing to report.
func (d *Decoder) DecodeQuickly(body []byte, t *Table, into unsafe.Pointer) bool {
	d.quick = quick{text: body}
	d.source = &d.quick
	t.read(d, into)
	return d.quick.ended()
}

func (d *Decoder) DecodeStrictly(body []byte, t *Table, into unsafe.Pointer) *Refusal {
	d.tokens.reset(body)
	d.source = &d.tokens
	if d.tokens.blank() {
		return &Refusal{Kind: NotJSON, Wording: "empty_body"}
	}
	t.read(d, into)
	return d.tokens.refused()
}

// expect tells whether the next value is of the wanted kind. If not, it reports
// null or the wrong type, and passes over the value. more is for the words of the
// type, problem.wrong_type_<typeName>.
func (d *Decoder) expect(want jsontext.Kind, typeName string, more ...any) bool {
	switch got := d.kind(); {
	case got == 0:
		return false
	case got == want, want == jsontext.KindTrue && got == jsontext.KindFalse:
		return true
	case got == jsontext.KindNull:
		d.report(FieldError{Code: "null_value"})
	default:
		d.report(FieldError{Code: "wrong_type", Wording: "wrong_type_" + typeName, Args: more})
	}
	d.skip()
	return false
}

// expectString, expectNumber and expectBoolean read a value that is to be one.
func (d *Decoder) expectString() (s []byte, ok bool) {
	if !d.expect(jsontext.KindString, "string") {
		return nil, false
	}
	return d.string()
}

func (d *Decoder) expectNumber() (x float64, ok bool) {
	if !d.expect(jsontext.KindNumber, "number") {
		return 0, false
	}
	return d.number()
}

func (d *Decoder) expectBoolean() (b, ok bool) {
	if !d.expect(jsontext.KindTrue, "boolean") {
		return false, false
	}
	return d.boolean()
}

// keep copies a text out of the body. Short ones share memory: a sheet has many labels.
func (d *Decoder) keep(b []byte) string {
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
