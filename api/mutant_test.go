package api

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/http"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// serverOnly are the codes by which the service may refuse what the schema takes:
// they depend on more than one member, or on what no schema sees.
var serverOnly = []string{
	"duplicate_member", "not_a_date", "range_inverted", "not_computable", "over_100_percent",
}

// TestMutants changes the examples of the document at random, 3,000 times per
// operation, and posts them. Whatever comes, the service answers 200, 400 or 422,
// accepts nothing that the schema refuses, and refuses nothing that the schema
// accepts except by a code of serverOnly.
func TestMutants(t *testing.T) {
	for _, o := range operation.All {
		t.Run(o.Name, func(t *testing.T) {
			t.Parallel()
			var seeds []string
			for _, example := range requestExamples(t, o.Name) {
				seeds = append(seeds, encodeJSON(t, example.Value.Value))
			}
			slices.Sort(seeds)
			random := rand.New(rand.NewPCG(7, uint64(len(o.Name))))
			accepted := 0
			for i := 0; i < 3000 && !t.Failed(); i++ {
				body := mutate(random, seeds[i%len(seeds)])
				if checkMutant(t, o.Name, body) {
					accepted++
				}
			}
			if accepted < 50 || accepted > 2950 {
				t.Errorf("%d of 3,000 mutants were accepted: the mutation is too wild or too tame", accepted)
			}
		})
	}
}

func checkMutant(t *testing.T, operation, body string) (accepted bool) {
	t.Helper()
	w := post(t, operation, body)
	schema := validates(schemaName(operation)+"Request", []byte(body))
	switch w.Code {
	case http.StatusOK:
		if schema != nil {
			t.Errorf("accepted, but not by the schema: %v\n%s", schema, body)
		}
		return true
	case http.StatusUnprocessableEntity:
		var p wire.Problem
		if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
			t.Error(err)
		}
		alone := len(p.Errors) > 0 && !slices.ContainsFunc(p.Errors, func(e wire.FieldError) bool {
			return !slices.Contains(serverOnly, e.Code) && !crossField(operation, e)
		})
		if schema == nil && !alone {
			t.Errorf("the schema takes it, the service does not: %s\n%s", w.Body, body)
		}
	case http.StatusBadRequest:
		if json.Valid([]byte(body)) && utf8.ValidString(body) {
			t.Errorf("called not JSON: %s", body)
		}
	default:
		t.Errorf("answered %d: %s", w.Code, body)
	}
	return false
}

// crossField tells whether a refusal hangs on more than the member it names: a
// member that another one makes necessary, for instance.
func crossField(operation string, e wire.FieldError) bool {
	for _, c := range crossFieldCodes[operation] {
		code, suffix, _ := strings.Cut(c, " ")
		if e.Code == code && strings.HasSuffix(e.Pointer, suffix) {
			return true
		}
	}
	return false
}

// nozzleCodes are those of a nozzle whose flow chart falls back.
var nozzleCodes = []string{"not_rising /pressure"}

// instrumentCodes are those of instruments and of what names them.
var instrumentCodes = []string{
	"unknown_instrument ", "wrong_instrument ", "instrument_not_named ", "duplicate_id /id", "stopwatch_only /reactionTime",
	"wrong_quantity /resolution/unit",
}

