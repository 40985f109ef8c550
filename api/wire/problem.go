package wire

import (
	"cmp"
	"strings"

	"github.com/go-json-experiment/json"

	"wetrun/internal/text"
)

// A Problem is the body of every 4xx and 5xx answer (RFC 9457).
type Problem struct {
	Type      string       `json:"type"`
	Title     string       `json:"title"`
	Status    int          `json:"status"`
	Detail    string       `json:"detail"`
	RequestID string       `json:"requestId"`
	Errors    []FieldError `json:"errors,omitempty"`
}

// A FieldError is one thing wrong with one member of the request.
type FieldError struct {
	Pointer string   `json:"pointer"`
	Code    string   `json:"code"`
	Detail  string   `json:"detail"`
	Limit   *float64 `json:"limit,omitempty"`
	Allowed []string `json:"allowed,omitempty"`

	Wording string `json:"-"` // wording.<this> words the detail; empty for problem.<code>
	Args    []any  `json:"-"` // of the detail
}

// ProblemType names a kind of problem; its page is at /problems/<name>.
type ProblemType string

// The kinds of problem. Each has title, detail and page in internal/text.
const (
	NotJSON              ProblemType = "not_json"
	Unauthorized         ProblemType = "unauthorized"
	NotFound             ProblemType = "not_found"
	MethodNotAllowed     ProblemType = "method_not_allowed"
	BodyTooLarge         ProblemType = "body_too_large"
	BodyNotRead          ProblemType = "body_not_read"
	UnsupportedMediaType ProblemType = "unsupported_media_type"
	InvalidRequest       ProblemType = "invalid_request"
	TooManyRequests      ProblemType = "too_many_requests"
	InternalError        ProblemType = "internal_error"
	InvalidLine          ProblemType = "invalid_line"
	BrokenStream         ProblemType = "broken_stream"
	Overloaded           ProblemType = "overloaded"
	ShuttingDown         ProblemType = "shutting_down" // not overloaded: nobody need wait, another server takes it
)

// ProblemTypes lists all kinds with their HTTP status, in the order of the document.
var ProblemTypes = []struct {
	Kind   ProblemType
	status int
}{
	{NotJSON, 400},
	{BodyNotRead, 400},
	{Unauthorized, 401},
	{NotFound, 404},
	{MethodNotAllowed, 405},
	{BodyTooLarge, 413},
	{UnsupportedMediaType, 415},
	{InvalidRequest, 422},
	{InvalidLine, 422},
	{BrokenStream, 400},
	{TooManyRequests, 429},
	{InternalError, 500},
	{Overloaded, 503},
	{ShuttingDown, 503},
}

// Status is the HTTP status of the kind.
func (p ProblemType) Status() int {
	for _, t := range ProblemTypes {
		if t.Kind == p {
			return t.status
		}
	}
	return 500
}

// A Refusal is the error that a request ends in, before it is worded for a client.
type Refusal struct {
	Kind    ProblemType
	Wording string       // detail.<this> words the detail; empty for detail.<kind>
	Args    []any        // of the detail
	Fields  []FieldError // of an invalid request
	Cause   error        // of an internal error, for the log alone
}

func (r *Refusal) Error() string { return string(r.Kind) }

// secondText words that another text follows the one that was asked for.
const secondText = "second_text"

// InLine makes the refusal of a body that of the line of a batch with a number from 1: its
// place is in that line of the stream.
func (r *Refusal) InLine(number int) {
	switch {
	case r.Kind == InvalidRequest:
		r.Kind = InvalidLine
	case r.Wording == secondText:
		r.Wording = "second_text_in_line"
	}
	if r.Kind == NotJSON && len(r.Args) > 1 {
		r.Args[1] = number
	}
}

// concerns tells whether an error already speaks of the member or of a part of it.
func (r *Refusal) concerns(pointer string) bool {
	for _, e := range r.Fields {
		if e.Pointer == "#" || e.Pointer == pointer || strings.HasPrefix(e.Pointer, pointer+"/") {
			return true
		}
	}
	return false
}

// Problem words the refusal in the client's language.
func (r *Refusal) Problem(lang text.Language, requestID string) Problem {
	p := Problem{
		Type:      "/problems/" + string(r.Kind),
		Title:     text.Of(lang, "title."+string(r.Kind)),
		Status:    r.Kind.Status(),
		Detail:    text.Of(lang, "detail."+cmp.Or(r.Wording, string(r.Kind)), r.Args...),
		RequestID: requestID,
		Errors:    r.Fields,
	}
	for i := range p.Errors {
		e := &p.Errors[i]
		key := "problem." + e.Code
		if e.Wording != "" {
			key = "wording." + e.Wording
		}
		e.Detail = text.Of(lang, key, e.Args...)
	}
	return p
}

// Encode is the problem as JSON.
func (p Problem) Encode() []byte {
	b, err := json.Marshal(p)
	if err != nil { // strings and integers cannot fail to encode
		panic(err)
	}
	return b
}
