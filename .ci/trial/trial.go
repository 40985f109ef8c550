package main

import "math"

// A trial is one sheet with the truth behind it. A kind changes it in three places: what
// machine is drawn (want), what is true of it (truth), what is written down (entry).
type trial struct {
	draw
	kind *kind
	want wish
	m    *machine
	crew crew
	s    sheet

	limit      float64 // of a nozzle's output
	basis      string  // of the tolerance, as written
	rating     bool    // whether the sheet has one
	rateBasis  string  // that the target truly means: treated, field, or none
	target     float64
	off        float64 // how far the true rate is meant to be from the target; NaN for well within
	rateLimit  float64 // tolerance of the rate
	labelMax   float64 // 0 for none
	labelMin   float64
	speeds     *span // limits
	pressures  *span
	caught     []int // the drops
	catches    int   // how many to catch
	readings   int
	runs       int
	positions  bool
	first      map[int]drop // how drops were at first that were caught again
	timesApart bool         // catches are not all as long
	runsApart  float64      // how far the last run is from the others
	noRows     bool         // no row spacing
	ranged     bool         // the nozzle's range stands on the sheet

	// What is true beside the machine.
	open     bool // a finding by eye is not done
	reach    bool // the rate is off, and what reaches it is allowed
	notReady bool // something else is wrong, so that READY misses it
	thin     bool // a part of the boom was not seen
	slip     *slip
}

// A slip is one entry that is not what was measured. A question may point at any of these, at
// what holds them, or be one of these steps.
type slip struct {
	what     string
	accepted []string
	codes    []string
}

// run draws the trial of a kind from its chance.
func (k *kind) run(d draw) *trial {
	t := &trial{draw: d, kind: k, first: map[int]drop{}}
	t.catches, t.readings, t.runs = 12, 3+d.IntN(4), 2+d.IntN(2)
	t.positions = d.chance(0.9)
	t.off = math.NaN()
	t.limit = pick(d, 0.10, 0.10, 0.10, 0.07, 0.05)
	t.basis = pick(d, "rated", "rated", "mean", "both", "", "none")
	t.rating = t.basis != "mean" && t.basis != "" || d.chance(0.5)
	if t.basis == "none" { // no tolerance on the sheet at all: 10 % of the rating (openapi/components)
		t.limit, t.rating = 0.10, true
	}
	t.rateLimit = pick(d, 0.10, 0.10, 0.08)
	if k.want != nil {
		k.want(t)
	}
	t.m = machineOf(d, t.want)
	if t.rateBasis == "" && !t.noRows && !t.m.plain && (t.want.rows || d.chance(0.5)) {
		t.rateBasis = pick(d, "treated", "field")
	}
	t.caught = spreadOver(d, t.m, t.catches)
	t.m.calm(t.limit-0.04, t.caught)
	meant := t.m.rate(t.rateBasis)
	t.frame()
	if k.truth != nil {
		k.truth(t)
	}
	t.aim(meant)
	t.crew = crewOf(d, t.m, t.limit)
	t.write()
	if k.entry != nil {
		k.entry(t)
	}
	return t
}

// heldTo tells what the catches are held to.
func (t *trial) heldTo() (rated, mean bool) {
	switch t.basis {
	case "rated", "none":
		return true, false
	case "mean":
		return false, true
	case "both":
		return true, true
	}
	return t.rating, !t.rating
}

// outside is how far a caught drop truly is from what it is held to, as a share either way; by
// the more forgiving of mean and median where the catches are held to each other.
func (t *trial) outside(i int) float64 {
	rated, mean := t.heldTo()
	far := 0.0
	if rated {
		far = math.Abs(t.m.fromRated(&t.m.drops[i]))
	}
	if mean {
		a, b := t.m.fromMean(&t.m.drops[i], t.caught)
		far = max(far, min(math.Abs(a), math.Abs(b)))
	}
	return far
}

// above is how much more a drop truly gives than it should, by its rating or beside the others.
func (t *trial) above(i int) float64 {
	_, median := t.m.fromMean(&t.m.drops[i], t.caught)
	return max(t.m.fromRated(&t.m.drops[i]), median)
}
