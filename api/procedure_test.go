package api

import (
	"encoding/json"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// The stages in the order of the job.
var stageOrder = []string{"plan", "prepare", "maintain", "pressure", "output", "speed", "rate", "correct", "cross_check", "mix", "keep"}

// TestProcedurePage reads the page as a client does: it follows its schema, every
// id is there once, everything has words, and what it refers to exists.
func TestProcedurePage(t *testing.T) {
	w := call(t, http.MethodGet, "/v1/procedure", "")
	h := w.Header()
	if w.Code != http.StatusOK || h.Get("ETag") == "" || h.Get("Content-Language") != "en" || h.Get("Vary") != "Accept-Language" {
		t.Fatalf("%d %v", w.Code, h)
	}
	if again := call(t, http.MethodGet, "/v1/procedure", "", "If-None-Match", h.Get("ETag")); again.Code != http.StatusNotModified {
		t.Errorf("with its own tag: %d", again.Code)
	}
	if err := validates("ProcedureAnswer", w.Body.Bytes()); err != nil {
		t.Error(err)
	}
	var p operation.ProcedureAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	once := func(kind, code, words string) {
		t.Helper()
		key := kind + code
		if seen[key] {
			t.Errorf("%s stands twice", key)
		}
		seen[key] = true
		reads(t, key, words)
	}
	reads(t, "procedure.source", p.Source.Detail)
	for kind, list := range map[string][]operation.Notice{"person.": p.People, "equipment.": p.ProtectiveEquipment, "tool.": p.Tools, "caution.": p.Cautions} {
		for _, n := range list {
			once(kind, n.Code, n.Text)
		}
	}
	var order []string
	used := map[string]bool{}
	for _, s := range p.Stages {
		order = append(order, s.ID)
		once("stage.", s.ID, s.Text)
		for _, x := range s.Steps {
			once("procedure.", x.ID, x.Text)
			checkStep(t, x, seen)
			used[x.Operation] = true
			for _, r := range x.Records {
				seen["record."+r.Code] = true
			}
		}
	}
	if !slices.Equal(order, stageOrder) {
		t.Errorf("stages are %v", order)
	}
	for _, need := range []string{"pressure-uniformity", "nozzle-acceptance", "ground-speed", "application-rate", "corrections", "area-check", "calibrations"} {
		if !used[need] {
			t.Errorf("no step is answered by %s", need)
		}
	}
	// Words and members that nothing shows are left over from a step that is gone.
	for _, key := range text.Keys() {
		kind, _, _ := strings.Cut(key, ".")
		if slices.Contains([]string{"stage", "procedure", "record", "person", "equipment", "tool"}, kind) && !seen[key] && key != "procedure.source" {
			t.Errorf("nothing shows %s", key)
		}
	}
}

// TestProcedureCautionsAtTheHazard: a step has the cautions of what it makes people do.
func TestProcedureCautionsAtTheHazard(t *testing.T) {
	need := map[string][]string{
		"unfold_boom": {"power_lines"}, "flush_sprayer": {"backflow"}, "fill_clean_water": {"backflow"}, "fill_to_mark": {"backflow"},
		"refill_to_mark": {"backflow"}, "mix_load": {"backflow", "tank_entry", "spills"}, "clean_up": {"tank_entry"},
		"release_pressure": {"machine_off", "pressure_injects"}, "clean_filters": {"machine_off", "pressure_injects"},
		"look_at_hoses": {"machine_off", "pressure_injects"}, "replace_rejected": {"machine_off", "pressure_injects"},
		"read_boom_pressure": {"machine_off", "pressure_injects", "running_machine"}, "repair_uneven_boom": {"machine_off"},
		"clean_or_replace_nozzles": {"machine_off", "pressure_injects"}, "catch_drops": {"running_machine"},
		"catch_repaired_drops": {"running_machine"}, "time_two_runs": {"moving_tractor"}, "spray_measured_area": {"moving_tractor"},
	}
	var p operation.ProcedureAnswer
	if err := json.Unmarshal(call(t, http.MethodGet, "/v1/procedure", "").Body.Bytes(), &p); err != nil {
		t.Fatal(err)
	}
	used := map[string]bool{}
	for _, s := range p.Stages {
		for _, x := range s.Steps {
			for _, code := range x.Cautions {
				used[code] = true
			}
			for _, code := range need[x.ID] {
				if !slices.Contains(x.Cautions, code) {
					t.Errorf("%s lacks %s", x.ID, code)
				}
			}
			delete(need, x.ID)
		}
	}
	if len(need) > 0 {
		t.Errorf("no such steps: %v", need)
	}
	for _, c := range p.Cautions {
		if !used[c.Code] {
			t.Errorf("no step has %s", c.Code)
		}
	}
}

// checkStep proves that what a step names is there.
func checkStep(t *testing.T, x operation.ProcedureStepAnswer, seen map[string]bool) {
	t.Helper()
	if !seen["person."+x.Who] {
		t.Errorf("%s: nobody is a %s", x.ID, x.Who)
	}
	if x.Operation != "" && !slices.ContainsFunc(operation.All, func(o operation.Operation) bool { return o.Name == x.Operation }) {
		t.Errorf("%s: there is no operation %s", x.ID, x.Operation)
	}
	if len(x.CautionTexts) != len(x.Cautions) {
		t.Fatalf("%s: %d texts for %d cautions", x.ID, len(x.CautionTexts), len(x.Cautions))
	}
	for i, c := range x.Cautions {
		if !seen["caution."+c] {
			t.Errorf("%s: the page has no caution %s", x.ID, c)
		}
		reads(t, "caution."+c, x.CautionTexts[i])
	}
	for _, r := range x.Records {
		reads(t, "record."+r.Code, r.Text)
		if r.Member != "" && !takes(t, r.Member) {
			t.Errorf("%s: nothing takes %s", x.ID, r.Member)
		}
	}
}

// reads proves that a key has words, that these are the ones shown, and that the
// code is in snake case.
func reads(t *testing.T, key, words string) {
	t.Helper()
	if !text.Has(key) || words != text.Of(text.English, key) {
		t.Errorf("%s is worded as %q", key, words)
	}
	if _, code, _ := strings.Cut(key, "."); !regexp.MustCompile(`^[a-z]+(_[a-z]+)*$`).MatchString(code) {
		t.Errorf("%s is not in snake case", key)
	}
}

// TestProcedureQuotesTheTolerances: the figures in its words are the presets'.
func TestProcedureQuotesTheTolerances(t *testing.T) {
	for step, figure := range map[string]string{
		"judge_pressure": "10 psi", "catch_drops": "30 s", "measure_course": "100 ft",
		"work_out_rate": "10%", "clean_or_replace_nozzles": "a quarter", "replace_rejected": "three of one bed",
	} {
		if words := text.Of(text.English, "procedure."+step); !strings.Contains(words, figure) {
			t.Errorf("%s does not say %s: %s", step, figure, words)
		}
	}
}
