package text_test

import (
	"testing"

	"wetrun/internal/text"
)

func TestVisible(t *testing.T) {
	for in, want := range map[string]string{
		"":                               "",
		"bed 1, left":                    "bed 1, left",
		"Hilera ñandú ½ 左":               "Hilera ñandú ½ 左",
		"\x1b[2J\x1b[31mred":             "[2J[31mred",
		"\u009b2Jone\u0085two":           "2Jone two",
		"bell\a, null\x00, delete\x7f":   "bell, null, delete",
		"READY\n NOT\r\nREADY\tnow":      "READY  NOT  READY now",
		"one\u2028two\u2029three":        "one two three",
		"a\u202Ab\u202Bc\u202Cd\u202De":  "abcde",
		"\u202Etxt\u2066a\u2067b\u2068c": "txtabc",
		"\u2069a\u200Eb\u200Fc\u061Cd":   "abcd",
	} {
		if got := text.Visible(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}
