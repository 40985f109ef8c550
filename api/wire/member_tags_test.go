package wire

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// panicOf is what a table of T cannot be made for.
func panicOf[T any]() (why string) {
	defer func() { why = fmt.Sprint(recover()) }()
	TableOf[T]()
	return ""
}

// TestTagsThatCannotBeRead: what the program would stop of at its start names the field.
func TestTagsThatCannotBeRead(t *testing.T) {
	type embedded struct {
		Volume Quantity `json:"volume" is:"volume"`
	}
	type (
		noQuantity struct {
			X Quantity `json:"x"`
		}
		wrongQuantity struct {
			X Quantity `json:"x" is:"volume,weight"`
		}
		noSymbol struct {
			X unit.ID `json:"x"`
		}
		noEnds struct {
			X Range `json:"x"`
		}
		wrongZero struct {
			X Quantity `json:"x" is:"volume" zero:"yes"`
		}
		noRange struct {
			X int `json:"x"`
		}
		halfRange struct {
			X int `json:"x" range:"1.."`
		}
		invertedRange struct {
			X int `json:"x" range:"3..2"`
		}
		noLength struct {
			X []embedded `json:"x"`
		}
		wrongLength struct {
			X []embedded `json:"x" len:"few"`
		}
		wrongText struct {
			X string `json:"x" is:"money"`
		}
		uselessTag struct {
			X string `json:"x" len:"1..80"`
		}
		wrongType struct {
			X float64 `json:"x"`
		}
		noName struct{ X string }
		twice  struct {
			embedded
			Other Quantity `json:"volume" is:"volume"`
		}
		wrongEmbedded struct {
			embedded `zero:"time"`
		}
	)
	for field, why := range map[string]string{
		"noQuantity.X": panicOf[noQuantity](), "wrongQuantity.X": panicOf[wrongQuantity](), "noSymbol.X": panicOf[noSymbol](),
		"Range.Low": panicOf[noEnds](), "wrongZero.X": panicOf[wrongZero](), "noRange.X": panicOf[noRange](), "halfRange.X": panicOf[halfRange](),
		"invertedRange.X": panicOf[invertedRange](), "noLength.X": panicOf[noLength](), "wrongLength.X": panicOf[wrongLength](),
		"wrongText.X": panicOf[wrongText](), "uselessTag.X": panicOf[uselessTag](), "wrongType.X": panicOf[wrongType](),
		"noName.X": panicOf[noName](), "twice.volume": panicOf[twice](), "wrongEmbedded.embedded": panicOf[wrongEmbedded](),
	} {
		if !strings.HasPrefix(why, "wire: wire."+field+": ") {
			t.Errorf("%s: the panic is %q", field, why)
		}
	}
}

// TestTagsAreRead: a quantity handed down to both ends, one of an embedded struct that may
// be nought, a number out of a list of words.
func TestTagsAreRead(t *testing.T) {
	type inner struct {
		Volume Quantity `json:"volume" validate:"required" is:"volume"`
		Time   Quantity `json:"time,omitzero" is:"time"`
	}
	type request struct {
		Name  string `json:"name,omitzero"`
		inner `zero:"volume"`
		Both  Range                      `json:"both,omitzero" is:"pressure"`
		Kinds []certainty.InstrumentKind `json:"kinds,omitzero"`
		own   bool
	}
	var got request
	body := `{"time":{"value":2,"unit":"s"},"volume":{"value":0,"unit":"L"},"both":{"low":{"value":1,"unit":"bar"},"high":{"value":2,"unit":"bar"}},"kinds":["gauge","tape"],"name":"ñ"}`
	if r := Decode([]byte(body), TableOf[request](), &got); r != nil {
		t.Fatalf("%+v", r.Fields)
	}
	want := request{
		Name: "ñ", inner: inner{Quantity{0, unit.IDL}, Quantity{2, unit.IDS}},
		Both: Range{Quantity{1, unit.IDBar}, Quantity{2, unit.IDBar}}, Kinds: []certainty.InstrumentKind{certainty.Gauge, certainty.Tape},
	}
	if !reflect.DeepEqual(got, want) || got.own {
		t.Errorf("got %+v, want %+v", got, want)
	}
	r := Decode([]byte(`{"time":{"value":0,"unit":"s"},"both":{"low":{"value":1,"unit":"L"}},"own":true}`), TableOf[request](), &got)
	var found []string
	for _, e := range r.Fields {
		found = append(found, e.Pointer+" "+e.Code)
	}
	if said := strings.Join(found, ", "); said != "#/time/value not_positive, #/both/low/unit wrong_quantity, #/both/high required, #/own unknown_member, #/volume required" {
		t.Error(said)
	}
}
