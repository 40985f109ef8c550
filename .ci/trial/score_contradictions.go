package main

import "strings"

var (
	// byCatches are what catches lead to: they rest on the catches, the pressures that these
	// were made at, and the rating. What was found by eye rests on none of them.
	byCatches  = []string{"replace_all_and_recatch", "replace", "clean_and_recatch", "still_low", "still_high"}
	readyCodes = []string{"file_record", "calibrate_again", "catch_more", "check_sooner", "check_cab_gauge"}
	againCodes = []string{"catch_again", "settle_catch", "check_and_recatch"}
)

// contradictions scores what an answer says against itself.
func (s *score) contradictions(t *trial, a *answer) {
	questions, instructed := 0, map[string]string{}
	repair := a.has("repair_boom", "catch_after_repair")
	for _, x := range a.NextSteps {
		if x.Code == "check_entry" {
			questions++
		}
		if is(x.Code, byCatches...) && repair {
			s.fault(contradiction, "%s beside a repair", x.Code)
		}
		if q := restsOn(a, x.Code, x.Pointer); q != "" {
			s.fault(contradiction, "%s beside a question about %s", x.Code, q)
		}
		if strings.HasPrefix(x.Pointer, "#/output/catches/") || strings.HasPrefix(x.Pointer, "#/output/followUps/") {
			if other := instructed[x.Pointer]; other != "" && other != x.Code {
				s.fault(contradiction, "%s and %s for %s", other, x.Code, x.Pointer)
			}
			instructed[x.Pointer] = x.Code
			if t.again(x) {
				s.fault(contradiction, "%s for %s, which was made again", x.Code, x.Pointer)
			}
		}
		if a.Verdict == "ready" && !is(x.Code, readyCodes...) && !strings.HasPrefix(x.Code, "settle_") {
			s.fault(contradiction, "READY beside %s", x.Code)
		}
	}
	if questions > 2 {
		s.fault(contradiction, "%d questions", questions)
	}
	for _, x := range a.Output.Result.Actions {
		if is(x.Action, byCatches...) && (repair || restsOn(a, x.Action, x.Pointer) != "") {
			s.fault(contradiction, "the output tells %s, which the steps forbid", x.Action)
		}
	}
}

// restsOn is the entry that an instruction by catches rests on while it is asked about: the
// rating, a pressure, or the same catch. One for all rests on every catch.
func restsOn(a *answer, code, pointer string) string {
	if !is(code, byCatches...) {
		return ""
	}
	for _, q := range a.NextSteps {
		switch p := q.Pointer; {
		case q.Code != "check_entry":
		case under(p, "#/nozzle"), under(p, "#/pressure/readings"), p == "#/pressure", p == "#/output", under(p, "#/output/sprayPressure"), p == "#/output/catches":
			return p
		case under(p, "#/output/catches") && (under(p, pointer) && pointer != "" || code == "replace_all_and_recatch"):
			return p
		}
	}
	return ""
}

// again tells whether a step asks for what was done already: a catch made again is to be made
// once more, or a drop that was low is to be cleaned a second time.
func (t *trial) again(x step) bool {
	i := t.dropAt(x.Pointer)
	if i < 0 {
		return false
	}
	first, made := t.first[i]
	return made && (is(x.Code, againCodes...) || x.Code == "clean_and_recatch" && t.m.fromRated(&first) < -t.limit)
}
