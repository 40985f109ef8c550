package text_test

import (
	"fmt"
	"testing"

	"wetrun/internal/text"
)

// TestDates: the long date of the Unicode CLDR (https://cldr.unicode.org), MMMM d, y in en
// and d 'de' MMMM 'de' y in es, with its wide names of months. The names are from memory.
func TestDates(t *testing.T) {
	for i, month := range [...][2]string{
		{"January", "enero"}, {"February", "febrero"}, {"March", "marzo"}, {"April", "abril"}, {"May", "mayo"}, {"June", "junio"},
		{"July", "julio"}, {"August", "agosto"}, {"September", "septiembre"}, {"October", "octubre"}, {"November", "noviembre"}, {"December", "diciembre"},
	} {
		for _, day := range []int{1, 28} {
			iso := fmt.Sprintf("2027-%02d-%02d", i+1, day)
			english, spanish := fmt.Sprintf("%s %d, 2027", month[0], day), fmt.Sprintf("%d de %s de 2027", day, month[1])
			for l, want := range map[text.Language]string{text.English: english, text.Spanish: spanish, text.PointSpanish: spanish} {
				if got := l.Date(iso); got != want {
					t.Errorf("%s, %s: %q, want %q", iso, l.Tag(), got, want)
				}
			}
		}
	}
	for _, other := range []string{"", "-", "2027-02-29", "2027-13-01", "March 1, 2027"} {
		if got := text.Spanish.Date(other); got != other {
			t.Errorf("%q: %q", other, got)
		}
	}
}
