package api

import "strconv"

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
