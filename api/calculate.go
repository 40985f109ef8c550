package api

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/internal/text"
)

// Calculate runs one operation without HTTP: the request is read from in, and the
// answer comes back indented for people. ok is false when the answer is a problem.
func Calculate(ctx context.Context, operation string, in io.Reader) (answer []byte, ok bool, err error) {
	var body, out bytes.Buffer
	if _, err := body.ReadFrom(io.LimitReader(in, mostBody+1)); err != nil {
		return nil, false, fmt.Errorf("the request could not be read: %w", err)
	}
	if body.Len() > mostBody {
		return nil, false, fmt.Errorf("the request has more than %d bytes", mostBody)
	}
	for _, o := range operations {
		if o.name != operation {
			continue
		}
		r := o.run(ctx, body.Bytes(), &out)
		if r != nil {
			out.Reset()
			out.Write(r.problem(text.From(ctx), "command-line").encode())
		}
		value := jsontext.Value(out.Bytes())
		err := value.Indent(jsontext.WithIndent("  "))
		return value, r == nil, err
	}
	return nil, false, errors.New("there is no operation " + operation)
}
