package calc

import (
	"math"
	"strconv"
	"strings"
)

// A Violation is one reason why an input cannot be computed.
type Violation struct {
	// Field is the Go path of the field, such as Catches[2].Volume. It may name
	// a field that is missing.
	Field string
	// Code is stable and in snake_case, one of the Code constants.
	Code string
	// Because is the Go path of the field, given in the input, that makes this one
	// required or that this one conflicts with. Empty when there is no other.
	Because string
	// Instead lists, by commas, the fields that would stand in for a required one.
	Instead string
	// Allowed lists, a line each, the values that the field may have, where they
	// depend on the input.
	Allowed string
}

// Codes of violations that any function may report.
const (
	CodeRequired      = "required"       // the field is missing and nothing stands in for it
	CodeNotPositive   = "not_positive"   // zero or less where only more than zero makes sense
	CodeNotFinite     = "not_finite"     // NaN or infinite
	CodeTooFew        = "too_few"        // fewer items than the calculation needs
	CodeTooMany       = "too_many"       // more items than it takes
	CodeConflict      = "conflict"       // given together with something that already says it
	CodeRangeInverted = "range_inverted" // low is above high
	CodeNotAllowed    = "not_allowed"    // not one of the values that the field may have
)

// Invalid is the error of this package: all violations of one input.
type Invalid []Violation

// Error lists the fields and codes.
func (v Invalid) Error() string {
	parts := make([]string, len(v))
	for i, x := range v {
		parts[i] = x.Field + ": " + x.Code
	}
	return "calc: " + strings.Join(parts, "; ")
}

// under puts prefix before every path, for a function that checks a part of its
// input with the part's own check.
func (v Invalid) under(prefix string) Invalid {
	out := make(Invalid, len(v))
	for i, x := range v {
		x.Field = prefix + "." + x.Field
		if x.Because != "" {
			x.Because = prefix + "." + x.Because
		}
		if x.Instead != "" {
			x.Instead = prefix + "." + strings.ReplaceAll(x.Instead, ",", ","+prefix+".")
		}
		out[i] = x
	}
	return out
}

// err returns nil, not an empty Invalid, when nothing is wrong.
func (v Invalid) err() error {
	if len(v) == 0 {
		return nil
	}
	return v
}

func (v *Invalid) add(field, code string) { *v = append(*v, Violation{Field: field, Code: code}) }

// conflict reports a field that may not stand beside another.
func (v *Invalid) conflict(field, other string) {
	*v = append(*v, Violation{Field: field, Code: CodeConflict, Because: other})
}

// needed reports a missing field that another one cannot be used without.
func (v *Invalid) needed(field, by string) {
	*v = append(*v, Violation{Field: field, Code: CodeRequired, Because: by})
}

// neededOr reports a missing field that others would stand in for.
func (v *Invalid) neededOr(field, instead string) {
	*v = append(*v, Violation{Field: field, Code: CodeRequired, Instead: instead})
}

// positiveFor checks a quantity that by, which is given, cannot be used without. It
// may be left out when by is empty.
func (v *Invalid) positiveFor(x float64, field, by string) {
	if x == 0 && by != "" {
		v.needed(field, by)
		return
	}
	v.optional(x, field)
}

// positiveOr checks a quantity that must be given unless one of others stands in for
// it.
func (v *Invalid) positiveOr(x float64, field, instead string) {
	if x == 0 {
		v.neededOr(field, instead)
		return
	}
	v.optional(x, field)
}

// positive checks a quantity that must be given, finite and above zero.
func (v *Invalid) positive(x float64, field string) {
	switch {
	case x == 0:
		v.add(field, CodeRequired)
	default:
		v.optional(x, field)
	}
}

// optional checks a quantity that may be left out.
func (v *Invalid) optional(x float64, field string) {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		v.add(field, CodeNotFinite)
	case x < 0:
		v.add(field, CodeNotPositive)
	}
}

// sound tells whether x is a quantity that may stand: finite and not below zero.
// Loops ask it first, so that a path is built only for what is wrong.
func sound(x float64) bool { return x >= 0 && x <= math.MaxFloat64 }

// at builds the path of a member of a list item.
func at(list string, i int, member string) string {
	return item(list, i) + "." + member
}

// item builds the path of a list item itself.
func item(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

// A Warning is something unusual in an input that could be computed all the same.
type Warning struct {
	Field string // Go path
	Code  string // snake_case, stable
}

// given is the name of a field where it is given, for positiveFor.
func given(is bool, name string) string {
	if is {
		return name
	}
	return ""
}
