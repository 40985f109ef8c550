package finding

import (
	"slices"
	"strings"
)

// A Violation is one reason why an input cannot be computed.
type Violation struct {
	// Place is the member that is wrong, or missing.
	Place Place
	// Code is stable and in snake_case, one of the Code constants.
	Code string
	// Because is the member, given in the input, that makes this one required or that
	// this one conflicts with. Zero when there is no other.
	Because Place
	// Instead are the members that would stand in for a required one.
	Instead []Place
	// Allowed are the values that the member may have, where they depend on the input.
	Allowed []string
}

// Codes of violations that any function may report.
const (
	CodeRequired      = "required"       // the member is missing and nothing stands in for it
	CodeNotPositive   = "not_positive"   // zero or less where only more than zero makes sense
	CodeNotFinite     = "not_finite"     // NaN or infinite
	CodeTooFew        = "too_few"        // fewer items than the calculation needs
	CodeTooMany       = "too_many"       // more items than it takes
	CodeConflict      = "conflict"       // given together with something that already says it
	CodeRangeInverted = "range_inverted" // low is above high
	CodeNotAllowed    = "not_allowed"    // not one of the values that the member may have
)

// Equal tells whether v and w say the same of the same place.
func (v Violation) Equal(w Violation) bool {
	return v.Code == w.Code && v.Place.Equal(w.Place) && v.Because.Equal(w.Because) &&
		slices.EqualFunc(v.Instead, w.Instead, Place.Equal) && slices.Equal(v.Allowed, w.Allowed)
}

// Moved is v with all its places moved.
func (v Violation) Moved(moves []Move) Violation {
	v.Place = v.Place.Moved(moves)
	if !v.Because.IsZero() {
		v.Because = v.Because.Moved(moves)
	}
	v.Instead = slices.Clone(v.Instead)
	for i, p := range v.Instead {
		v.Instead[i] = p.Moved(moves)
	}
	return v
}

// Invalid is the error of a function that cannot compute: all violations of one input.
type Invalid []Violation

// Error lists the places and codes.
func (v Invalid) Error() string {
	parts := make([]string, len(v))
	for i, x := range v {
		parts[i] = x.Place.String() + ": " + x.Code
	}
	return "calc: " + strings.Join(parts, "; ")
}

// Err is v, or nil, not an empty Invalid, when nothing is wrong.
func (v Invalid) Err() error {
	if len(v) == 0 {
		return nil
	}
	return v
}

// Under puts front before every place, for a function that checks a part of its
// input with the part's own check.
func (v Invalid) Under(front Place) Invalid {
	if len(v) == 0 {
		return nil
	}
	return v.Moved([]Move{{To: front}})
}

// Moved is v with every place moved as Place.Moved does.
func (v Invalid) Moved(moves []Move) Invalid {
	if len(v) == 0 {
		return nil
	}
	out := make(Invalid, len(v))
	for i, x := range v {
		out[i] = x.Moved(moves)
	}
	return out
}

// A Warning is something unusual in an input that could be computed all the same.
type Warning struct {
	Place Place
	Code  string // snake_case, stable
}
