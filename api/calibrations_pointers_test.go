package api

import (
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// TestPointersOfASheet: every pointer in the answer to a field sheet leads to a member
// that a sheet can have, and past the index of a list to an entry that it has.
func TestPointersOfASheet(t *testing.T) {
	sheets := map[string]string{}
	for _, name := range []string{"ready", "rate-to-correct", "boom-to-repair"} {
		sheets[name] = demo(t, name)
	}
	for name, x := range requestExamples(t, "calibrations") {
		sheets["example "+name] = encodeJSON(t, x.Value.Value)
	}
	// Each warning of a correction that a sheet can get: what it needs is left out.
	planned := demo(t, "rate-to-correct")
	sheets["no rated shaft"] = without(t, planned, "planning", "ratedShaft")
	sheets["no speed limits"] = without(t, planned, "limits", "groundSpeed")
	unread := without(t, planned, "pressure", "")
	sheets["pressure not read"] = strings.Replace(unread, `"catches":`, `"sprayPressure":{"value":60,"unit":"psi"},"catches":`, 1)
	// What was measured lies outside the limits.
	const above = `"limits":{"groundSpeed":{"low":{"value":30,"unit":"mph"},"high":{"value":31,"unit":"mph"}},
		"sprayPressure":{"low":{"value":65,"unit":"psi"},"high":{"value":70,"unit":"psi"}}}`
	outside := strings.Replace(without(t, planned, "limits", ""), `{`, `{`+above+`,`, 1)
	sheets["outside the limits"] = outside
	sheets["outside the limits, a pressure of its own"] = strings.Replace(outside, `"catches":`, `"sprayPressure":{"value":60,"unit":"psi"},"catches":`, 1)
	found := map[string]bool{}
	for name, sheet := range sheets {
		var request, answer any
		if err := json.Unmarshal([]byte(sheet), &request); err != nil {
			t.Fatal(err)
		}
		w := call(t, "POST", "/v1/calibrations", sheet)
		if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil {
			t.Fatal(err)
		}
		for _, p := range pointersIn(answer) {
			found[p] = true
			if !leadsSomewhere(operation.Named("calibrations").Table.Shape(), request, strings.Split(p, "/")[1:]) {
				t.Errorf("%s: nothing is at %s", name, p)
			}
		}
	}
	for _, p := range []string{"#/planning/ratedShaft", "#/planning/dropletChart", "#/limits/groundSpeed", "#/pressure", "#/speed", "#/output/sprayPressure"} {
		if !found[p] {
			t.Errorf("no answer leads to %s", p)
		}
	}
}

// leadsSomewhere follows a pointer through what a request may have, and through the
// lists that it does have.
func leadsSomewhere(s wire.Shape, node any, steps []string) bool {
	if len(steps) == 0 {
		return true
	}
	if s.Type == "array" {
		items, _ := node.([]any)
		i, err := strconv.Atoi(steps[0])
		if err != nil || i < 0 || i >= len(items) {
			return false
		}
		return leadsSomewhere(wire.Shape{Type: "object", Members: s.Members}, items[i], steps[1:])
	}
	for _, m := range s.Members {
		if m.Name == steps[0] {
			members, _ := node.(map[string]any)
			return leadsSomewhere(m.Shape, members[m.Name], steps[1:])
		}
	}
	return false
}

func pointersIn(node any) (all []string) {
	switch x := node.(type) {
	case map[string]any:
		for name, inner := range x {
			if p, ok := inner.(string); ok && name == "pointer" {
				all = append(all, p)
			} else {
				all = append(all, pointersIn(inner)...)
			}
		}
	case []any:
		for _, inner := range x {
			all = append(all, pointersIn(inner)...)
		}
	}
	return all
}

// without is a sheet less one member of one of its parts, or less the part.
func without(t *testing.T, sheet, part, member string) string {
	t.Helper()
	var request map[string]any
	if err := json.Unmarshal([]byte(sheet), &request); err != nil {
		t.Fatal(err)
	}
	if member == "" {
		delete(request, part)
	} else {
		delete(request[part].(map[string]any), member)
	}
	return encodeJSON(t, request)
}
