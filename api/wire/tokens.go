package wire

import (
	"bytes"
	"errors"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// MostErrors is how many errors one problem lists.
const MostErrors = 100

// tokens is a source by the JSON library, which knows all of JSON and says where a text
// breaks off. It lists what is wrong with the values, each with its pointer.
type tokens struct {
	text   []byte
	input  bytes.Buffer
	json   jsontext.Decoder
	depth  int       // how many objects and arrays are open
	path   []Segment // of the value at hand, one for each of them
	errors []FieldError
	broken *Refusal
}

// strict reads duplicates too, so that they can be reported with their pointer.
var strict = jsontext.AllowDuplicateNames(true)

func (t *tokens) reset(body []byte) {
	t.text = body
	t.input = *bytes.NewBuffer(body) // jsontext reads a Buffer in place
	t.json.Reset(&t.input, strict)
	t.path, t.depth, t.errors, t.broken = t.path[:0], 0, nil, nil
}

// blank tells whether there is nothing to read.
func (t *tokens) blank() bool { return len(bytes.TrimSpace(t.text)) == 0 }

// refused is what is wrong with the whole text, after all of it has been read.
func (t *tokens) refused() *Refusal {
	if t.broken == nil {
		if more := bytes.TrimLeft(t.text[t.json.InputOffset():], " \t\r\n"); len(more) > 0 {
			t.broken = brokenAt(t.text, int64(len(t.text)-len(more)))
			if more[0] == '{' {
				t.broken.Wording = SecondText
			}
		}
	}
	switch {
	case t.broken != nil:
		return t.broken
	case len(t.errors) > 0:
		return &Refusal{Kind: InvalidRequest, Fields: t.errors}
	}
	return nil
}

// fail records that the bytes are not JSON from here on. Text nested deeper than
// the reader follows is refused as a member instead.
func (t *tokens) fail(err error) {
	if t.broken != nil {
		return
	}
	const deepest = 10_000 // of jsontext
	if t.json.StackDepth() >= deepest {
		t.report(FieldError{Code: "too_deep"})
		t.broken = &Refusal{Kind: InvalidRequest, Fields: t.errors}
		return
	}
	offset := t.json.InputOffset()
	var syntax *jsontext.SyntacticError
	if errors.As(err, &syntax) {
		offset = syntax.ByteOffset
	}
	t.broken = brokenAt(t.text, offset)
}

// SecondText words that another text follows the one that was asked for, and
// secondTextInLine what that means in a batch.
const (
	SecondText       = "second_text"
	SecondTextInLine = "second_text_in_line"
)

// brokenAt refuses a body that is no JSON from an offset on, and says the place as
// editors do too: line and column, counted from 1.
func brokenAt(body []byte, offset int64) *Refusal {
	before := body[:min(int(offset), len(body))]
	line := bytes.LastIndexByte(before, '\n') + 1
	return &Refusal{Kind: NotJSON, Args: []any{offset, bytes.Count(before, []byte{'\n'}) + 1, utf8.RuneCount(before[line:]) + 1}}
}

func (t *tokens) sound() bool { return t.broken == nil }

func (t *tokens) report(e FieldError, more ...string) {
	if t.listing() {
		e.Pointer = PointerTo(t.path, more...)
		t.errors = append(t.errors, e)
	}
}

func (t *tokens) listing() bool { return len(t.errors) < MostErrors }

func (t *tokens) kind() jsontext.Kind {
	if t.broken != nil {
		return 0
	}
	k := t.json.PeekKind()
	if k == jsontext.KindInvalid {
		_, err := t.json.ReadToken()
		t.fail(err)
		return 0
	}
	return k
}

func (t *tokens) begin() {
	_, _ = t.json.ReadToken() // cannot fail after kind
	t.depth++
}

func (t *tokens) member(names []string, next int) (i int, name []byte, ok bool) {
	t.path = t.path[:t.depth-1]
	if t.kind() != jsontext.KindString {
		t.end()
		return 0, nil, false
	}
	if name, ok = t.string(); !ok {
		return 0, nil, false
	}
	if i = find(name, names, next); i >= 0 {
		t.path = append(t.path, Segment{Name: names[i]})
	}
	return i, name, true
}

func (t *tokens) item(i int) bool {
	t.path = append(t.path[:t.depth-1], Segment{Index: i})
	if k := t.kind(); k != jsontext.KindEndArray {
		return k != 0
	}
	t.path = t.path[:t.depth-1]
	t.end()
	return false
}

// end reads the bracket that closes an object or array.
func (t *tokens) end() {
	if t.broken != nil {
		return
	}
	if _, err := t.json.ReadToken(); err != nil {
		t.fail(err)
	}
	t.depth--
}

func (t *tokens) string() ([]byte, bool) {
	v, ok := t.value()
	if !ok {
		return nil, false
	}
	if bytes.IndexByte(v, '\\') < 0 {
		return v[1 : len(v)-1], true
	}
	s, err := jsontext.AppendUnquote(nil, v)
	return s, err == nil
}

func (t *tokens) number() (float64, bool) {
	token, err := t.json.ReadToken()
	if err != nil {
		t.fail(err)
		return 0, false
	}
	x, _ := token.Float() // the error means infinite, and no bounds hold that
	return x, true
}

func (t *tokens) boolean() (b, ok bool) {
	token, err := t.json.ReadToken()
	if err != nil { // "fals" begins like false
		t.fail(err)
		return false, false
	}
	return token.Bool(), true
}

func (t *tokens) value() ([]byte, bool) {
	v, err := t.json.ReadValue()
	if err != nil {
		t.fail(err)
		return nil, false
	}
	return v, true
}

func (t *tokens) skip() {
	if err := t.json.SkipValue(); err != nil {
		t.fail(err)
	}
}
