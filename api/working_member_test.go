package api

import (
	"encoding/json"
	"strings"
	"testing"
)

// checkMember follows a line's pointer into the answer and finds its result there.
func checkMember(t *testing.T, answer map[string]any, member string, value float64, symbol string) {
	t.Helper()
	got, err := follow(answer, strings.TrimPrefix(member, "#"))
	if err != nil {
		t.Errorf("%s: %v", member, err)
		return
	}
	if n, bare := got.(float64); bare {
		got = map[string]any{"value": n, "unit": "1"}
	}
	if m, money := got.(map[string]any); money && m["currency"] != nil {
		got = map[string]any{"value": m["amount"], "unit": "1"}
	}
	if want := map[string]any{"value": value, "unit": symbol}; !jsonEqual(got, want) {
		t.Errorf("%s is %v, its line says %v", member, got, want)
	}
}

func jsonEqual(a, b any) bool {
	x, _ := json.Marshal(a)
	y, _ := json.Marshal(b)
	return string(x) == string(y)
}
