// Clients calls a running server with clients that two generators made of its document,
// and fails when an operation has no call, or an answer does not come back whole from the
// types that it was read into. openapi/client/check-go generates, compiles and runs it.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"log"
	"maps"
	"net/http"
	"os"
	"reflect"
	"slices"
	"strings"

	"github.com/ogen-go/ogen/ogenerrors"

	"wetrun/clients/oapi"
	"wetrun/clients/ogen"
)

func main() {
	log.SetFlags(0)
	if len(os.Args) != 2 {
		log.Fatal("usage: clients http://127.0.0.1:8080")
	}
	server := os.Args[1]
	requests, operations, err := documented(server + "/openapi.json")
	if err != nil {
		log.Fatal(err)
	}
	wire := &recorder{}
	web := &http.Client{Transport: wire}
	byOapi, err := oapi.NewClientWithResponses(server, oapi.WithHTTPClient(web))
	if err != nil {
		log.Fatal(err)
	}
	byOgen, err := ogen.NewClient(server, noKey{}, ogen.WithClient(web))
	if err != nil {
		log.Fatal(err)
	}
	failed := false
	for _, c := range []struct {
		name   string
		client any
		method func(request) string
		answer func(any, int) (any, bool)
	}{
		{"oapi-codegen", byOapi, oapiMethod, oapiAnswer},
		{"ogen", byOgen, func(r request) string { return title(r.operation) }, ogenAnswer},
	} {
		called := map[string]bool{}
		for _, r := range requests {
			*wire = recorder{}
			got, err := call(c.client, c.method(r), r)
			if err == nil {
				err = wire.held(got, r, c.answer)
			}
			if err != nil {
				failed = true
				log.Printf("%s: %s %s: %v", c.name, r.operation, r.example, err)
			}
			called[r.operation] = true
		}
		for _, o := range operations {
			if !called[o] {
				failed = true
				log.Printf("%s: the document has no call of %s", c.name, o)
			}
		}
		log.Printf("%s: %d calls of %d operations", c.name, len(requests), len(called))
	}
	if failed {
		os.Exit(1)
	}
}

// A request is one call to make: an example of a POST, or a GET.
type request struct {
	operation, example string
	body               []byte // JSON, or lines of it; nil for a GET
	path               string // of an operation that has a word in its path
	status             int
	answer             string // media type
}

func title(id string) string { return strings.ToUpper(id[:1]) + id[1:] }

// call calls a method with what it takes: the body read into its own type, and no
// parameters but the word in a path.
func call(client any, name string, r request) (any, error) {
	method := reflect.ValueOf(client).MethodByName(name)
	if !method.IsValid() {
		return nil, fmt.Errorf("the client has no %s", name)
	}
	var in []reflect.Value
	for i := range method.Type().NumIn() {
		t := method.Type().In(i)
		if method.Type().IsVariadic() && i == method.Type().NumIn()-1 {
			break
		}
		v := reflect.New(t).Elem()
		isParams := strings.HasSuffix(strings.TrimPrefix(t.String(), "*"), "Params")
		if t.Kind() == reflect.Pointer {
			v.Set(reflect.New(t.Elem()))
		}
		switch {
		case t == reflect.TypeFor[context.Context]():
			v.Set(reflect.ValueOf(context.Background()))
		case t == reflect.TypeFor[io.Reader]():
			v.Set(reflect.ValueOf(io.Reader(bytes.NewReader(r.body))))
		case isParams:
			if f := reflect.Indirect(v).FieldByName("Type"); f.IsValid() {
				f.SetString(r.path)
			}
		case t.Kind() == reflect.String && r.body != nil:
			v.SetString("application/x-ndjson")
		case t.Kind() == reflect.String:
			v.SetString(r.path)
		case t.Kind() == reflect.Struct && t.NumField() == 1 && t.Field(0).Type == reflect.TypeFor[io.Reader]():
			v.Field(0).Set(reflect.ValueOf(io.Reader(bytes.NewReader(r.body))))
		default:
			if err := json.Unmarshal(r.body, v.Addr().Interface()); err != nil {
				return nil, fmt.Errorf("its request is not read: %w", err)
			}
		}
		in = append(in, v)
	}
	out := method.Call(in)
	if err, _ := out[1].Interface().(error); err != nil {
		return nil, err
	}
	return out[0].Interface(), nil
}

// oapiMethod: bodies that are not JSON are sent as they are.
func oapiMethod(r request) string {
	if r.answer == "application/x-ndjson" {
		return title(r.operation) + "WithBodyWithResponse"
	}
	return title(r.operation) + "WithResponse"
}

// oapiAnswer finds the member of the status: JSON200, ApplicationproblemJSON422.
func oapiAnswer(response any, status int) (any, bool) {
	v := reflect.ValueOf(response).Elem()
	for i := range v.NumField() {
		name := v.Type().Field(i).Name
		if f := v.Field(i); strings.HasSuffix(name, fmt.Sprintf("JSON%d", status)) && !f.IsNil() {
			return f.Interface(), true
		}
	}
	return v.FieldByName("Body").Interface(), false
}

