package wire

import (
	"reflect"
	"unicode/utf8"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"
)

// LongestLabel is how many characters a text may have.
const LongestLabel = 80

func readText(d *Decoder, p unsafe.Pointer) {
	s, ok := d.expectString()
	switch {
	case !ok:
	case utf8.RuneCount(s) > LongestLabel:
		limit := float64(LongestLabel)
		d.report(FieldError{Code: "too_long", Limit: &limit, Args: []any{LongestLabel}})
	default:
		*(*string)(p) = d.keep(s)
	}
}

// readFlag reads true or false into a pointer, so that missing is not false.
func readFlag(d *Decoder, p unsafe.Pointer) {
	if b, ok := d.expectBoolean(); ok {
		*(**bool)(p) = &b
	}
}

// readUntouched reads an object that is read later, by another table. It stays in the
// memory of the body.
func readUntouched(d *Decoder, p unsafe.Pointer) {
	if !d.expect(jsontext.KindBeginObject, "batch_request") {
		return
	}
	if v, ok := d.value(); ok {
		*(*jsontext.Value)(p) = v
	}
}

// wordReader reads one of a few words into a string.
func wordReader(allowed []string) reader {
	return func(d *Decoder, p unsafe.Pointer) {
		if i := d.word(allowed); i >= 0 {
			*(*string)(p) = allowed[i]
		}
	}
}

// numberedWordReader reads one of a few words as its number.
func numberedWordReader(allowed []string) reader {
	return func(d *Decoder, p unsafe.Pointer) {
		if i := d.word(allowed); i >= 0 {
			*(*uint8)(p) = uint8(i)
		}
	}
}

// word reads one of a few words and returns which; -1 for none of them.
func (d *Decoder) word(allowed []string) int {
	raw, ok := d.expectString()
	if !ok {
		return -1
	}
	for i, a := range allowed {
		if string(raw) == a {
			return i
		}
	}
	d.report(FieldError{Code: "not_allowed", Allowed: allowed, Args: []any{Words(allowed)}})
	return -1
}

// countReader reads a whole number in a range.
func countReader(least, most int) reader {
	return func(d *Decoder, p unsafe.Pointer) {
		x, ok := d.expectNumber()
		switch {
		case !ok:
		case x < float64(least):
			limit := float64(least)
			d.report(FieldError{Code: "too_small", Limit: &limit, Args: []any{Figure(limit, "")}})
		case x > float64(most):
			limit := float64(most)
			d.report(FieldError{Code: "too_large", Limit: &limit, Args: []any{Figure(limit, "")}})
		case x != float64(int(x)):
			d.report(FieldError{Code: "wrong_type", Wording: "wrong_type_integer"})
		default:
			*(*int)(p) = int(x)
		}
	}
}

// optionalReader reads what stands behind a pointer, so that being there says something
// by itself.
func optionalReader(of reflect.Type, read reader) reader {
	return func(d *Decoder, p unsafe.Pointer) {
		value := reflect.New(of).UnsafePointer()
		*(*unsafe.Pointer)(p) = value
		read(d, value)
	}
}

// usualItems is how many items a list has room for at first.
const usualItems = 16

// listReader reads an array of least to most items into a slice; what is over is passed
// over and reported.
func listReader(of reflect.Type, least, most int, read reader) reader {
	return func(d *Decoder, p unsafe.Pointer) {
		list := reflect.NewAt(of, p).Elem()
		list.Grow(usualItems)
		if !d.expect(jsontext.KindBeginArray, "array") {
			return
		}
		d.begin()
		n := 0
		for ; d.item(n); n++ {
			if n >= most {
				d.skip()
				continue
			}
			if n == list.Cap() {
				list.Grow(1)
			}
			list.SetLen(n + 1)
			read(d, list.Index(n).Addr().UnsafePointer())
		}
		if d.sound() {
			d.length(n, least, most)
		}
	}
}

func (d *Decoder) length(n, least, most int) {
	if n < least {
		limit := float64(least)
		d.report(FieldError{Code: "too_few", Limit: &limit, Args: []any{least}})
	}
	if n > most {
		limit := float64(most)
		d.report(FieldError{Code: "too_many", Limit: &limit, Args: []any{most}})
	}
}
