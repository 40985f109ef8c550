// Package method is the register of the formulas by which the operations compute: their
// symbols, where they hold and where they are from. What computes does not need it.
package method

import "wetrun/calc/unit"

// A Method is one formula by which an operation computes, with its symbols and its
// source. Its title, its domain and what its symbols mean are worded elsewhere, by
// ID, Domain and Meaning.
type Method struct {
	// ID is stable and in snake_case, in the trade's own terms.
	ID string
	// Formula is one equation: the symbol of the result, = and an expression of
	// numbers, + - * / ^, parentheses and functions, such as sqrt(x), or t_quantile(p, nu)
	// for what a table gives. A symbol that ends in _i is one of a list, over which sum,
	// min and max go. It holds in any coherent units.
	Formula string
	Domain  string // a key in snake_case
	Symbols []Symbol
	Source  Source // the zero one is common practice, no published source
	// SourceNotRead tells that the formula was read in no source.
	SourceNotRead bool
	// Operations are the paths of the operations whose answers it is used in.
	Operations []string
}

// A Symbol is one symbol of a formula.
type Symbol struct {
	Symbol string
	// Meaning is a key in snake_case, the same wherever the same is meant.
	Meaning string
	// Kind is the quantity; none for a count, an exponent or another plain number, and
	// for what is of whatever quantity the request has.
	Kind unit.Kind
}

// All lists the methods. The list is the caller's own, its items are shared.
func All() []Method { return append([]Method(nil), methods[:]...) }

// Of returns one method, not to be changed.
func Of(id ID) *Method { return &methods[id] }

// A row is a method beside its name in this program.
type row struct {
	id ID
	Method
}

// A group is the methods of one file. Those that name no operations are used in all of
// the group's.
type group struct {
	operations []string
	rows       []row
}

func table(groups ...group) (all [Count]Method) {
	for _, g := range groups {
		for _, row := range g.rows {
			all[row.id] = row.Method
			if row.Operations == nil {
				all[row.id].Operations = g.operations
			}
		}
	}
	return all
}
