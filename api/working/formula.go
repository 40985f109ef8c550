package working

import "strings"

// A formula is the right side of that of a method, read once for all answers. It
// can be written with numbers in the place of its symbols, and it tells in which
// unit its value then comes out.
//
// The syntax is that of the document: numbers, + - * / ^, parentheses and the functions
// of that name. A symbol that ends in _i stands for a list.
type formula struct {
	op   byte // one of + - * / ^, or 'n' number, 's' symbol, 'f' function, '(' parentheses
	text string
	args []*formula
}

// formulaReader reads a formula by recursive descent.
type formulaReader struct{ rest string }

// readFormula panics at what is no formula: they are all ours.
func readFormula(text string) *formula {
	r := &formulaReader{text}
	f := r.sum()
	if r.rest != "" {
		panic("working: a formula that cannot be read: " + text)
	}
	return f
}

// take takes the next character if it is one of those.
func (r *formulaReader) take(any string) byte {
	r.rest = strings.TrimLeft(r.rest, " ")
	if r.rest == "" || strings.IndexByte(any, r.rest[0]) < 0 {
		return 0
	}
	c := r.rest[0]
	r.rest = r.rest[1:]
	return c
}

func (r *formulaReader) sum() *formula {
	f := r.product()
	for c := r.take("+-"); c != 0; c = r.take("+-") {
		f = &formula{op: c, args: []*formula{f, r.product()}}
	}
	return f
}

func (r *formulaReader) product() *formula {
	f := r.power()
	for c := r.take("*/"); c != 0; c = r.take("*/") {
		f = &formula{op: c, args: []*formula{f, r.power()}}
	}
	return f
}

func (r *formulaReader) power() *formula {
	f := r.primary()
	if r.take("^") != 0 {
		return &formula{op: '^', args: []*formula{f, r.power()}}
	}
	return f
}

func (r *formulaReader) primary() *formula {
	if r.take("(") != 0 {
		f := &formula{op: '(', args: []*formula{r.sum()}}
		r.take(")")
		return f
	}
	n := 0
	for n < len(r.rest) && strings.IndexByte(" +-*/^(),", r.rest[n]) < 0 {
		n++
	}
	word := r.rest[:n]
	r.rest = r.rest[n:]
	switch {
	case word == "":
		panic("working: a formula lacks an operand before " + r.rest)
	case word[0] >= '0' && word[0] <= '9':
		return &formula{op: 'n', text: word}
	case r.take("(") == 0:
		return &formula{op: 's', text: word}
	}
	f := &formula{op: 'f', text: word, args: []*formula{r.sum()}}
	for r.take(",") != 0 {
		f.args = append(f.args, r.sum())
	}
	r.take(")")
	if fn, known := Functions[word]; !known || fn.Arguments != 0 && fn.Arguments != len(f.args) {
		panic("working: no function " + word + " of so many arguments")
	}
	return f
}
