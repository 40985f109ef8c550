package api

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

	wording string // the way of wording the detail, when the code has several
	args    []any  // for the detail
}

// problemType names a kind of problem; its page is at /problems/<name>.
type problemType string

// The kinds of problem. Each has title, detail and page in internal/text.
const (
	notJSON              problemType = "not_json"
	unauthorized         problemType = "unauthorized"
	notFound             problemType = "not_found"
	methodNotAllowed     problemType = "method_not_allowed"
	bodyTooLarge         problemType = "body_too_large"
	bodyNotRead          problemType = "body_not_read"
	unsupportedMediaType problemType = "unsupported_media_type"
	invalidRequest       problemType = "invalid_request"
	tooManyRequests      problemType = "too_many_requests"
	internalError        problemType = "internal_error"
	invalidLine          problemType = "invalid_line"
	brokenStream         problemType = "broken_stream"
	overloaded           problemType = "overloaded"
	shuttingDown         problemType = "shutting_down"
)

// problemTypes lists all kinds with their HTTP status, in the order of the document.
var problemTypes = []struct {
	kind   problemType
	status int
}{
	{notJSON, 400},
	{bodyNotRead, 400},
	{unauthorized, 401},
	{notFound, 404},
	{methodNotAllowed, 405},
	{bodyTooLarge, 413},
	{unsupportedMediaType, 415},
	{invalidRequest, 422},
	{invalidLine, 422},
	{brokenStream, 400},
	{tooManyRequests, 429},
	{internalError, 500},
	{overloaded, 503},
	{shuttingDown, 503},
}

func (p problemType) status() int {
	for _, t := range problemTypes {
		if t.kind == p {
			return t.status
		}
	}
	return 500
}

// A refusal is the error that a request ends in. One place writes it.
type refusal struct {
	kind    problemType
	wording string // key of the detail, when the kind has several
	args    []any  // for the detail
	fields  []FieldError
}

func (r *refusal) Error() string { return string(r.kind) }

// problem words the refusal in the client's language.
func (r *refusal) problem(lang text.Language, requestID string) Problem {
	p := Problem{
		Type:      "/problems/" + string(r.kind),
		Title:     text.Of(lang, "title."+string(r.kind)),
		Status:    r.kind.status(),
		Detail:    text.Of(lang, "detail."+cmp.Or(r.wording, string(r.kind)), r.args...),
		RequestID: requestID,
		Errors:    r.fields,
	}
	for i := range p.Errors {
		e := &p.Errors[i]
		key := "problem." + e.Code
		if e.wording != "" {
			key = "wording." + e.wording
		}
		e.Detail = text.Of(lang, key, e.args...)
	}
	return p
}

func (p Problem) encode() []byte {
	b, err := json.Marshal(p)
	if err != nil { // strings and integers cannot fail to encode
		panic(err)
	}
	return b
}
