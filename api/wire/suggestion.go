package wire

import (
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// shortestStart is how much of a name has to be there to be taken for its start.
const shortestStart = 4

// nearest returns the known name closest to what was written, or the only one that
// begins with it, or nothing when none is close. A long name is not compared, so the
// work is bounded.
func nearest(name string, known []string) string {
	const longest = 40
	if len(name) > longest || !utf8.ValidString(name) {
		return ""
	}
	best, closest := 3, ""
	lower := strings.ToLower(name)
	for _, k := range known {
		d := levenshtein.ComputeDistance(lower, strings.ToLower(k))
		if d < best && d*3 <= len(k) {
			best, closest = d, k
		}
	}
	if closest != "" || len(name) < shortestStart {
		return closest
	}
	for _, k := range known {
		if !strings.HasPrefix(strings.ToLower(k), lower) {
			continue
		}
		if closest != "" {
			return ""
		}
		closest = k
	}
	return closest
}

// Enumeration lists alternatives as a sentence would: a, b, c.
func Enumeration(list []string) string { return strings.Join(list, ", ") }
