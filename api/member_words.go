package api

// wordList is a member that is an array of least to most words out of a few.
func wordList[T any](name string, at func(*T) *[]string, least, most int, allowed ...string) member[T] {
	word := oneOf("", func(s *string) *string { return s }, allowed...)
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			items := at(into)
			d.items(least, most, func(int) {
				var item string
				word.read(d, &item)
				*items = append(*items, item)
			})
		},
		shape: shape{Type: "array", Low: float64(least), High: float64(most), Allowed: allowed},
	}
}
