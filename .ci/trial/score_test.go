package main

import (
	"bytes"
	"math"
	"reflect"
	"strings"
	"testing"
)

// twelve is a plain boom of twelve new nozzles, in order: 0.2 gal/min at 40 psi, at 3 mph and
// 20 in the trade's 5940 x 0.2 / (3 x 20) = 19.8 gal/acre, which is the target.
func twelve() *trial {
	m := &machine{plain: true, spacing: 20 * inch, ratedFlow: 0.2 * factors["gal_us/min"], ratedAt: 40 * psi, speed: 3 * mph, duty: 1, sides: allSides, allowed: 10 * psi}
	for i := range 12 {
		m.drops = append(m.drops, drop{label: "x", side: allSides[i/4], pressure: 40 * psi, nozzles: []nozzle{{rating: 1, size: 1, maker: 1}}})
	}
	t := &trial{kind: &kind{sound: true}, m: m, first: map[int]drop{}, limit: 0.1, basis: "rated", rating: true, rateLimit: 0.1, target: 19.8 * factors["gal_us/acre"]}
	t.crew.listed, t.crew.jugMark = true, 5
	t.caught = spreadOver(drawOf(1, 1), m, 12)
	for range 12 {
		t.s.Output.Catches = append(t.s.Output.Catches, catch{Label: "x", Volume: &quantity{12.8, "fl_oz_us"}})
	}
	return t
}

func TestRateByTheTradesConstant(t *testing.T) {
	if got := twelve().m.rate("") / factors["gal_us/acre"]; math.Abs(got-19.8) > 0.001 { // 5940 is exact to 5 digits
		t.Errorf("%v gal/acre", got)
	}
}

// TestEnough: 0.75^11 is 4.2 %, 0.75^10 is 5.6 %. Of 12 points of which 4 are outside, 6 catches
// miss all in C(8, 6) / C(12, 6) = 28 / 924 of the cases, 3.0 %, and 5 in 56 / 792, 7.1 %.
func TestEnough(t *testing.T) {
	for _, c := range []struct {
		caught, points int
		want           bool
	}{{11, 0, true}, {10, 0, false}, {6, 12, true}, {5, 12, false}, {12, 12, true}} {
		if enough(c.caught, c.points) != c.want {
			t.Errorf("%+v", c)
		}
	}
}

func TestWords(t *testing.T) {
	steps := func(s ...string) (all []step) {
		for _, x := range s {
			code, pointer, _ := strings.Cut(x, " ")
			all = append(all, step{Code: code, Pointer: pointer})
		}
		return all
	}
	offered := func(speed float64, s ...string) answer {
		a := answer{Verdict: "not_ready", NextSteps: steps(s...)}
		a.Speed.Result.GroundSpeed = &quantity{3, "mph"}
		a.Correction.Result.Plans = []plan{{Change: "speed", GroundSpeed: &quantity{speed, "mph"}}}
		return a
	}
	ready := answer{Verdict: "ready", NextSteps: steps("file_record", "calibrate_again", "settle_rate")}
	says := func(s ...string) answer { return answer{Verdict: "not_ready", NextSteps: steps(s...)} }
	unsound := func(t *trial) { t.kind = &kind{} }
	slipped := func(t *trial) {
		unsound(t)
		t.slip = &slip{what: "reading", accepted: []string{"#/pressure/readings/1"}}
	}
	worn := func(share float64, drops int) func(*trial) {
		return func(t *trial) {
			unsound(t)
			for i := range drops {
				t.m.drops[i].nozzles[0].wear = share
			}
		}
	}
	for name, c := range map[string]struct {
		truth func(*trial)
		said  answer
		want  []word
	}{
		"sound and ready":     {nil, ready, nil},
		"sound and not ready": {nil, says("catch_again #/output/catches/2"), []word{falseAlarm}},
		"asked for nothing":   {nil, says("check_entry #/speed/runs/0/time"), []word{asked, falseAlarm}},
		"bought for nothing":  {nil, says("replace #/output/catches/2"), []word{needless, falseAlarm}},
		"mended for nothing":  {nil, says("repair_boom"), []word{needless, falseAlarm}},
		"over the label":      {func(t *trial) { unsound(t); t.labelMax = t.target / 1.04 }, ready, []word{unsafe}},
		"a hair over":         {func(t *trial) { unsound(t); t.labelMax = t.target / 1.02 }, ready, nil},
		"uneven":              {func(t *trial) { unsound(t); t.m.drops[0].pressure -= 14 * psi }, ready, []word{unsafe, missed}}, // 26 psi give sqrt(26 / 38.8) = 0.82
		"found by eye":        {func(t *trial) { unsound(t); t.open = true }, ready, []word{unsafe}},
		"found, and a plan":   {func(t *trial) { unsound(t); t.open = true }, offered(3, "clean_by_eye", "choose_plan"), []word{unsafe}},
		"a plan over the label": {func(t *trial) { // 3 mph / 2.5 are 20 % more
			unsound(t)
			t.target, t.labelMax = t.target*1.15, t.target*1.15
		}, offered(2.5, "choose_plan"), []word{unsafe}},
		"a plan beyond the limits": {func(t *trial) {
			unsound(t)
			t.target /= 1.2
			t.s.Limits = &sheetLimits{GroundSpeed: &span{&quantity{2, "mph"}, &quantity{3.5, "mph"}}}
		}, offered(3.6, "choose_plan"), []word{unsafe}},
		"a plan that helps":    {func(t *trial) { unsound(t); t.target /= 1.2 }, offered(3.6, "choose_plan"), nil},
		"a plan the wrong way": {func(t *trial) { unsound(t); t.target /= 1.2 }, offered(2.5, "choose_plan"), []word{wrongWay}},
		"a plan that mends a limit": { // 19.8 gal/acre at 3 mph are 19.2 at 3.1
			func(t *trial) {
				unsound(t)
				t.s.Limits = &sheetLimits{GroundSpeed: &span{&quantity{3.1, "mph"}, &quantity{4, "mph"}}}
			}, offered(3.1, "choose_plan"), nil},
		"one worn, replaced":           {worn(0.2, 1), says("replace #/output/catches/0"), nil},
		"one worn, another replaced":   {worn(0.2, 1), says("replace #/output/catches/3"), []word{needless}},
		"one worn, a set":              {worn(0.2, 1), says("replace_all_and_recatch"), []word{needless}},
		"a third worn, a set":          {worn(0.2, 4), says("replace_all_and_recatch"), nil},
		"one worn and ready":           {worn(0.2, 1), ready, []word{missed}},
		"worn by less than can be":     {worn(0.13, 1), ready, nil},
		"the rate":                     {func(t *trial) { unsound(t); t.target *= 1.2 }, ready, []word{missed}},
		"a side not seen":              {func(t *trial) { unsound(t); t.thin = true }, ready, []word{thin}},
		"a slip and ready":             {slipped, ready, []word{unquestioned}},
		"a slip, asked":                {slipped, says("check_entry #/pressure/readings/1/pressure"), nil},
		"a slip, asked about its part": {slipped, says("check_entry #/pressure"), nil},
		"a slip, asked elsewhere":      {slipped, says("check_entry #/pressure/readings/2"), []word{unquestioned}},
		"a slip, asked third":          {slipped, says("time_runs", "set_target", "check_entry #/pressure/readings/1"), []word{unquestioned}},
		"a slip, and the mechanic":     {slipped, says("check_entry #/pressure/readings/1", "repair_boom"), []word{needless}},
		"cleaning beside a repair":     {unsound, says("catch_after_repair", "clean_and_recatch #/output/catches/0"), []word{contradiction}},
		"cleaning beside the rating":   {unsound, says("check_entry #/nozzle/ratedFlowRate", "clean_and_recatch #/output/catches/0"), []word{contradiction}},
		"cleaning beside a run":        {unsound, says("check_entry #/speed/runs/0", "clean_and_recatch #/output/catches/0"), nil},
		"two for one catch":            {unsound, says("settle_catch #/output/catches/0", "clean_and_recatch #/output/catches/0"), []word{contradiction}},
		"made again twice": {func(t *trial) {
			unsound(t)
			t.first[t.caught[0]] = t.m.drops[t.caught[0]]
		}, says("catch_again #/output/catches/0"), []word{contradiction}},
		"ready with work": {unsound, answer{Verdict: "ready", NextSteps: steps("catch_again #/output/catches/0")}, []word{contradiction}},
		"three questions": {unsound, says("check_entry #/a", "check_entry #/b", "check_entry #/c"), []word{contradiction}},
	} {
		x := twelve()
		if c.truth != nil {
			c.truth(x)
		}
		s := judge(x, &c.said)
		var got []word
		for w := range words {
			if s.faults[w] != "" {
				got = append(got, w)
			}
		}
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %v, want %v: %q", name, got, c.want, s.faults)
		}
	}
}

