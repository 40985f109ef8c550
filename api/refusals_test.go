package api

import (
	"bufio"
	"fmt"
	"io"
	"maps"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// provoke gets the refusal of a kind from the service, with its request id.
func provoke(t *testing.T, kind wire.ProblemType, id string) (int, string) {
	t.Helper()
	post := func(body string, headers ...string) (int, string) {
		w := call(t, http.MethodPost, "/v1/ground-speed", body, append(headers, "X-Request-Id", id)...)
		return w.Code, w.Body.String()
	}
	switch kind {
	case wire.NotJSON:
		return post("sheet")
	case wire.BodyNotRead:
		return cutShort(t, id)
	case wire.NotFound:
		w := call(t, http.MethodPost, "/v1/groundspeed", "{}", "X-Request-Id", id)
		return w.Code, w.Body.String()
	case wire.MethodNotAllowed:
		w := call(t, http.MethodGet, "/v1/ground-speed", "", "X-Request-Id", id)
		return w.Code, w.Body.String()
	case wire.BodyTooLarge:
		return post(strings.Repeat(" ", operation.MostBody+1))
	case wire.UnsupportedMediaType:
		return post(oneRun, "Content-Type", "text/plain")
	case wire.TooManyRequests:
		h := New(Options{Log: testLog(t.Output()), Limits: Limits{Rate: 60}})
		for {
			w := from(h, "", http.MethodGet, "/v1/units", "", "X-Request-Id", id)
			if w.Code != http.StatusOK {
				return w.Code, w.Body.String()
			}
		}
	}
	// What takes a fault, a crowd or a list of keys is written as if it had come.
	w := httptest.NewRecorder()
	w.Header().Set(requestIDHeader, id)
	writeProblem(w, httptest.NewRequest(http.MethodPost, "/v1/ground-speed", nil), &wire.Refusal{Kind: kind})
	return w.Code, w.Body.String()
}

// cutShort promises more of a body than it sends.
func cutShort(t *testing.T, id string) (int, string) {
	t.Helper()
	server := httptest.NewServer(service())
	defer server.Close()
	conn, err := net.Dial("tcp", server.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	fmt.Fprintf(conn, "POST /v1/ground-speed HTTP/1.1\r\nHost: x\r\nX-Request-Id: %s\r\nContent-Type: application/json\r\nContent-Length: 500\r\n\r\n{", id)
	_ = conn.(*net.TCPConn).CloseWrite()
	resp, err := http.ReadResponse(bufio.NewReader(conn), nil)
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return resp.StatusCode, string(body)
}

// TestSharedRefusalsAreTrue provokes each refusal that the document gives as an
// example for all operations, and finds one for every kind of problem.
func TestSharedRefusalsAreTrue(t *testing.T) {
	// Each operation has its own of the first; the others stand in lines of a batch.
	shown := map[string]bool{string(wire.InvalidRequest): true, string(wire.InvalidLine): true, string(wire.BrokenStream): true}
	responses := maps.Clone(document(t).Components.Responses)
	responses["stopping"] = &openapi3.ResponseRef{Value: answered(t, got(t, "/readyz"), "503")}
	for name, response := range responses {
		media := response.Value.Content["application/problem+json"]
		if media == nil {
			continue
		}
		examples := []any{media.Example}
		if media.Example == nil {
			examples = nil
			for _, e := range slices.Sorted(maps.Keys(media.Examples)) {
				examples = append(examples, media.Examples[e].Value.Value)
			}
		}
		if len(examples) == 0 {
			t.Errorf("%s has no example", name)
		}
		for _, e := range examples {
			problem := e.(map[string]any)
			kind := strings.TrimPrefix(problem["type"].(string), "/problems/")
			shown[kind] = true
			status, body := provoke(t, wire.ProblemType(kind), problem["requestId"].(string))
			same(t, int(problem["status"].(float64)), status, encodeJSON(t, e), body)
		}
	}
	for _, p := range wire.ProblemTypes {
		if !shown[string(p.Kind)] {
			t.Errorf("the document shows no example of %s", p.Kind)
		}
	}
}

// TestOperationsDocumentRefusals: each operation lists every status that it can
// answer with, and a GET those that it can.
func TestOperationsDocumentRefusals(t *testing.T) {
	for path, item := range document(t).Paths.Map() {
		for method, documented := range item.Operations() {
			want := []string{"200", "404", "405", "500"}
			switch {
			case path == "/v1/batch": // what is wrong with a line is answered in its place
				want = append(want, "415", "503")
			case method == http.MethodPost:
				want = append(want, "400", "413", "415", "422", "503")
			case path == "/readyz":
				want = append(want, "503")
			case !pages(operation.All)[strings.Replace(path, "{type}", string(wire.NotJSON), 1)].fresh:
				want = append(want, "304")
			}
			if strings.HasPrefix(path, "/v1/") {
				want = append(want, "401", "429")
			}
			got := slices.Sorted(maps.Keys(documented.Responses.Map()))
			if slices.Sort(want); !slices.Equal(got, want) {
				t.Errorf("%s %s documents %v, it can answer %v", method, path, got, want)
			}
		}
	}
}

// TestRequestsAreBounded: whatever a client may send has a size that the document
// states, however deep it stands.
func TestRequestsAreBounded(t *testing.T) {
	for _, o := range operation.All {
		sized(t, o.Name, requestSchema(t, o.Name))
	}
}

func sized(t *testing.T, at string, s *openapi3.Schema) {
	t.Helper()
	switch {
	case s.Type.Is("array"):
		if s.MaxItems == nil {
			t.Errorf("%s: any number of items", at)
		}
		sized(t, at+"/[]", s.Items.Value)
	case s.Type.Is("string"):
		if s.MaxLength == nil && len(s.Enum) == 0 && s.Format != "date" && s.Pattern != "^[A-Z]{3}$" {
			t.Errorf("%s: any number of characters", at)
		}
	case s.Type.Is("integer"), s.Type.Is("number"):
		if s.Min == nil || s.Max == nil {
			t.Errorf("%s: any size", at)
		}
	case s.Type.Is("object"):
		for name, p := range s.Properties {
			sized(t, at+"/"+name, p.Value)
		}
	}
	for _, a := range s.OneOf {
		sized(t, at, a.Value)
	}
}
