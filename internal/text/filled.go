package text

import (
	"strconv"
	"strings"
)

// A template is a text cut at its arguments once, so that filling them in is a few
// appends. The printer would take the text apart each time.
type template []piece

// A piece is some text and the argument behind it.
type piece struct {
	before string
	number int  // of the argument, from 1; 0 at the end of the text
	verb   byte // s or d
}

// templateOf cuts a text at %[1]s, %[2]d and the like, and takes %% for a percent
// sign; nil for one with other verbs, which is left to the printer.
func templateOf(s string) (t template) {
	var before string
	for {
		part, rest, more := strings.Cut(s, "%")
		before += part
		if !more {
			return append(t, piece{before: before})
		}
		if strings.HasPrefix(rest, "%") {
			before, s = before+"%", rest[1:]
			continue
		}
		if len(rest) < 4 || rest[0] != '[' || rest[1] < '1' || rest[1] > '9' || rest[2] != ']' || rest[3] != 's' && rest[3] != 'd' {
			return nil
		}
		t = append(t, piece{before, int(rest[1] - '0'), rest[3]})
		before, s = "", rest[4:]
	}
}

// An Argument is what a text takes in: a word, or a whole number.
type Argument struct {
	word  string
	whole int64
	verb  byte // as that of a piece
}

// Word is an argument that is worded already.
func Word(s string) Argument { return Argument{word: s, verb: 's'} }

// Whole is an argument that is a whole number.
func Whole(n int) Argument { return Argument{whole: int64(n), verb: 'd'} }

// Filled is Of for the texts that answers have most: it allocates the answer alone.
func Filled(lang Language, key string, args ...Argument) string {
	if s, ok := templates[key][lang].fill(lang, args); ok {
		return s
	}
	all := make([]any, len(args))
	for i, a := range args {
		all[i] = a.word
		if a.verb == 'd' {
			all[i] = a.whole
		}
	}
	return Of(lang, key, all...)
}

// argumentsOf reads the arguments of Of; false for those that take the printer.
func (l Language) argumentsOf(args []any) (all []Argument, ok bool) {
	all = make([]Argument, len(args))
	for i, a := range args {
		switch a := a.(type) {
		case string:
			all[i] = Word(a)
		case Figure:
			all[i] = Word(l.Figure(a))
		case int:
			all[i] = Whole(a)
		case int64:
			all[i] = Argument{whole: a, verb: 'd'}
		default:
			return nil, false
		}
	}
	return all, true
}

// fill puts the arguments in; false where a text has other ones.
func (t template) fill(l Language, args []Argument) (string, bool) {
	var used uint16
	var buffer [512]byte
	b := buffer[:0]
	for _, p := range t {
		b = append(b, p.before...)
		if p.number == 0 {
			break
		}
		if p.number > len(args) || args[p.number-1].verb != p.verb {
			return "", false
		}
		used |= 1 << p.number
		if a := &args[p.number-1]; p.verb == 's' {
			b = append(b, a.word...)
		} else {
			b = l.appendWhole(b, a.whole)
		}
	}
	return string(b), t != nil && used == 1<<(len(args)+1)-2
}

// appendWhole writes a whole number as the language does: English with commas
// between groups of three, Spanish without any.
func (l Language) appendWhole(b []byte, x int64) []byte {
	if l != English || -1000 < x && x < 1000 {
		return strconv.AppendInt(b, x, 10)
	}
	digits := strconv.FormatInt(x, 10)
	for i := range len(digits) {
		if left := len(digits) - i; i > 0 && left%3 == 0 && digits[i-1] != '-' {
			b = append(b, ',')
		}
		b = append(b, digits[i])
	}
	return b
}
