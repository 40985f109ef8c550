package api

import (
	"strconv"

	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// Explained is what every answer says of its own making: the methods always, the
// working when it was asked for.
type Explained struct {
	Methods methodSet     `json:"methods"`
	Working []workingLine `json:"working,omitzero"`
}

// working is how one answer, or a part of it, was computed. Each line tells its method;
// where the working was not asked for nothing more is kept of it, and nothing is to be
// computed for it.
type working struct {
	*notes
	methodsOnly bool
	path        string // in the answer, of the members that the lines name
}

// notes are what all parts of an answer have in common.
type notes struct {
	methods   methodSet
	sources   uint32 // of uncertainties, whose methods are among them
	lines     []*line
	explained map[any]bool // by pointer: what has its lines already
}

// explaining begins the working of an answer.
func explaining(shows bool) working {
	return working{&notes{}, !shows, "#"}
}

// part is the working of a part of the answer.
func (w working) part(path string) working {
	if !w.methodsOnly {
		w.path += path
	}
	return w
}

// item is the working of an item of a list of the answer.
func (w working) item(list string, i int) working {
	if w.methodsOnly {
		return w
	}
	return w.itemOf(list, i)
}

func (w working) itemOf(list string, i int) working { return w.part(list + "/" + strconv.Itoa(i)) }

// takeMethods are the methods used since they were taken last.
func (w working) takeMethods() methodSet {
	used := w.methods
	w.methods, w.sources = methodSet{}, 0
	return used
}

// answer is what the answer says of all that.
func (w working) answer() Explained {
	return Explained{Methods: w.methods, Working: w.written()}
}

// A line is one computed number before it is written.
type line struct {
	method   method.ID
	member   string
	result   Quantity
	operands []operand
	once     bool
}

// An operand is what goes in the place of a symbol: one quantity, or those of a list.
type operand struct {
	symbol     string
	quantities []Quantity
	terms      []term
}

// line adds the line of a member; without one, of a number between that no member has.
// It is nil where no line is wanted. Like what goes on a line it is so short that the
// compiler puts it in the place of the call: then the methods alone cost next to nothing.
func (w working) line(id method.ID, member string, result Quantity) (l *line) {
	w.methods[id>>6] |= 1 << (id & 63)
	if w.methodsOnly {
		return
	}
	return w.begin(id, member, result)
}

//go:noinline
func (w working) begin(id method.ID, member string, result Quantity) *line {
	if member != "" {
		member = w.path + member
	}
	l := &line{method: id, member: member, result: result}
	w.lines = append(w.lines, l)
	return l
}

// intermediate adds the line of a number between that several members rest on: it is
// written where it comes first.
func (w working) intermediate(id method.ID, result Quantity) *line {
	l := w.line(id, "", result)
	if l != nil {
		l.once = true
	}
	return l
}

// with puts a quantity in the place of a symbol.
func (l *line) with(symbol string, q Quantity) *line {
	if l == nil {
		return nil
	}
	return l.put(symbol, []Quantity{q})
}

// each puts a list in the place of a symbol that ends in _i.
func (l *line) each(symbol string, list []Quantity) *line {
	if l == nil {
		return nil
	}
	return l.put(symbol, list)
}

// both puts a list of two in.
func (l *line) both(symbol string, a, b Quantity) *line {
	if l == nil {
		return nil
	}
	return l.put(symbol, []Quantity{a, b})
}

// count puts a whole number in.
func (l *line) count(symbol string, n int) *line { return l.number(symbol, float64(n)) }

// number puts a plain number in, such as an exponent.
func (l *line) number(symbol string, x float64) *line {
	if l == nil {
		return nil
	}
	return l.put(symbol, []Quantity{{Value: x}})
}

//go:noinline
func (l *line) put(symbol string, quantities []Quantity) *line {
	l.operands = append(l.operands, operand{symbol: symbol, quantities: quantities})
	return l
}

func plainNumber[T ~int | ~float64](x T) Quantity { return Quantity{Value: float64(x)} }

// dimensionless is a plain number of an answer as the result of a line.
func dimensionless[T ~int | ~float64](x T) Quantity { return Quantity{float64(x), unit.IDOne} }

// listed are the quantities of some items for the place of a symbol; none where no line
// is wanted.
func listed[T any](w working, items []T, quantity func(*T) Quantity) []Quantity {
	if w.methodsOnly {
		return nil
	}
	all := make([]Quantity, len(items))
	for i := range items {
		all[i] = quantity(&items[i])
	}
	return all
}

// once is the working of what many members rest on, known by a pointer: it has lines the
// first time, and methods each time.
func (w working) once(pointer any) working {
	switch {
	case w.methodsOnly:
	case w.explained[pointer]:
		w.methodsOnly = true
	case w.explained == nil:
		w.explained = map[any]bool{pointer: true}
	default:
		w.explained[pointer] = true
	}
	return w
}

// written are the lines; of the numbers between each once, even where two of them
// differ in digits that are not written.
func (w working) written() []workingLine {
	if len(w.lines) == 0 {
		return nil
	}
	all := make([]workingLine, 0, len(w.lines))
	known := map[string]bool{}
	repeats := func(key string) bool {
		before := known[key]
		known[key] = true
		return before
	}
	for _, l := range w.lines {
		if l.once && repeats(string(l.appendKey(nil))) {
			continue
		}
		if a := l.write(); !l.once || !repeats(a.Method+a.Substituted) {
			all = append(all, a)
		}
	}
	return all
}

// conversion adds the line of a quantity that is answered in another unit than it was
// given in.
func (w working) conversion(member string, result, given Quantity) {
	if result.Unit != given.Unit {
		w.line(method.UnitConversion, member, result).with("x", given)
	}
}
