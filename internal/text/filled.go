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

// fill puts the arguments in; false where it takes the printer: arguments that are
// neither strings, figures nor whole numbers, too few of them, or too many.
func (t template) fill(l Language, args []any) (string, bool) {
	if t == nil {
		return "", false
	}
	used := uint16(0)
	room := [512]byte{}
	b := room[:0]
	for _, p := range t {
		b = append(b, p.before...)
		if p.number == 0 {
			break
		}
		if p.number > len(args) {
			return "", false
		}
		used |= 1 << p.number
		switch a := args[p.number-1].(type) {
		case string:
			if p.verb != 's' {
				return "", false
			}
			b = append(b, a...)
		case Figure:
			if p.verb != 's' {
				return "", false
			}
			b = append(b, l.figure(a)...)
		case int:
			if p.verb != 'd' {
				return "", false
			}
			b = l.appendWhole(b, int64(a))
		case int64:
			if p.verb != 'd' {
				return "", false
			}
			b = l.appendWhole(b, a)
		default:
			return "", false
		}
	}
	if used != 1<<(len(args)+1)-2 {
		return "", false
	}
	return string(b), true
}

// appendWhole writes a whole number as the language does: English with commas
// between groups of three, Spanish without any.
func (l Language) appendWhole(b []byte, x int64) []byte {
	if l == Spanish || -1000 < x && x < 1000 {
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
