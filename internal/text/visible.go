package text

import (
	"strings"
	"unicode"
)

// Visible is what a caller wrote, safe to show at a terminal and on a page: without the
// control characters that move a cursor or begin an escape sequence, and without those that
// turn the direction of the text around it. A line break or a tab becomes a space, so that
// a label cannot pass for a line of ours.
func Visible(s string) string {
	if strings.IndexFunc(s, Hidden) < 0 {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r) && Hidden(r):
			return ' '
		case Hidden(r):
			return -1
		}
		return r
	}, s)
}

// Hidden tells of controls (C0, DEL, C1), line and paragraph separators, and the marks,
// overrides and isolates of the bidirectional algorithm (Unicode UAX #9, Bidi_Control).
func Hidden(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Zl, unicode.Zp, unicode.Bidi_Control)
}
