package api

import (
	"path"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"pgregory.net/rapid"

	"wetrun/openapi/contract"
)

// The document is looked into through these alone: each fails by naming the file that
// lacks something, so that one round of tests says all that a new operation still needs.

const join = "then join the document: go test ./openapi -run TestDocumentIsCurrent -update"

func document(t rapid.TB) *openapi3.T {
	t.Helper()
	doc, err := contract.Document()
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// schemaNamed is a schema of the components.
func schemaNamed(t rapid.TB, name string) *openapi3.Schema {
	t.Helper()
	ref := document(t).Components.Schemas[name]
	if ref == nil || ref.Value == nil {
		t.Fatalf("openapi/components has no %s: write it into the file of its operation, %s", name, join)
	}
	return ref.Value
}

// requestSchema and answerSchema are those of an operation.
func requestSchema(t rapid.TB, operation string) *openapi3.Schema {
	t.Helper()
	return schemaNamed(t, schemaName(operation)+"Request")
}

func answerSchema(t rapid.TB, operation string) *openapi3.Schema {
	t.Helper()
	return schemaNamed(t, schemaName(operation)+"Answer")
}

// pathFile is the file that a path stands in.
func pathFile(at string) string {
	name := strings.ReplaceAll(path.Base(strings.TrimSuffix(at, "/{type}")), ".", "-")
	return "openapi/paths/" + name + ".yaml"
}

// posted is the POST of an operation, with a body, an answer and a refusal.
func posted(t rapid.TB, operation string) *openapi3.Operation {
	t.Helper()
	at := "/v1/" + operation
	item := document(t).Paths.Value(at)
	if item == nil || item.Post == nil {
		t.Fatalf("%s is missing, or has no post of %s: write it, %s", pathFile(at), at, join)
	}
	if o := item.Post; o.RequestBody == nil || content(o.RequestBody.Value.Content) == nil {
		t.Fatalf("%s: the post takes no application/json", pathFile(at))
	}
	return item.Post
}

// got is the GET of a path.
func got(t rapid.TB, at string) *openapi3.Operation {
	t.Helper()
	item := document(t).Paths.Value(at)
	if item == nil || item.Get == nil {
		t.Fatalf("%s is missing, or has no get of %s: write it, %s", pathFile(at), at, join)
	}
	return item.Get
}

// answered is what an operation documents for a status.
func answered(t rapid.TB, o *openapi3.Operation, status string) *openapi3.Response {
	t.Helper()
	ref := o.Responses.Value(status)
	if ref == nil || ref.Value == nil {
		t.Fatalf("%s documents no %s: write it into its file in openapi/paths, %s", o.OperationID, status, join)
	}
	return ref.Value
}

// requestExamples are the requests that the document shows for an operation.
func requestExamples(t rapid.TB, operation string) openapi3.Examples {
	t.Helper()
	return examplesIn(t, operation, "request", posted(t, operation).RequestBody.Value.Content)
}

// answerExamples and refusalExamples are what the document shows for those and for requests that are wrong.
func answerExamples(t rapid.TB, operation string) openapi3.Examples {
	t.Helper()
	return examplesIn(t, operation, "answer 200", answered(t, posted(t, operation), "200").Content)
}

func refusalExamples(t rapid.TB, operation string) openapi3.Examples {
	t.Helper()
	return examplesIn(t, operation, "refusal 422", answered(t, posted(t, operation), "422").Content)
}

func examplesIn(t rapid.TB, operation, what string, c openapi3.Content) openapi3.Examples {
	t.Helper()
	media := content(c)
	if media == nil || len(media.Examples) == 0 {
		t.Fatalf("%s shows no example of a %s: write one, %s", pathFile("/v1/"+operation), what, join)
	}
	return media.Examples
}

// content is the JSON of a request, an answer or a problem.
func content(c openapi3.Content) *openapi3.MediaType {
	if media := c["application/json"]; media != nil {
		return media
	}
	return c["application/problem+json"]
}

// wordsOfSchema are the words that a schema lists, closed or open to more.
func wordsOfSchema(s *openapi3.Schema) []any {
	if open, ok := s.Extensions["x-extensible-enum"].([]any); ok {
		return open
	}
	return s.Enum
}

var _ rapid.TB = testing.TB(nil) // what a test and a property both are
