package operation

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/api/wire"
	"wetrun/internal/text"
)

// Calculate runs one operation without HTTP: the request is read from in, and the
// answer comes back indented for people. ok is false when the answer is a problem.
func Calculate(ctx context.Context, operation string, in io.Reader) (answer []byte, ok bool, err error) {
	body, err := readAll(ctx, in)
	if err != nil {
		return nil, false, err
	}
	o := Named(operation)
	if o == nil {
		return nil, false, errors.New("there is no operation " + operation)
	}
	var out bytes.Buffer
	if _, r := o.Run(ctx, body, &out); r != nil {
		return problemIndented(ctx, r), false, nil
	}
	return indented(out.Bytes()), true, nil
}

// Summarize calculates a field sheet and words the answer. ok is false when the
// sheet is refused; what comes back is then the problem.
func Summarize(ctx context.Context, in io.Reader) (answer []byte, ok bool, err error) {
	body, err := readAll(ctx, in)
	if err != nil {
		return nil, false, err
	}
	var r CalibrationsRequest
	a, refused := answerForPeople(ctx, body, &r)
	if refused != nil {
		return problemIndented(ctx, refused), false, nil
	}
	return []byte(a.Summary(ctx)), true, nil
}

// Digest is the digest of the request of a field sheet, as its record prints it. ok is false
// when it is no JSON; what comes back is then the problem.
func Digest(ctx context.Context, in io.Reader) (digest []byte, ok bool, err error) {
	body, err := readAll(ctx, in)
	if err != nil {
		return nil, false, err
	}
	sum, err := requestDigest(body)
	if err != nil {
		return problemIndented(ctx, &wire.Refusal{Kind: wire.NotJSON}), false, nil
	}
	return []byte(sum), true, nil
}

// readAll reads a request that may be as large as a body over HTTP.
func readAll(ctx context.Context, in io.Reader) ([]byte, error) {
	body, err := io.ReadAll(io.LimitReader(in, MostBody+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: %w", text.Of(text.From(ctx), "command.not_read"), err)
	case len(body) > MostBody:
		return nil, errors.New(text.Of(text.From(ctx), "detail.body_too_large", MostBody))
	}
	return body, nil
}

// problemIndented is the refusal as a problem for people at a terminal.
func problemIndented(ctx context.Context, r *wire.Refusal) []byte {
	return indented(r.Problem(text.From(ctx), "command-line").Encode())
}

// indented is JSON for people at a terminal. What JSON may hold as it is but a terminal obeys,
// or shows in another order, is escaped: to a program it is the same.
func indented(b []byte) []byte {
	v := jsontext.Value(b)
	if err := v.Indent(jsontext.WithIndent("  ")); err != nil {
		return b
	}
	out := make([]byte, 0, len(v))
	for _, r := range string(v) {
		if r > '~' && text.Hidden(r) {
			out = fmt.Appendf(out, `\u%04x`, r)
		} else {
			out = utf8.AppendRune(out, r)
		}
	}
	return out
}
