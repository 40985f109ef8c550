package wire

import (
	"strings"
	"testing"
)

// TestPlainStrings puts each byte at each place of strings of several lengths.
func TestPlainStrings(t *testing.T) {
	for length := range 27 {
		if s := strings.Repeat("~ ", length)[:length]; !plain(s) {
			t.Errorf("%q is not plain", s)
		}
		for at := range length {
			for c := range 256 {
				b := []byte(strings.Repeat("a", length))
				b[at] = byte(c)
				if want := c >= ' ' && c < 0x80 && c != '"' && c != '\\'; plain(string(b)) != want {
					t.Fatalf("%q: plain is %v", b, !want)
				}
			}
		}
	}
}
