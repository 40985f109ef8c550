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

// CheckPresence adds to what decoding refused which members of the top level are missing or
// exclude each other. A member that decoding refused was there, so it is not called missing.
func CheckPresence(request any, found *Refusal) *Refusal {
	err := validate.StructFiltered(request, notValidated)
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
		e := FieldError{Pointer: Pointer(finding.Member(f.Field())), Code: "required"}
		if found != nil && found.concerns(e.Pointer) {
			continue
		}
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