// TestActionsTell: what the output tells is held against the steps.
func TestActionsTell(t *testing.T) {
	a := answer{Verdict: "not_ready", NextSteps: []step{{Code: "repair_boom"}, {Code: "catch_after_repair"}}}
	a.Output.Result.Actions = []action{{"replace", "#/catches/3"}}
	x := twelve()
	x.kind, x.m.drops[0].pressure = &kind{}, 20*psi
	if s := judge(x, &a); s.faults[contradiction] == "" {
		t.Error("a purchase in the output beside a repair")
	}
}

// TestSoundIsSound: what counts as sound is so with the margin that the trial promises, and no
// truth of it is wrong or dangerous.
func TestSoundIsSound(t *testing.T) {
	for _, k := range kinds() {
		for i := range uint64(300) {
			if !k.sound {
				break
			}
			x := k.run(drawOf(7, i))
			if why := x.danger() + x.wrong(); why != "" {
				t.Fatalf("%s, %d: %s", k.name, i, why)
			}
			for _, j := range x.caught {
				if x.outside(j) > x.limit-0.04 {
					t.Fatalf("%s, %d: a drop is %v off", k.name, i, x.outside(j))
				}
			}
			if off := x.m.rate(x.rateBasis)/x.target - 1; math.Abs(off) > x.rateLimit/2*1.01 {
				t.Fatalf("%s, %d: the rate is %v off", k.name, i, off)
			}
			if x.m.spread() > x.m.allowed/2 {
				t.Fatalf("%s, %d: pressures differ by %v", k.name, i, x.m.spread())
			}
		}
	}
}

// TestNoSheetIsRefusedForNumbers: no kind writes a value that no sheet may have.
func TestNoSheetIsRefusedForNumbers(t *testing.T) {
	var out bytes.Buffer
	for _, k := range kinds() {
		for i := range uint64(20) {
			if _, refused, err := ask(calibrations, &k.run(drawOf(11, i)).s, &out); err != nil || strings.Contains(refused, "not_positive") {
				t.Fatalf("%s, %d: %v %s", k.name, i, err, refused)
			}
		}
	}
}

// TestSameSeedSameSheet: what a run finds can be shown again.
func TestSameSeedSameSheet(t *testing.T) {
	for _, k := range kinds() {
		if a, b := k.run(drawOf(3, 9)), k.run(drawOf(3, 9)); !reflect.DeepEqual(a.s, b.s) {
			t.Errorf("%s: two sheets", k.name)
		}
	}
}
