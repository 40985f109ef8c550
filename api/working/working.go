// Package working says how an answer was computed: the methods of each, and where it was
// asked for a line for each of its numbers, the formula with the numbers put in. It reads
// the formulas of calc/method, and knows no operation.
package working

import "strconv"

// Explained is what every answer says of its own making: the methods always, the
// working when it was asked for.
type Explained struct {
	Methods MethodSet     `json:"methods"`
	Working []workingLine `json:"working,omitzero"`
}

// Working is how one answer, or a part of it, was computed. Each line tells its method;
// where the working was not asked for nothing more is kept of it, and nothing is to be
// computed for it.
type Working struct {
	*notes
	MethodsOnly bool
	path        string // in the answer, of the members that the lines name
}

// notes are what all parts of an answer have in common.
type notes struct {
	methods   MethodSet
	sources   uint32 // of uncertainty whose methods are among them, a bit each
	lines     []*Line
	explained map[any]bool // by pointer: what has its lines already
}

// New begins the working of an answer.
func New(shows bool) Working {
	return Working{&notes{}, !shows, "#"}
}

// Part is the working of a part of the answer.
func (w Working) Part(path string) Working {
	if !w.MethodsOnly {
		w.path += path
	}
	return w
}

// Item is the working of an item of a list of the answer.
func (w Working) Item(list string, i int) Working {
	if w.MethodsOnly {
		return w
	}
	return w.itemOf(list, i)
}

func (w Working) itemOf(list string, i int) Working { return w.Part(list + "/" + strconv.Itoa(i)) }

// TakeMethods are the methods used since they were taken last.
func (w Working) TakeMethods() MethodSet {
	used := w.methods
	w.methods, w.sources = MethodSet{}, 0
	return used
}

// Answer is what the answer says of its own making.
func (w Working) Answer() Explained {
	return Explained{Methods: w.methods, Working: w.Written()}
}

// once is the working of what many members rest on, known by a pointer: it has lines the
// first time, and methods each time.
func (w Working) once(pointer any) Working {
	switch {
	case w.MethodsOnly:
	case w.explained[pointer]:
		w.MethodsOnly = true
	case w.explained == nil:
		w.explained = map[any]bool{pointer: true}
	default:
		w.explained[pointer] = true
	}
	return w
}

// Written are the lines as they stand in the answer, the intermediate ones once each, even
// where two of them differ in digits that are not written.
func (w Working) Written() []workingLine {
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
