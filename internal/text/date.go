package text

import (
	"fmt"
	"strings"
	"time"
)

var spanishMonths = strings.Fields("enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre")

// Date words a day written YYYY-MM-DD for people, in the long form of CLDR: March 1, 2027
// and 1 de marzo de 2027. What is no such day comes back as it is.
func (l Language) Date(iso string) string {
	day, err := time.Parse(time.DateOnly, iso)
	switch {
	case err != nil:
		return iso
	case l == English:
		return day.Format("January 2, 2006")
	}
	return fmt.Sprintf("%d de %s de %d", day.Day(), spanishMonths[day.Month()-1], day.Year())
}
