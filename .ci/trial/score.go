package main

import (
	"fmt"
	"math"
	"strings"
)

// A score is what an answer did wrong, and what it could have done wrong.
type score struct {
	could  [words]bool
	faults [words]string // why; empty for none
}

func (s *score) fault(w word, format string, args ...any) {
	if s.faults[w] == "" {
		s.faults[w] = fmt.Sprintf(format, args...)
	}
}

var (
	setCodes      = []string{"replace_all_and_recatch", "replace_all_by_eye"}
	purchaseCodes = []string{"replace_all_and_recatch", "replace_all_by_eye", "replace"}
	questionCodes = []string{"check_entry", "check_and_recatch"}
	byEyeCodes    = []string{"clean_by_eye", "replace_by_eye", "replace_all_by_eye"}
)

// judge scores an answer by the truth alone.
func judge(t *trial, a *answer) *score {
	s := &score{}
	ready := a.Verdict == "ready"
	s.could[unsafe], s.could[needless], s.could[contradiction] = true, true, true
	if ready {
		if why := t.danger(); why != "" {
			s.fault(unsafe, "READY: %s", why)
		}
	}
	s.plans(t, a)
	s.purchases(t, a)
	s.contradictions(t, a)
	if why := t.wrong(); why != "" {
		s.could[missed] = true
		if ready {
			s.fault(missed, "%s", why)
		}
	}
	if t.thin {
		s.could[thin] = true
		if ready {
			s.fault(thin, "a part of the boom was not seen")
		}
	}
	if t.slip != nil {
		s.could[unquestioned] = true
		if !t.questioned(a) {
			s.fault(unquestioned, "no question about the %s: %v", t.slip.what, t.slip.accepted)
		}
	}
	if t.reach {
		s.could[stuck] = true
		if len(a.Correction.Result.Plans) == 0 && !ready {
			s.fault(stuck, "no plan")
		}
	}
	if !t.kind.sound {
		return s
	}
	s.could[asked] = true
	for _, x := range a.NextSteps {
		if is(x.Code, questionCodes...) {
			s.fault(asked, "%s %s", x.Code, x.Pointer)
		}
	}
	if t.crew.fit(t.limit, &t.s) {
		s.could[falseAlarm] = true
		if !ready {
			s.fault(falseAlarm, "%s", a.Verdict)
		}
	}
	return s
}

// danger is why nobody may spray with the machine.
func (t *trial) danger() string {
	if rate := t.m.rate(t.rateBasis); t.labelMax != 0 && rate > 1.03*t.labelMax {
		return fmt.Sprintf("the true rate is %.1f %% over the label", 100*(rate/t.labelMax-1))
	}
	if s := t.m.spread(); s > 1.3*t.m.allowed {
		return fmt.Sprintf("pressures truly differ by %.0f kPa", s)
	}
	if t.open {
		return "a finding by eye is not done"
	}
	return ""
}

// wrong is why the sheet may not be READY.
func (t *trial) wrong() string {
	for _, i := range t.caught {
		if far := t.outside(i); far > t.limit+0.04 {
			return fmt.Sprintf("%s is truly %.1f %% off", t.m.drops[i].label, 100*far)
		}
	}
	if off := t.m.rate(t.rateBasis)/t.target - 1; t.slip == nil && math.Abs(off) > t.rateLimit+0.03 {
		return fmt.Sprintf("the rate is truly %.1f %% off", 100*off)
	}
	p := t.m.meanPressure()
	if n := t.s.Nozzle; n != nil && n.PressureRange.misses(p) || t.s.Limits != nil && t.s.Limits.SprayPressure.misses(p) {
		return fmt.Sprintf("the pressure is truly %.0f kPa", p)
	}
	if t.s.Limits != nil && t.s.Limits.GroundSpeed.misses(t.m.speed) {
		return fmt.Sprintf("the speed is truly %.2f m/s", t.m.speed)
	}
	if t.notReady {
		return "by its kind"
	}
	return ""
}

// misses tells whether x lies outside by 5 % or more.
func (s *span) misses(x float64) bool {
	return s != nil && (x < 0.95*s.Low.inside() || x > 1.05*s.High.inside())
}

// questioned tells whether one of the first two steps asks about the slip.
func (t *trial) questioned(a *answer) bool {
	for _, x := range a.NextSteps[:min(2, len(a.NextSteps))] {
		if is(x.Code, t.slip.codes...) {
			return true
		}
		if !is(x.Code, questionCodes...) {
			continue
		}
		for _, p := range t.slip.accepted {
			if under(x.Pointer, p) || x.Pointer != "#" && under(p, x.Pointer) {
				return true
			}
		}
	}
	return false
}

// under tells whether a pointer is one of a place or of something in it.
func under(pointer, place string) bool {
	return pointer == place || strings.HasPrefix(pointer, place+"/")
}

// purchases scores what is to be bought or repaired.
func (s *score) purchases(t *trial, a *answer) {
	worn := t.m.worn(t.limit)
	for _, x := range a.NextSteps {
		switch {
		case x.Code == "replace_all_by_eye" && t.open:
		case t.slip != nil && (is(x.Code, purchaseCodes...) || x.Code == "repair_boom"):
			s.fault(needless, "%s for a slip", x.Code)
		case is(x.Code, setCodes...) && worn <= 0.25:
			s.fault(needless, "a new set, and %.0f %% are worn", 100*worn)
		case x.Code == "replace":
			if i := t.dropAt(x.Pointer); i >= 0 && t.above(i) < t.limit-0.03 {
				s.fault(needless, "%s is replaced at %+.1f %%", t.m.drops[i].label, 100*t.above(i))
			}
		case x.Code == "repair_boom" && t.m.spread() < 0.8*t.m.allowed:
			s.fault(needless, "the mechanic, and pressures differ by %.0f kPa", t.m.spread())
		}
	}
}

// dropAt is the drop that a pointer to a catch or a follow-up speaks of, or -1.
func (t *trial) dropAt(pointer string) int {
	var n int
	if k, _ := fmt.Sscanf(pointer, "#/output/catches/%d", &n); k == 1 && n < len(t.caught) {
		return t.caught[n]
	}
	if k, _ := fmt.Sscanf(pointer, "#/output/followUps/%d", &n); k == 1 && n < len(t.s.Output.FollowUps) {
		for i, c := range t.s.Output.Catches {
			if c.Label == t.s.Output.FollowUps[n].Replaces {
				return t.caught[i]
			}
		}
	}
	return -1
}