// ogenAnswer: an answer stands in a type of its own beside its headers.
func ogenAnswer(response any, _ int) (any, bool) {
	v := reflect.ValueOf(response).Elem()
	if v.Kind() != reflect.Struct {
		return response, true
	}
	if r := v.FieldByName("Response"); r.IsValid() {
		v = r
	}
	if v.Kind() == reflect.Struct {
		if data := v.FieldByName("Data"); data.IsValid() {
			text, err := io.ReadAll(data.Interface().(io.Reader))
			if err != nil {
				log.Print(err)
			}
			return text, false
		}
	}
	return v.Addr().Interface(), true
}

// noKey: a server without keys asks for none.
type noKey struct{}

func (noKey) ApiKey(context.Context, ogen.OperationName) (ogen.ApiKey, error) {
	return ogen.ApiKey{}, ogenerrors.ErrSkipClientSecurity
}

// A recorder keeps what came over the wire.
type recorder struct {
	status int
	body   []byte
}

func (r *recorder) RoundTrip(q *http.Request) (*http.Response, error) {
	w, err := http.DefaultTransport.RoundTrip(q)
	if err != nil {
		return nil, err
	}
	defer w.Body.Close()
	r.status = w.StatusCode
	if r.body, err = io.ReadAll(w.Body); err != nil {
		return nil, err
	}
	w.Body = io.NopCloser(bytes.NewReader(r.body))
	return w, nil
}

// held compares what a client made of an answer with what came.
func (r *recorder) held(got any, q request, answer func(any, int) (any, bool)) error {
	if r.status != q.status {
		return fmt.Errorf("status %d, not %d", r.status, q.status)
	}
	read, decoded := answer(got, r.status)
	if isJSON := q.answer != "application/x-ndjson" && strings.HasSuffix(q.answer, "json"); decoded != isJSON || len(r.body) == 0 {
		return fmt.Errorf("%s was decoded: %v", q.answer, decoded)
	}
	if !decoded {
		if !bytes.Equal(read.([]byte), r.body) {
			return fmt.Errorf("the client holds other bytes than came")
		}
		return nil
	}
	again, err := json.Marshal(read)
	if err != nil {
		return err
	}
	var came, held any
	if err := json.Unmarshal(r.body, &came); err != nil {
		return err
	}
	if err := json.Unmarshal(again, &held); err != nil {
		return err
	}
	if !reflect.DeepEqual(came, held) {
		return fmt.Errorf("came\n%s\nthe client holds\n%s", r.body, again)
	}
	return nil
}

// documented lists the calls: every GET, and every example of a POST; and all operations.
func documented(url string) (all []request, operations []string, err error) {
	w, err := http.Get(url)
	if err != nil {
		return nil, nil, err
	}
	defer w.Body.Close()
	if w.StatusCode != http.StatusOK {
		return nil, nil, fmt.Errorf("%s: %s", url, w.Status)
	}
	type content map[string]struct {
		Examples map[string]struct {
			Value any
		}
	}
	type operation struct {
		OperationID string
		Parameters  []struct {
			In     string
			Schema struct{ Enum []string }
		}
		RequestBody struct{ Content content }
		Responses   map[string]struct{ Content content }
	}
	var document struct {
		Paths map[string]struct{ Get, Post *operation }
	}
	if err := json.NewDecoder(w.Body).Decode(&document); err != nil {
		return nil, nil, err
	}
	if len(document.Paths) == 0 {
		return nil, nil, fmt.Errorf("%s has no paths", url)
	}
	first := func(c content) string { return slices.Sorted(maps.Keys(c))[0] }
	for _, path := range slices.Sorted(maps.Keys(document.Paths)) {
		item := document.Paths[path]
		if o := item.Get; o != nil {
			operations = append(operations, o.OperationID)
			r := request{operation: o.OperationID, status: 200, answer: first(o.Responses["200"].Content)}
			for _, p := range o.Parameters {
				if p.In == "path" {
					r.path = p.Schema.Enum[0]
				}
			}
			all = append(all, r)
		}
		if o := item.Post; o != nil {
			operations = append(operations, o.OperationID)
			media := first(o.RequestBody.Content)
			examples := o.RequestBody.Content[media].Examples
			for _, name := range slices.Sorted(maps.Keys(examples)) {
				r := request{operation: o.OperationID, example: name, status: 200, answer: media}
				if lines, ok := examples[name].Value.(string); ok {
					r.body = []byte(lines)
				} else if r.body, err = json.Marshal(examples[name].Value); err != nil {
					return nil, nil, err
				}
				all = append(all, r)
			}
		}
	}
	return all, operations, nil
}