// crossFieldCodes lists, by operation, code and end of pointer.
var crossFieldCodes = map[string][]string{
	"application-rate": {
		"rate_basis_required /rateBasis", "above_label_maximum /targetApplicationRate", "below_label_minimum /targetApplicationRate",
		"not_rising /pressure", "required /sprayPressure", "required /rowSpacing",
		"required /nozzleFlowRate", "required /groundSpeed", "required /sprayedWidthPerNozzle", "required /applicationRate",
	},
	"pump-demand":         append([]string{"required /sprayPressure"}, nozzleCodes...),
	"meter-calibration":   {"wrong_quantity /indicated/unit", "wrong_quantity /measured/unit", "wrong_quantity /per/unit", "conflict /indicated", "conflict /pulses", "conflict /currentFactor"},
	"area-check":          {"required /area", "required /courseLength", "required /width", "required /expectedApplicationRate"},
	"convert":             {"wrong_quantity /to"},
	"ground-speed":        instrumentCodes,
	"pressure-uniformity": instrumentCodes,
	"nozzle-flow":         append([]string{"pressure_required /sprayPressure", "required /sprayPressure"}, instrumentCodes...),
	"nozzle-acceptance": append([]string{
		"nozzle_required /nozzle", "fewer_than_caught /catchPointsOnBoom", "mean_needs_two /catches", "pressure_required /sprayPressure",
		"rated_basis_only /tolerance/basis", "rated_basis_only /tolerance/mean",
	}, append(nozzleCodes, instrumentCodes...)...),
	"tank-loads": {
		"usable_above_tank /usableVolume", "residual_too_large /residualVolume", "conflict /treatedArea", "too_many_loads /tankVolume",
		"content_above_whole /activeIngredientContent", "measure_mismatch /labelMaximum", "products_exceed_load /products",
	},
	"pattern-uniformity": {
		"required /nozzleSpacing", "all_empty /readings", "all_empty /nozzlePattern/volumes",
		"closer_than_cups /nozzleSpacing", "closer_than_cups /spacingRange/low",
	},
	"wear-forecast": append([]string{
		"required /hours", "required /date", "not_a_date /date", "conflict /hours", "conflict /hoursPerSeason", "needs_two_times /catches",
	}, nozzleCodes...),
	"corrections": append([]string{
		"above_label_maximum /targetApplicationRate", "below_label_minimum /targetApplicationRate", "out_of_range /pressureExponent",
		"outside_spray_volume_range /targetApplicationRate", "unknown_label /label",
		"required /measured/engineSpeed", "required /measured/dutyCycle",
		"over_100_percent /measured/dutyCycle", "over_100_percent /dutyCycleLimits/high", "unknown_label /measured/gear", "duplicate_label /label",
		"required /label", "required /nozzle/ratedFlowRate", "required /nozzle/ratedPressure", "conflict /rateController",
	}, nozzleCodes...),
	"calibrations": append([]string{
		"nozzle_required /nozzle", "fewer_than_caught /output/catchPointsOnBoom", "mean_needs_two /output/catches",
		"pressure_required /output/sprayPressure", "rated_basis_only /output/tolerance/basis", "rated_basis_only /output/tolerance/mean", "above_label_maximum /target/applicationRate", "below_label_minimum /target/applicationRate", "rate_basis_required /target/rateBasis",
		"not_after_measured /schedule/nextSeasonStart", "required /machine/rowSpacing",
		"outside_spray_volume_range /target/applicationRate", "unknown_label /label", "duplicate_label /label", "required /machine/engineSpeed",
		"required /label", "out_of_range /planning",
		"unknown_label /replaces", "incomplete_follow_up ",
	}, append(nozzleCodes, instrumentCodes...)...),
}

// mutate changes one to three things in a JSON text.
func mutate(r *rand.Rand, seed string) string {
	var v any
	decoder := json.NewDecoder(strings.NewReader(seed))
	decoder.UseNumber()
	if err := decoder.Decode(&v); err != nil {
		panic(err)
	}
	for range 1 + r.IntN(3) {
		v = change(r, v)
	}
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	body := string(b)
	// A broken or doubled text. No e is put in: it can make an exponent of fifteen
	// digits, which the schema's reader cannot hold.
	if r.IntN(20) == 0 {
		at := r.IntN(len(body))
		body = body[:at] + string("{}[],:\"0-"[r.IntN(9)]) + body[at:]
	}
	return body
}

var strangers = []any{
	nil, true, "", "left", "gal", "psi", "é", json.Number("0"), json.Number("-1"), json.Number("1"), json.Number("3.0"), json.Number("2.5"), json.Number("1e308"),
	json.Number("1e-320"), json.Number("1e9"), json.Number("1e-9"), json.Number("1000"), json.Number("1001"), []any{}, map[string]any{},
	map[string]any{"value": json.Number("5"), "unit": "ft"}, map[string]any{"value": json.Number("40"), "unit": "psi"},
	map[string]any{"value": json.Number("10"), "unit": "%"}, map[string]any{"value": json.Number("20"), "unit": "gal_us/acre"},
}

// change walks down at random and changes what it arrives at.
func change(r *rand.Rand, v any) any {
	switch x := v.(type) {
	case map[string]any:
		names := make([]string, 0, len(x))
		for n := range x {
			names = append(names, n)
		}
		slices.Sort(names)
		if len(names) == 0 || r.IntN(12) == 0 {
			x[fmt.Sprintf("stranger%d", r.IntN(3))] = clone(strangers[r.IntN(len(strangers))])
			return x
		}
		n := names[r.IntN(len(names))]
		switch r.IntN(8) {
		case 0:
			delete(x, n)
		case 1:
			x[strings.ToUpper(n[:1])+n[1:]] = x[n]
			delete(x, n)
		default:
			x[n] = change(r, x[n])
		}
		return x
	case []any:
		if len(x) == 0 {
			return []any{clone(strangers[r.IntN(len(strangers))])}
		}
		i := r.IntN(len(x))
		switch r.IntN(8) {
		case 0:
			return slices.Delete(x, i, i+1)
		case 1:
			return append(x, clone(x[i]))
		default:
			x[i] = change(r, x[i])
		}
		return x
	case json.Number:
		f, _ := x.Float64()
		if r.IntN(2) == 0 && f < 1e300 && f > -1e300 { // a larger one could become infinite, which is not JSON
			return json.Number(fmt.Sprint(f * (0.2 + 2*r.Float64())))
		}
	}
	return clone(strangers[r.IntN(len(strangers))])
}

func clone(v any) any {
	b, _ := json.Marshal(v)
	decoder := json.NewDecoder(strings.NewReader(string(b)))
	decoder.UseNumber()
	var c any
	_ = decoder.Decode(&c)
	return c
}
