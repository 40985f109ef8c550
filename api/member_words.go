package api

import "github.com/go-json-experiment/json/jsontext"

// wordList is a member that is an array of least to most words out of a few.
func wordList[T any](name string, at func(*T) *[]string, least, most int, allowed ...string) member[T] {
	word := oneOf("", func(s *string) *string { return s }, allowed...)
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			if !d.expect(jsontext.KindBeginArray, "array") {
				return
			}
			d.tokens.ReadToken()
			items := at(into)
			n := 0
			for k := d.peek(); k != jsontext.KindEndArray && k != 0; k = d.peek() {
				if n++; n > most {
					d.skip()
					continue
				}
				var item string
				d.path = append(d.path, segment{index: n - 1})
				word.read(d, &item)
				d.path = d.path[:len(d.path)-1]
				*items = append(*items, item)
			}
			if d.broken != nil {
				return
			}
			d.tokens.ReadToken()
			d.length(n, least, most)
		},
		shape: shape{Type: "array", Low: float64(least), High: float64(most), Allowed: allowed},
	}
}
