package calc

import (
	"cmp"
	"math"
	"slices"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A Doubt is an entry that nobody would believe: what is asked before anything is judged that
// rests on it.
type Doubt struct {
	Entry finding.Place // or the list of entries that would all be wrong alike
	First finding.Place // the first of a list, to say what it would be; zero for an entry alone
	Why   DoubtReason
	Slip  Slip // the likeliest that makes it agree
	// Beside are what it stands beside, the lowest and the highest, in times of itself; zero
	// where it is doubted for something else.
	Beside struct{ Low, High float64 }
	Low    bool // it is lower than what it stands beside

	rests part // what rests on it
}

// DoubtReason is why an entry is not believed.
type DoubtReason string

const (
	DoubtApart     DoubtReason = "apart"     // from others like it
	DoubtMachinery DoubtReason = "machinery" // it, or what follows from it alone, is outside all machinery
	DoubtTarget    DoubtReason = "target"    // the rate misses its target by a factor that a slip explains
	DoubtRating    DoubtReason = "rating"    // the flow misses the rating by one
	DoubtRange     DoubtReason = "range"     // the pressure is far from any that the nozzle is made for
	DoubtRule      DoubtReason = "rule"      // nobody works by such a tolerance
	DoubtTank      DoubtReason = "tank"      // the tank says another rate, by a factor that a slip explains
	DoubtBasis     DoubtReason = "basis"     // the rate misses its target by bed to row spacing
)

// Words lists every reason.
func (DoubtReason) Words() []string {
	return finding.WordsOf([]DoubtReason{DoubtApart, DoubtMachinery, DoubtTarget, DoubtRating, DoubtRange, DoubtRule, DoubtTank, DoubtBasis})
}

// mostDoubts is how many entries of a sheet are asked about at once: who looks up two finds
// the rest.
const mostDoubts = 2

// A part is a set of the parts of a sheet.
type part uint8

const (
	partPressure part = 1 << iota
	partOutput
	partSpeed
	partRate

	everyPart = partPressure | partOutput | partSpeed | partRate
)

// Doubts are the entries of a part of a sheet that nobody would believe, of one that was worked
// out alone: x holds its result, in what it was worked out from.
func Doubts(in *FieldSheetInput, x *FieldSheetResult) []Doubt {
	x.doubts(in)
	return x.Doubts
}

// doubts finds the entries to ask about. Those that stand apart from others like them come
// first; only where there are none is it asked what all entries alike could be wrong by.
// A single low catch is no doubt but dirt.
func (r *FieldSheetResult) doubts(in *FieldSheetInput) {
	b := belief{in: in, r: r}
	b.judgedBy()
	if len(b.found) == 0 {
		b.pressures()
		b.catches()
		b.runs()
	}
	if len(b.found) == 0 {
		b.whole()
	}
	r.Doubts = b.found[:min(len(b.found), mostDoubts)]
	for _, d := range r.Doubts {
		r.doubted |= d.rests
	}
}

type belief struct {
	in    *FieldSheetInput
	r     *FieldSheetResult
	found []Doubt
}

// add takes in a doubt, unless whoever sent the sheet has confirmed the entry.
func (b *belief) add(d Doubt) bool {
	for _, c := range b.in.Confirmed {
		_, within := d.Entry.After(c)
		_, holds := c.After(d.Entry)
		if within || holds {
			return false
		}
	}
	b.found = append(b.found, d)
	return true
}

func (b *belief) typed(p finding.Place) unit.ID {
	if b.in.Typed == nil {
		return unit.None
	}
	return b.in.Typed.TypedIn(p)
}

// An entry is one of several that should be like each other.
type entry struct {
	place finding.Place
	value float64
	rests part
}

// pressures asks about each that is far from the others on the same boom.
func (b *belief) pressures() {
	in := b.in
	low, high := math.Inf(1), 0.0
	note := func(p unit.Pressure) {
		if p != 0 {
			low, high = min(low, float64(p)), max(high, float64(p))
		}
	}
	for _, p := range in.Pressure.Readings {
		note(p)
	}
	note(in.Pressure.CabPressure)
	note(in.Pressure.TargetPressure)
	note(in.Output.SprayPressure)
	for i := range in.Output.Catches {
		note(in.Output.Catches[i].SprayPressure)
	}
	if !apart(low, high) {
		return
	}
	b.askApart(ofPressure, b.pressureEntries())
	b.askReadings()
}

// askReadings asks about all readings instead of a pressure that they make stand apart, where
// that one is borne out: by the flow at it, by the range of the nozzle, by what machinery
// there is. Where nothing tells which is right it asks about both.
func (b *belief) askReadings() {
	readings := b.in.Pressure.Readings
	if len(b.found) == 0 || len(readings) == 0 || slices.ContainsFunc(b.found, func(d Doubt) bool { _, _, one := d.Entry.ItemOf(pressureReadings); return one }) {
		return
	}
	mean, d := float64(b.r.Pressure.Mean), b.found[0]
	atCatches := d.Entry.Equal(catchPressure)
	flow, own := b.byRating(), b.in.Nozzle.PressureRange
	right := flow != 0 && explains(flow) // at the pressure of the catches
	switch {
	case !machinery.pressure.holds(mean), right && atCatches, flow != 0 && !right && b.in.Output.SprayPressure == 0,
		flow == 0 && own.holds(unit.Pressure(mean)) == finding.Outside:
		b.found = b.found[1:]
	case flow != 0 || !atCatches || own.holds(unit.Pressure(mean)) == finding.Within:
		return
	}
	x := b.doubtOf(ofPressure, pressurePart.Item("readings", 0).Member("pressure"), 1/d.Beside.High)
	x.Entry, x.First, x.Why, x.rests = pressureReadings, x.Entry, DoubtApart, partPressure|partOutput
	b.add(x)
}

func (b *belief) pressureEntries() (all []entry) {
	in, onReadings := b.in, partPressure|partOutput // on an uneven boom catches tell nothing
	add := func(place finding.Place, p unit.Pressure, rests part) {
		if p != 0 {
			all = append(all, entry{place, float64(p), rests})
		}
	}
	for i, p := range in.Pressure.Readings {
		add(pressurePart.Item("readings", i).Member("pressure"), p, onReadings)
	}
	add(pressurePart.Member("cabPressure"), in.Pressure.CabPressure, 0)
	add(pressurePart.Member("targetPressure"), in.Pressure.TargetPressure, 0)
	add(outputPart.Member("sprayPressure"), in.Output.SprayPressure, partOutput)
	for i := range in.Output.Catches {
		add(outputPart.Item("catches", i).Member("sprayPressure"), in.Output.Catches[i].SprayPressure, partOutput)
	}
	return all
}

// askApart asks about the entries that are far from the middle one, the furthest first.
func (b *belief) askApart(of entryKind, all []entry) {
	sorted := slices.SortedFunc(slices.Values(all), func(a, c entry) int { return cmp.Compare(a.value, c.value) })
	middle := sorted[len(sorted)/2].value
	if len(sorted)%2 == 0 && apart(middle, sorted[len(sorted)/2-1].value) {
		return // as many on either side: which half is wrong?
	}
	low, high := middle, middle
	for _, e := range sorted {
		if !apart(e.value, middle) {
			low, high = min(low, e.value), max(high, e.value)
		}
	}
	slices.SortStableFunc(all, func(a, c entry) int {
		return cmp.Compare(math.Abs(math.Log(c.value/middle)), math.Abs(math.Log(a.value/middle)))
	})
	for _, e := range all {
		if !apart(e.value, middle) {
			break
		}
		d := b.doubtOf(of, e.place, middle/e.value)
		d.Why, d.rests = DoubtApart, e.rests
		d.Beside.Low, d.Beside.High = low/e.value, high/e.value
		b.add(d)
	}
}

// catches asks about those that gave far more than the others. What gave far less is dirty, but
// where its time is what differs, where another was caught there before that was not low, or
// where several alike are low by one unit. Of what makes a catch the member is asked about whose slip explains it,
// the volume before the others; more than two with one slip are asked about as a list.
func (b *belief) catches() {
	if len(b.in.Output.Catches) < 3 {
		return
	}
	catches, high, low := b.r.Output.Catches, unit.FlowRate(0), unit.FlowRate(math.Inf(1))
	for i := range catches {
		high = max(high, catches[i].NozzleFlowRateAtPressure)
		low = min(low, catches[i].NozzleFlowRateAtPressure)
	}
	if float64(high) < 1.4*float64(low) { // below leastClock within explained, none is apart: most sheets
		return
	}
	middle := float64(b.r.Output.middleFlow())
	usualTime, usualNozzles := b.usualCatch()
	var all []Doubt
	alike := map[Slip]int{}
	for i := range catches {
		c, q := &b.in.Output.Catches[i], float64(catches[i].NozzleFlowRateAtPressure)
		if c.mixed() {
			continue
		}
		off := apart(q, middle)
		if clock := apartBy(float64(c.Time), float64(usualTime), leastClock); !off && !(clock && explains(q/middle*float64(c.Time/usualTime))) {
			continue
		}
		d := b.catchSlip(i, middle/q, usualTime, usualNozzles)
		d.Why, d.rests = DoubtApart, partOutput|partRate
		all = append(all, d)
		alike[d.Slip]++
	}
	for _, d := range all {
		i, member, _ := d.Entry.ItemOf(outputPart.Member("catches"))
		first := b.in.Output.Catches[i].First
		switch {
		case !d.Low, member.Part() == "time", first != nil && d.Slip.Factor != 0 && catches[i].FirstStatus != StatusBelow:
		case (d.Slip.Kind == SlipUnit || d.Slip.Kind == SlipConverted) && alike[d.Slip] > 1:
		default: // dirty
			continue
		}
		if alike[d.Slip] > mostDoubts && d.Slip.Factor != 0 {
			d.Entry, d.First = outputPart.Member("catches"), d.Entry
			b.add(d)
			return
		}
		b.add(d)
	}
}

// leastClock is by how many times the time of a catch differs from that of the others when it
// is asked about, its volume being theirs. Own judgement.
const leastClock = 1.7

// catchSlip is the slip that makes a catch want times as large.
func (b *belief) catchSlip(i int, want float64, usualTime unit.Time, usualNozzles int) Doubt {
	c := &b.in.Output.Catches[i]
	at := outputPart.Item("catches", i)
	if c.Nozzles < usualNozzles && explains(float64(usualNozzles)/c.nozzles()*want) {
		return Doubt{Entry: at.Member("nozzles"), Slip: Slip{Kind: SlipDrop, Factor: float64(usualNozzles) / c.nozzles()}}
	}
	if apartBy(float64(c.Time), float64(usualTime), leastClock) {
		place := at.Member("time")
		return b.doubtOfTime(place, c.Time, 1/want)
	}
	return b.doubtOf(ofVolume, at.Member("volume"), want)
}

// doubtOf is the doubt about an entry that should be want times itself.
func (b *belief) doubtOf(of entryKind, place finding.Place, want float64) Doubt {
	d := Doubt{Entry: place, Slip: likeliestSlip(of, b.typed(place), want), Low: want > 1}
	d.Beside.Low, d.Beside.High = want, want
	return d
}

// doubtOfTime is the same of a time, which may be minutes and seconds.
func (b *belief) doubtOfTime(place finding.Place, t unit.Time, want float64) Doubt {
	d := b.doubtOf(ofTime, place, want)
	if s := clockSlip(t); explains(s.Factor / want) {
		d.Slip = s
	}
	return d
}

// usualCatch are the time and the nozzles of most catches: the middle ones.
func (b *belief) usualCatch() (t unit.Time, nozzles int) {
	times, counts := make([]float64, 0, 16), make([]int, 0, 16)
	for i := range b.in.Output.Catches {
		times = append(times, float64(b.in.Output.Catches[i].Time))
		counts = append(counts, int(b.in.Output.Catches[i].nozzles()))
	}
	slices.Sort(times)
	slices.Sort(counts)
	return unit.Time(times[len(times)/2]), counts[len(counts)/2]
}

// runs asks about a run whose speed is far from the others. Of two the one is asked about
// with which the rate is far from its target, if it is right with the other; else both.
func (b *belief) runs() {
	if b.r.Speed == nil || len(b.r.Speed.Runs) < 2 {
		return
	}
	speeds := b.r.Speed.Runs
	if !apart(float64(slices.Min(speeds)), float64(slices.Max(speeds))) {
		return
	}
	if len(speeds) > 2 {
		middle := slices.Sorted(slices.Values(speeds))[len(speeds)/2]
		for i, v := range speeds {
			if apart(float64(v), float64(middle)) {
				b.askRun(i, float64(middle/v))
			}
		}
		return
	}
	for i, v := range speeds {
		if !machinery.speed.holds(float64(v)) || explains(b.rateAt(float64(speeds[1-i]))) {
			b.askRun(i, float64(speeds[1-i]/v))
		}
	}
	if len(b.found) == 0 {
		b.add(Doubt{Entry: speedPart.Member("runs"), Why: DoubtApart, rests: partSpeed | partRate})
	}
}

// rateAt is the rate over its target at another speed than the measured one; zero when one of
// them is not known.
func (b *belief) rateAt(speed float64) float64 {
	return b.byTarget() * float64(b.r.Speed.GroundSpeed) / speed
}

// askRun asks about the time or the length of a run, whichever differs from that of the run
// before or after it.
func (b *belief) askRun(i int, want float64) {
	runs := b.in.Speed.Runs
	at, other := finding.Item("runs", i).Under(speedPart), runs[(i+1)%len(runs)]
	d := b.doubtOfTime(at.Member("time"), runs[i].Time, 1/want)
	if apart(float64(runs[i].CourseLength), float64(other.CourseLength)) {
		d = b.doubtOf(ofCourse, at.Member("courseLength"), want)
	}
	d.Why, d.rests = DoubtApart, partSpeed|partRate
	b.add(d)
}
