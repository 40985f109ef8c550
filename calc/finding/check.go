package finding

import (
	"math"
	"slices"
)

// Add reports a member.
func (v *Invalid) Add(place Place, code string) {
	*v = append(*v, Violation{Place: place, Code: code})
}

// Conflict reports a member that may not stand beside another.
func (v *Invalid) Conflict(place, other Place) {
	*v = append(*v, Violation{Place: place, Code: CodeConflict, Because: other})
}

// RequiredBy reports a missing member that another one cannot be used without.
func (v *Invalid) RequiredBy(place, by Place) {
	*v = append(*v, Violation{Place: place, Code: CodeRequired, Because: by})
}

// RequiredUnless reports a missing member that others would stand in for.
func (v *Invalid) RequiredUnless(place Place, instead ...Place) {
	*v = append(*v, Violation{Place: place, Code: CodeRequired, Instead: instead})
}

// Positive checks a quantity that must be given, finite and above zero.
func (v *Invalid) Positive(x float64, place Place) {
	if x == 0 {
		v.Add(place, CodeRequired)
		return
	}
	v.Optional(x, place)
}

// PositiveFor checks a quantity that by, which is given, cannot be used without. It may
// be left out when by is the zero Place.
func (v *Invalid) PositiveFor(x float64, place, by Place) {
	if x == 0 && !by.IsZero() {
		v.RequiredBy(place, by)
		return
	}
	v.Optional(x, place)
}

// PositiveOr checks a quantity that must be given unless one of others stands in for it.
func (v *Invalid) PositiveOr(x float64, place Place, instead ...Place) {
	if x == 0 {
		v.RequiredUnless(place, slices.Clone(instead)...)
		return
	}
	v.Optional(x, place)
}

// Optional checks a quantity that may be left out, which zero says: finite and not below
// zero when given.
func (v *Invalid) Optional(x float64, place Place) {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		v.Add(place, CodeNotFinite)
	case x < 0:
		v.Add(place, CodeNotPositive)
	}
}

// PositiveIn is Positive for a member of the item i of a list, whose place is built only
// where something is wrong.
func (v *Invalid) PositiveIn(x float64, list string, i int, member string) {
	if !Valid(x) || x == 0 {
		v.Positive(x, Item(list, i).Member(member))
	}
}

// OptionalIn is Optional in the same way.
func (v *Invalid) OptionalIn(x float64, list string, i int, member string) {
	if !Valid(x) {
		v.Optional(x, Item(list, i).Member(member))
	}
}

// Given is a member where it is given and the zero Place where not, for PositiveFor.
func Given(is bool, name string) Place {
	if is {
		return Member(name)
	}
	return Place{}
}

// First is the first of the places that is not zero.
func First(places ...Place) Place {
	for _, p := range places {
		if !p.IsZero() {
			return p
		}
	}
	return Place{}
}

// Valid tells whether x is a quantity that may stand: finite and not below zero.
func Valid(x float64) bool { return x >= 0 && x <= math.MaxFloat64 }
