package wire

import (
	"bytes"
	"errors"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// MostErrors is how many errors one problem lists.
const MostErrors = 100

// A strictReader reads by the JSON library, which knows all of JSON and says where a text
// breaks off. It lists what is wrong with the values, each with its pointer.
type strictReader struct {
	text    []byte
	input   bytes.Buffer
	library jsontext.Decoder
	depth   int       // how many objects and arrays are open
	path    []segment // of the value at hand, one for each of them
	errors  []FieldError
	broken  *Refusal // why nothing more can be read; nil as long as it can
}

// withDuplicates reads duplicates too, so that they can be reported with their pointer.
var withDuplicates = jsontext.AllowDuplicateNames(true)

func (s *strictReader) reset(body []byte) {
	s.text = body
	s.input = *bytes.NewBuffer(body) // jsontext reads a Buffer in place
	s.library.Reset(&s.input, withDuplicates)
	s.path, s.depth, s.errors, s.broken = s.path[:0], 0, nil, nil
}

// refusal is what is wrong with the whole text, after all of it has been read; nil for nothing.
func (s *strictReader) refusal() *Refusal {
	if s.broken == nil {
		if more := bytes.TrimLeft(s.text[s.library.InputOffset():], " \t\r\n"); len(more) > 0 {
			s.broken = brokenAt(s.text, int64(len(s.text)-len(more)))
			if more[0] == '{' {
				s.broken.Wording = secondText
			}
		}
	}
	switch {
	case s.broken != nil:
		return s.broken
	case len(s.errors) > 0:
		return &Refusal{Kind: InvalidRequest, Fields: s.errors}
	}
	return nil
}

func (s *strictReader) quantity() (value float64, symbol []byte, ok bool) { return 0, nil, false }

// fail records that the bytes are not JSON from here on. Text nested deeper than
// the reader follows is refused as a member instead.
func (s *strictReader) fail(err error) {
	if s.broken != nil {
		return
	}
	const deepest = 10_000 // of jsontext
	if s.library.StackDepth() >= deepest {
		s.report(FieldError{Code: "too_deep"})
		s.broken = &Refusal{Kind: InvalidRequest, Fields: s.errors}
		return
	}
	offset := s.library.InputOffset()
	var syntax *jsontext.SyntacticError
	if errors.As(err, &syntax) {
		offset = syntax.ByteOffset
	}
	s.broken = brokenAt(s.text, offset)
}

// brokenAt refuses a body that is no JSON from an offset on, and says the place as
// editors do too: line and column, counted from 1.
func brokenAt(body []byte, offset int64) *Refusal {
	before := body[:min(int(offset), len(body))]
	line := bytes.LastIndexByte(before, '\n') + 1
	return &Refusal{Kind: NotJSON, Args: []any{offset, bytes.Count(before, []byte{'\n'}) + 1, utf8.RuneCount(before[line:]) + 1}}
}

func (s *strictReader) readable() bool { return s.broken == nil }

func (s *strictReader) report(e FieldError, more ...string) {
	if s.listing() {
		e.Pointer = pathPointer(s.path, more...)
		s.errors = append(s.errors, e)
	}
}

func (s *strictReader) listing() bool { return len(s.errors) < MostErrors }

func (s *strictReader) kind() jsontext.Kind {
	if s.broken != nil {
		return 0
	}
	k := s.library.PeekKind()
	if k == jsontext.KindInvalid {
		_, err := s.library.ReadToken()
		s.fail(err)
		return 0
	}
	return k
}

func (s *strictReader) begin() {
	_, _ = s.library.ReadToken() // cannot fail after kind
	s.depth++
}

func (s *strictReader) member(names []string, next int) (i int, name []byte, ok bool) {
	s.path = s.path[:s.depth-1]
	if s.kind() != jsontext.KindString {
		s.end()
		return 0, nil, false
	}
	if name, ok = s.string(); !ok {
		return 0, nil, false
	}
	if i = find(name, names, next); i >= 0 {
		s.path = append(s.path, segment{name: names[i]})
	}
	return i, name, true
}

func (s *strictReader) item(i int) bool {
	s.path = append(s.path[:s.depth-1], segment{index: i})
	if k := s.kind(); k != jsontext.KindEndArray {
		return k != 0
	}
	s.path = s.path[:s.depth-1]
	s.end()
	return false
}

// end reads the bracket that closes an object or array.
func (s *strictReader) end() {
	if s.broken != nil {
		return
	}
	if _, err := s.library.ReadToken(); err != nil {
		s.fail(err)
	}
	s.depth--
}

func (s *strictReader) string() ([]byte, bool) {
	v, ok := s.value()
	if !ok {
		return nil, false
	}
	if bytes.IndexByte(v, '\\') < 0 {
		return v[1 : len(v)-1], true
	}
	unquoted, err := jsontext.AppendUnquote(nil, v)
	return unquoted, err == nil
}

func (s *strictReader) number() (float64, bool) {
	token, err := s.library.ReadToken()
	if err != nil {
		s.fail(err)
		return 0, false
	}
	x, _ := token.Float() // the error means infinite, and no bounds hold that
	return x, true
}

func (s *strictReader) boolean() (b, ok bool) {
	token, err := s.library.ReadToken()
	if err != nil { // "fals" begins like false
		s.fail(err)
		return false, false
	}
	return token.Bool(), true
}

func (s *strictReader) value() ([]byte, bool) {
	v, err := s.library.ReadValue()
	if err != nil {
		s.fail(err)
		return nil, false
	}
	return v, true
}

func (s *strictReader) skip() {
	if err := s.library.SkipValue(); err != nil {
		s.fail(err)
	}
}
