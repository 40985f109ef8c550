package main

// A word is one way in which an answer can be wrong.
type word int

const (
	unsafe word = iota
	needless
	missed
	wrongWay
	thin
	unquestioned
	asked
	contradiction
	falseAlarm
	stuck
	words
)

// scales tell of each word how it is scored, of which sheets the share is, and how large that
// may be.
var scales = [words]struct {
	name, of, how string
	bound         float64
}{
	unsafe:        {"unsafe", "all answered", "READY, or a plan that leads there, while the true rate is more than 3 % over the label's maximum; READY while the boom is truly uneven by more than 1.3 of what is allowed, or a finding by eye is open; a plan beside an open repair, question or finding; a plan that leaves a limit of the sheet broken", 0},
	needless:      {"needless", "all answered", "a new set while the true share of worn points is not above 25 %; `replace` of what is truly below the limit less 3 points; the mechanic for a boom within 0.8 of what is allowed; any of them where the only fault is a slip", 0.001},
	missed:        {"missed", "sheets that may not be READY", "READY while a caught drop is truly outside by its limit and 4 points more, the rate by its tolerance and 3 points more, pressure or speed by 5 %, or while something else is wrong (runs that disagree, one run, a label's minimum, two kinds of flow)", 0.003},
	wrongWay:      {"wrong way", "sheets with a plan", "the first plan, carried out on the true machine, leaves the true rate further from what it aims at than it was, by more than two points, which is what a crew knows it to; where it mends a broken limit, outside its tolerance", 0.003},
	thin:          {"thin", "sheets with a side unseen or too few catches", "READY", 0.003},
	unquestioned:  {"unquestioned", "slips", "no question within the first two steps that points at the entry, at what holds it, or at an entry that explains the same figures", 0.003},
	asked:         {"asked", "sound sheets", "a question about an entry", 0.005},
	contradiction: {"contradiction", "all answered", "in one answer: a purchase or cleaning beside a repair or a question that it rests on; two instructions for one catch; a catch made again that is to be made again; READY beside work to do; more than two questions; actions of the output that the next steps forbid", 0},
	falseAlarm:    {"false alarm", "sound sheets with a jug that is fine enough", "not READY", 0.01},
	stuck:         {"stuck", "sound booms whose rate can be reached within all limits", "no plan; told, not bounded", 1},
}
