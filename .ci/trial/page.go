package main

import (
	"fmt"
	"strings"
)

// page is the table with how each word is scored.
func page(sheets int, seed uint64, table string) string {
	var b strings.Builder
	b.WriteString(`# Trial of decisions

Sprayers whose truth is known, measured with a crew's errors, each as a whole field sheet; the answer is scored by the truth. All
of it is invented. A kind with a star is a machine in order by more than a crew can be mistaken.

`)
	fmt.Fprintf(&b, "```sh\ngo run ./.ci/trial -write    # %d sheets, seed %d, into this file\n```\n\n", sheets, seed)
	b.WriteString("| word | scored | share of | at most |\n| --- | --- | --- | --- |\n")
	for w, x := range scales {
		fmt.Fprintf(&b, "| %s | %s | %s | %s |\n", x.name, x.how, x.of, atMost(word(w)))
	}
	b.WriteString("\nA refused sheet fails its kind.\n\n" + table)
	return b.String()
}
