package finding

import (
	"iter"
	"strconv"
	"strings"
)

// A Place says where in an input something was found: names of members as they stand on
// the wire, and items of lists, from the outside in. The zero Place is the whole input.
//
// A place of one step takes no memory of its own and each further one a little, so what
// is asked of every input is asked with places of one step, and longer ones are built
// where something is wrong or once at start.
type Place struct {
	_    [0]func() // further steps lie behind a pointer: == would not compare them, so it does not compile
	name string
	item int    // of the list of that name, counted from one; zero for the member itself
	rest *Place // further in; nil at the end
}

// Member is the member of a name.
func Member(name string) Place { return Place{name: name} }

// Item is the item i, counted from zero, of the list of a name.
func Item(list string, i int) Place { return Place{name: list, item: i + 1} }

// Member is the member of a name within p.
func (p Place) Member(name string) Place { return Member(name).Under(p) }

// Item is the item i, counted from zero, of the list of a name within p.
func (p Place) Item(list string, i int) Place { return Item(list, i).Under(p) }

// Under puts front before p: what p says of a part, said of the whole that has the part
// at front.
func (p Place) Under(front Place) Place {
	switch {
	case front.IsZero():
		return p
	case p.IsZero():
		return front
	}
	rest := p
	if front.rest != nil {
		rest = p.Under(*front.rest)
	}
	return Place{name: front.name, item: front.item, rest: &rest}
}

// IsZero tells whether p is the whole input.
func (p Place) IsZero() bool { return p.name == "" }

// Part is the name of the outermost step.
func (p Place) Part() string { return p.name }

// Equal tells whether p and q are the same place.
func (p Place) Equal(q Place) bool {
	rest, ok := p.After(q)
	return ok && rest.IsZero()
}

// After is what of p lies behind front. ok tells whether p is front or lies within it.
func (p Place) After(front Place) (rest Place, ok bool) {
	for !front.IsZero() {
		if p.name != front.name || p.item != front.item {
			return Place{}, false
		}
		p, front = p.inner(), front.inner()
	}
	return p, true
}

// ItemOf tells which item of a list p is or lies within, and where in it. ok is false
// for a place that is in none.
func (p Place) ItemOf(list Place) (i int, rest Place, ok bool) {
	for list.rest != nil {
		if p.name != list.name || p.item != list.item {
			return 0, Place{}, false
		}
		p, list = p.inner(), list.inner()
	}
	if p.name != list.name || p.item == 0 {
		return 0, Place{}, false
	}
	return p.item - 1, p.inner(), true
}

func (p Place) inner() Place {
	if p.rest == nil {
		return Place{}
	}
	return *p.rest
}

// Steps yields the names of p from the outside in, each with the item of the list of that
// name, or -1 where it is the member itself.
func (p Place) Steps() iter.Seq2[string, int] {
	return func(yield func(name string, item int) bool) {
		for at := &p; at != nil && at.name != "" && yield(at.name, at.item-1); at = at.rest {
		}
	}
}

// String is p as people write it: catches[2].volume.
func (p Place) String() string {
	var b strings.Builder
	for name, item := range p.Steps() {
		if b.Len() > 0 {
			b.WriteByte('.')
		}
		b.WriteString(name)
		if item >= 0 {
			b.WriteString("[" + strconv.Itoa(item) + "]")
		}
	}
	return b.String()
}

// A Move takes what is at From or within it to To.
type Move struct{ From, To Place }

// Moved makes the first of the moves that fits p, if any does. Every place is within the
// zero Place.
func (p Place) Moved(moves []Move) Place {
	for _, m := range moves {
		if rest, ok := p.After(m.From); ok {
			return rest.Under(m.To)
		}
	}
	return p
}
