package wire

import (
	"cmp"

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

	Wording string `json:"-"` // the way of wording the detail, when the code has several
	Args    []any  `json:"-"` // for the detail
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
	ShuttingDown         ProblemType = "shutting_down"
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

func (p ProblemType) Status() int {
	for _, t := range ProblemTypes {
		if t.Kind == p {
			return t.status
		}
	}
	return 500
}

// A Refusal is the error that a request ends in. One place writes it.
type Refusal struct {
	Kind    ProblemType
	Wording string // key of the detail, when the kind has several
	Args    []any  // for the detail
	Fields  []FieldError
}

func (r *Refusal) Error() string { return string(r.Kind) }

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

func (p Problem) Encode() []byte {
	b, err := json.Marshal(p)
	if err != nil { // strings and integers cannot fail to encode
		panic(err)
	}
	return b
}
