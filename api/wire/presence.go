package wire

import (
	"errors"
	"reflect"
	"strings"

	"github.com/go-playground/validator/v10"

	"wetrun/calc/finding"
)

// validate checks which members of the top level of a request must be there, as their tags
// say. Everything below is checked while it is decoded, which is many times cheaper.
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

// validated are the fields that the validator checks, by names such as GroundSpeedRequest.Runs.
var validated = map[string]bool{}

// addValidated adds the fields of a type of request that have a tag for the validator.
func addValidated(request reflect.Type) {
	for _, f := range reflect.VisibleFields(request) {
		if f.Tag.Get("validate") != "" {
			validated[request.Name()+"."+f.Name] = true
		}
	}
}

// notValidated keeps the validator from walking into members that have nothing to
// check, which costs an allocation for each of them.
func notValidated(name []byte) bool { return !validated[string(name)] }

// CheckPresence adds to what decoding refused which members of the top level are missing. A
// member that decoding refused was there, so it is not called missing.
func CheckPresence(request any, found *Refusal) *Refusal {
	var failed validator.ValidationErrors
	if !errors.As(validate.StructFiltered(request, notValidated), &failed) {
		return found
	}
	if found != nil && found.Kind != InvalidRequest {
		return found // the text broke off, so what is missing may stand further on
	}
	for _, f := range failed {
		e := FieldError{Pointer: Pointer(finding.Member(f.Field())), Code: finding.CodeRequired}
		if found != nil && found.concerns(e.Pointer) {
			continue
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
