package wire

import (
	"errors"
	"reflect"
	"strings"

	"github.com/go-playground/validator/v10"

	"wetrun/calc/finding"
)

// validate checks what tags on the top level of a request say: which members must
// be there, and which may not be there together. Everything below is checked
// while it is decoded, which is many times cheaper.
var validate = newValidator()

func newValidator() *validator.Validate {
	v := validator.New(validator.WithRequiredStructEnabled())
	v.RegisterTagNameFunc(func(f reflect.StructField) string { return MemberName(f) })
	return v
}

// MemberName is the name on the wire of a struct field; empty for one that is not on it.
func MemberName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return strings.TrimPrefix(name, "-")
}

// tagged are the fields with tags, by names such as GroundSpeedRequest.Runs.
var tagged = map[string]bool{}

// noteTags keeps the fields of a type of request that have tags.
func noteTags(request reflect.Type) {
	for _, f := range reflect.VisibleFields(request) {
		if f.Tag.Get("validate") != "" {
			tagged[request.Name()+"."+f.Name] = true
		}
	}
}

// untagged keeps the validator from walking into members that have nothing to
// check, which costs an allocation for each of them.
func untagged(name []byte) bool { return !tagged[string(name)] }

// CheckTop runs the validator and adds what it finds to what decoding found. A
// member that decoding already refused was there, so it is not called missing.
func CheckTop(request any, found *Refusal) *Refusal {
	err := validate.StructFiltered(request, untagged)
	if err == nil {
		return found
	}
	var failed validator.ValidationErrors
	if !errors.As(err, &failed) {
		return found
	}
	if found != nil && found.Kind != InvalidRequest {
		return found // the text broke off, so what is missing may stand further on
	}
	for _, f := range failed {
		at := Pointer(finding.Member(f.Field()))
		if found != nil && found.about(at) {
			continue
		}
		e := FieldError{Pointer: at, Code: "required"}
		if strings.HasPrefix(f.Tag(), "excluded") {
			e.Code = "conflict"
		}
		if found == nil {
			found = &Refusal{Kind: InvalidRequest}
		}
		if len(found.Fields) < MostErrors {
			found.Fields = append(found.Fields, e)
		}
	}
	return found
}

// about tells whether an error already speaks of the member or of a part of it.
func (r *Refusal) about(pointer string) bool {
	for _, e := range r.Fields {
		if e.Pointer == "#" || e.Pointer == pointer || strings.HasPrefix(e.Pointer, pointer+"/") {
			return true
		}
	}
	return false
}
