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
	best, near := 3, ""
	lower := strings.ToLower(name)
	for _, k := range known {
		d := levenshtein.ComputeDistance(lower, strings.ToLower(k))
		if d < best && d*3 <= len(k) {
			best, near = d, k
		}
	}
	if near != "" || len(name) < shortestStart {
		return near
	}
	for _, k := range known {
		if !strings.HasPrefix(strings.ToLower(k), lower) {
			continue
		}
		if near != "" {
			return ""
		}
		near = k
	}
	return near
}

// Words lists alternatives as a sentence would: a, b, c.
func Words(list []string) string { return strings.Join(list, ", ") }
