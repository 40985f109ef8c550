package wire

import (
	"reflect"
	"unicode/utf8"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"
)

// LongestLabel is how many characters a text may have.
const LongestLabel = 80

// readText reads text that is repeated in the answer, such as a label.
func readText(d *decoder, p unsafe.Pointer) {
	s, ok := d.expectString()
	switch {
	case !ok:
	case utf8.RuneCount(s) > LongestLabel:
		d.report(beyond("too_long", LongestLabel, LongestLabel))
	default:
		*(*string)(p) = d.keep(s)
	}
}

// readBoolean reads true or false into a pointer, so that missing is not false.
func readBoolean(d *decoder, p unsafe.Pointer) {
	if b, ok := d.expectBoolean(); ok {
		*(**bool)(p) = &b
	}
}

// readRaw passes over an object that another table reads later. It stays in the memory of
// the body.
func readRaw(d *decoder, p unsafe.Pointer) {
	if !d.expect(jsontext.KindBeginObject, "batch_request") {
		return
	}
	if v, ok := d.value(); ok {
		*(*jsontext.Value)(p) = v
	}
}

// wordReader reads one of a few words into a string.
func wordReader(allowed []string) reader {
	return func(d *decoder, p unsafe.Pointer) {
		if i := d.word(allowed); i >= 0 {
			*(*string)(p) = allowed[i]
		}
	}
}

// numberedWordReader reads one of a few words as its number among them.
func numberedWordReader(allowed []string) reader {
	return func(d *decoder, p unsafe.Pointer) {
		if i := d.word(allowed); i >= 0 {
			*(*uint8)(p) = uint8(i)
		}
	}
}

// word reads one of a few words and returns which; -1 for none of them.
func (d *decoder) word(allowed []string) int {
	raw, ok := d.expectString()
	if !ok {
		return -1
	}
	for i, a := range allowed {
		if string(raw) == a {
			return i
		}
	}
	d.report(FieldError{Code: "not_allowed", Allowed: allowed, Args: []any{Enumeration(allowed)}})
	return -1
}

// countReader reads a whole number in a range.
func countReader(least, most int) reader {
	return func(d *decoder, p unsafe.Pointer) {
		x, ok := d.expectNumber()
		switch {
		case !ok:
		case x < float64(least):
			d.report(beyond("too_small", float64(least), Figure(float64(least), "")))
		case x > float64(most):
			d.report(beyond("too_large", float64(most), Figure(float64(most), "")))
		case x != float64(int(x)):
			d.report(FieldError{Code: "wrong_type", Wording: "wrong_type_integer"})
		default:
			*(*int)(p) = int(x)
		}
	}
}

// optionalReader reads a value into a pointer, so that one that is there differs from none.
func optionalReader(of reflect.Type, read reader) reader {
	return func(d *decoder, p unsafe.Pointer) {
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
	return func(d *decoder, p unsafe.Pointer) {
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
		if d.readable() {
			d.checkLength(n, least, most)
		}
	}
}

func (d *decoder) checkLength(n, least, most int) {
	if n < least {
		d.report(beyond("too_few", float64(least), least))
	}
	if n > most {
		d.report(beyond("too_many", float64(most), most))
	}
}
