package wire

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/calc/unit"
)

// What a member of a request takes follows from the type of its field and these tags:
//
//	json:"name"          its name on the wire
//	validate:"required"  it must be there
//	is:"volume"          the quantity of a Quantity or of a unit's symbol, or several by
//	                     commas, or "any"; of a Range that of both its ends; "currency"
//	                     or "pointer" of a string
//	zero:"true"          0 is a reading too, of a Quantity or of each of a list, such as an
//	                     empty cup: left out it would not be known; on an embedded struct
//	                     the member of which that is so
//	len:"1..100"         how many items a list has
//	range:"1..1000"      what a whole number may be
//
// A string without a tag is text of at most LongestLabel characters. A type with a method
// Words takes one of them, which the decoder checks, not a tag of the validator: its
// omitempty,oneof takes the empty text, which the schema does not. A list of such a type
// takes at most as many as there are.
// Members come in the order of the fields; those of an embedded struct stand in its place.
//
// A field that does not fit stops the program at its start.

// A taggedField is a field of a request while its member is made.
type taggedField struct {
	reflect.StructField
	key  tableKey
	used []string // tags that have been looked at
}

func (f *taggedField) fail(why string) { panic(fmt.Sprintf("wire: %v.%s: %s", f.key.of, f.Name, why)) }

func (f *taggedField) take(tag string) string {
	f.used = append(f.used, tag)
	return f.Tag.Get(tag)
}

// checkTags finds tags that nothing asked for.
func (f *taggedField) checkTags() {
	for _, tag := range strings.Fields(string(f.Tag)) {
		if name, _, _ := strings.Cut(tag, ":"); !slices.Contains(f.used, name) {
			f.fail("it has no use for the tag " + name)
		}
	}
}

// takes is what a value of the type of the field takes, or one of its items.
func (f *taggedField) takes(t reflect.Type) (reader, Shape) {
	switch t {
	case reflect.TypeFor[Quantity]():
		kinds, least := f.kinds(), SmallestValue
		switch zero := f.take("zero"); {
		case zero == "true", f.key.zero == MemberName(f.StructField):
			least = 0
		case zero != "":
			f.fail("zero is true or nothing")
		}
		return quantityReader(kinds, least), Shape{Type: "quantity", Kinds: kinds, Low: least}
	case reflect.TypeFor[unit.ID]():
		kinds := f.kinds()
		return unitReader(kinds), Shape{Type: "string", Allowed: kinds.symbols()}
	case reflect.TypeFor[Number]():
		return readNumber, Shape{Type: "number", Low: SmallestValue, High: LargestValue}
	case reflect.TypeFor[time.Time]():
		return readDate, Shape{Type: "string", Format: "date", Pattern: datePattern}
	case reflect.TypeFor[*bool]():
		return readBoolean, Shape{Type: "boolean"}
	case reflect.TypeFor[jsontext.Value]():
		return readRaw, Shape{Type: "object"}
	}
	if list, ok := reflect.Zero(t).Interface().(interface{ Words() []string }); ok {
		words := list.Words()
		if t.Kind() == reflect.Uint8 {
			return numberedWordReader(words), Shape{Type: "string", Allowed: words}
		}
		return wordReader(words), Shape{Type: "string", Allowed: words}
	}
	switch t.Kind() {
	case reflect.String:
		switch is := f.take("is"); is {
		case "currency":
			return readCurrency, Shape{Type: "string", Pattern: currencyPattern}
		case "pointer":
			return readPointer, Shape{Type: "string", Pattern: pointerPattern, High: LongestLabel}
		case "":
		default:
			f.fail("a string is no " + is)
		}
		return readText, Shape{Type: "string", High: LongestLabel}
	case reflect.Int:
		least, most := f.bounds("range")
		return countReader(least, most), Shape{Type: "integer", Low: float64(least), High: float64(most)}
	case reflect.Struct:
		inner := tableWith(tableKey{of: t, is: f.take("is")})
		return inner.read, inner.Shape()
	case reflect.Pointer:
		read, inner := f.takes(t.Elem())
		return optionalReader(t.Elem(), read), inner
	case reflect.Slice:
		read, item := f.takes(t.Elem())
		least, most := 1, len(item.Allowed)
		if most == 0 {
			least, most = f.bounds("len")
		}
		item.Type, item.Low, item.High = "array", float64(least), float64(most)
		return listReader(t, least, most, read), item
	}
	f.fail("no request has a member of that type")
	return nil, Shape{}
}

// kinds reads which quantities are meant.
func (f *taggedField) kinds() (set KindSet) {
	is := cmp.Or(f.take("is"), f.key.is)
	for name := range strings.SplitSeq(is, ",") {
		before := set
		for _, u := range unit.All() {
			if name == "any" || name == u.Quantity.String() {
				set |= 1 << u.Quantity
			}
		}
		if set == before {
			f.fail("it has no tag is that names quantities")
		}
	}
	return set
}

// bounds reads a tag such as 1..100.
func (f *taggedField) bounds(tag string) (least, most int) {
	low, high, _ := strings.Cut(f.take(tag), "..")
	least, wrongLow := strconv.Atoi(low)
	most, wrongHigh := strconv.Atoi(high)
	if wrongLow != nil || wrongHigh != nil || least > most {
		f.fail("it has no tag " + tag + ` such as "1..100"`)
	}
	return least, most
}
