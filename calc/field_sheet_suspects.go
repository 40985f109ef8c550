package calc

import (
	"cmp"
	"math"
	"slices"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

var (
	pressurePart = finding.Member("pressure")
	outputPart   = finding.Member("output")
	speedPart    = finding.Member("speed")
	machinePart  = finding.Member("machine")
	nozzlePart   = finding.Member("nozzle")
	targetPart   = finding.Member("target")

	maintenancePart = finding.Member("maintenance")

	pressureReadings, catchPressure = pressurePart.Member("readings"), outputPart.Member("sprayPressure")
)

// A suspect is an entry, or all of a list alike, that could be wrong by a factor, and what
// its being right by that factor does to speed, width, flow, target and rating: the exponents
// of the factor. The rate goes with flow / (speed x width).
type suspect struct {
	entry, first                       finding.Place // first: of a list of entries
	of                                 entryKind
	value                              float64
	speed, width, flow, target, rating float64
	usual                              reach
	inverse                            bool // value falls as the entry grows
	rests                              part
	more                               []Slip // beside those of its kind
}

// typed is the entry that was typed, or the first of a list.
func (s *suspect) typed() finding.Place {
	if s.first.IsZero() {
		return s.entry
	}
	return s.first
}

// figures are what the whole of a sheet is held against.
type figures struct {
	speed, width, rate, pressure float64       // zero when not known
	made                         PressureRange // for which the nozzle is made, or which the limits allow
	byTarget, byRating           float64       // rate over target, flow over rating; zero when not known
}

func (b *belief) figures() (f figures) {
	if b.r.Speed != nil {
		f.speed = float64(b.r.Speed.GroundSpeed)
	}
	f.width = float64(b.in.Machine.widthPerNozzle())
	if b.r.Output != nil && f.speed*f.width != 0 {
		f.rate = float64(b.r.Output.boomMean) / (f.speed * f.width)
	}
	if b.r.Output != nil {
		f.pressure = float64(b.r.Output.SprayPressure)
	}
	if f.pressure == 0 && b.r.Pressure != nil {
		f.pressure = float64(b.r.Pressure.Mean)
	}
	f.byTarget, f.byRating, f.made = b.byTarget(), b.byRating(), b.in.Nozzle.PressureRange
	if f.made == (PressureRange{}) {
		f.made = b.in.Limits.SprayPressure
	}
	return f
}

// byTarget is the rate over its target; zero when one of them is not known.
func (b *belief) byTarget() float64 {
	in, r := b.in, b.r
	if r.Output == nil || r.Speed == nil || in.Target.ApplicationRate == 0 || !in.Machine.hasWidth() {
		return 0
	}
	q := float64(r.Output.boomMean)
	if in.RelativeDensity != 0 {
		q = float64(LiquidFlow(unit.FlowRate(q), in.RelativeDensity))
	}
	width := float64(in.Machine.widthPerNozzle())
	if in.Target.RateBasis == RateBasisField {
		width = float64(in.Machine.RowSpacing) / float64(in.Machine.NozzlesPerBed)
	}
	return q / (float64(r.Speed.GroundSpeed) * width * float64(in.Target.ApplicationRate))
}

// byRating is what the middle one of the catches gives over its rating; zero without one.
func (b *belief) byRating() float64 {
	out := b.r.Output
	if out == nil || !out.HasRating {
		return 0
	}
	var most [16]float64 // of most rounds, without an allocation
	all := most[:0]
	for i := range out.Catches {
		all = append(all, 1+float64(out.Catches[i].DeviationFromRated))
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// whole asks what could make all figures of the sheet agree, where they do not: what lies
// outside all machinery, a rate far from its target, a flow far from its rating.
func (b *belief) whole() {
	f := b.figures()
	if b.r.Rate != nil && b.r.Rate.Verdict == finding.Outside && b.basisDoubtful() {
		b.add(Doubt{Entry: targetPart.Member("rateBasis"), Why: DoubtBasis, Slip: Slip{Kind: SlipBasis}, rests: partRate})
	}
	why := f.wrong()
	if why == "" {
		return
	}
	type guess struct {
		Doubt
		rank float64 // from 2 on what was meant would not be usual either
	}
	var guesses []guess
	for _, s := range b.suspects(&f) {
		try := func(x Slip) {
			after := f.with(&s, x.Factor)
			if math.Abs(math.Log(x.Factor)) < leastSlip || after.wrong() != "" || !after.agrees() {
				return
			}
			rank := after.misfit()
			if s.usual.holds(s.value) {
				rank++ // what looks right as it stands is doubted after what does not
			}
			meant := s.value * x.Factor
			if s.inverse {
				meant = s.value / x.Factor
			}
			if s.usual != (reach{}) && !s.usual.holds(meant) {
				rank += 2
			}
			guesses = append(guesses, guess{Doubt{Entry: s.entry, First: s.first, Why: why, Slip: x, rests: s.rests}, rank})
		}
		for _, x := range s.more { // of equally near ones these are the likelier
			try(x)
		}
		slips(s.of, b.typed(s.typed()), try)
	}
	slices.SortStableFunc(guesses, func(a, c guess) int { return cmp.Compare(a.rank, c.rank) })
	for _, g := range guesses {
		if (g.rank < 2 || len(b.found) == 0) && !slices.ContainsFunc(b.found, func(d Doubt) bool { return d.Entry.Equal(g.Entry) }) {
			b.add(g.Doubt)
		}
	}
	if len(guesses) == 0 {
		b.askMachinery(&f)
	}
	if len(b.found) == 0 && apart(f.byTarget, 1) { // no plan makes a sprayer of another one
		b.add(Doubt{Entry: targetPart.Member("applicationRate"), Why: DoubtTarget, rests: partRate})
		b.add(Doubt{Entry: b.widthEntry(), Why: DoubtTarget, rests: partRate})
	}
}

// widthEntry is where the width of a nozzle was entered.
func (b *belief) widthEntry() finding.Place {
	if b.in.Machine.BedWidth != 0 {
		return machinePart.Member("bedWidth")
	}
	return machinePart.Member("sprayedWidthPerNozzle")
}

// wrong is why the figures of a sheet are not believed; empty when they are.
func (f *figures) wrong() DoubtReason {
	borneOut := explains(f.byTarget) // no slip leaves the rate at its target
	switch {
	case !borneOut && f.outsideMachinery(), machinery.pressure.excludes(f.pressure):
		return DoubtMachinery
	case f.farFromRange():
		return DoubtRange
	case math.Abs(math.Log(f.byTarget)) > leastSlip && f.byTarget != 0:
		return DoubtTarget
	case apart(f.byRating, 1):
		return DoubtRating
	}
	return ""
}

func (f *figures) outsideMachinery() bool {
	return machinery.speed.excludes(f.speed) || machinery.width.excludes(f.width) || machinery.rate.excludes(f.rate) || machinery.pressure.excludes(f.pressure)
}

// with are the figures after an entry was multiplied by a factor.
func (f figures) with(s *suspect, by float64) figures {
	to := func(exponent float64) float64 {
		switch exponent {
		case 0:
			return 1
		case 1:
			return by
		case -1:
			return 1 / by
		}
		return math.Pow(by, exponent)
	}
	f.speed *= to(s.speed)
	f.width *= to(s.width)
	rate := to(s.flow) / (to(s.speed) * to(s.width))
	f.rate *= rate
	f.byTarget *= rate / to(s.target)
	f.byRating *= to(s.flow) / to(s.rating)
	if s.rests&partPressure != 0 {
		f.pressure *= by
	}
	return f
}

// agrees tells that the rate is near its target and the flow near its rating, where known.
func (f *figures) agrees() bool {
	return (f.byTarget == 0 || explains(f.byTarget)) && (f.byRating == 0 || explains(f.byRating))
}

// farFromRange tells that the pressure is farOff from any that is made for, or allowed.
func (f *figures) farFromRange() bool {
	p := unit.Pressure(f.pressure)
	return p != 0 && f.made != (PressureRange{}) && (p >= farOff*f.made.High || farOff*p <= f.made.Low)
}

// leastSlip is the logarithm of the least factor by which a slip makes the rate miss its
// target: two nozzles for one, within explained.
var leastSlip = math.Log(2 / (1 + float64(explained)))

func (f *figures) misfit() (sum float64) {
	for _, x := range []float64{f.byTarget, f.byRating} {
		if x != 0 {
			sum += math.Abs(math.Log(x))
		}
	}
	return sum
}

// suspects are the entries that the figures rest on.
func (b *belief) suspects(f *figures) (all []suspect) {
	in := b.in
	add := func(known bool, s suspect) {
		if known {
			all = append(all, s)
		}
	}
	field := in.Target.RateBasis == RateBasisField
	width := suspect{of: ofWidth, value: f.width, width: 1, usual: usual.width, rests: partRate}
	bed, one, nozzles := width, width, width
	bed.entry, one.entry, nozzles.entry = machinePart.Member("bedWidth"), machinePart.Member("sprayedWidthPerNozzle"), machinePart.Member("nozzlesPerBed")
	if field { // the width of the bed is in the rate per treated area, but not in that of the target
		bed.target = -1
	}
	nozzles.of, nozzles.width, nozzles.inverse = ofCount, -1, true
	per := b.nozzlesPerCatch()
	if per > 1 {
		nozzles.more = []Slip{{Kind: SlipOneNozzle, Factor: per}, {Kind: SlipOneNozzle, Factor: 1 / per}}
	}
	if beds := float64(in.Machine.Beds); beds > 1 {
		nozzles.more = append(nozzles.more, Slip{Kind: SlipAllBeds, Factor: 1 / beds})
		bed.more = []Slip{{Kind: SlipAllBeds, Factor: 1 / beds}}
	}
	add(in.Machine.BedWidth != 0, bed)
	add(in.Machine.SprayedWidthPerNozzle != 0, one)
	add(in.Machine.BedWidth != 0, nozzles)
	add(field, suspect{entry: machinePart.Member("rowSpacing"), of: ofWidth, value: float64(in.Machine.RowSpacing), target: 1, rests: partRate})
	if b.r.Speed != nil {
		first := &in.Speed.Runs[0]
		course := suspect{entry: speedPart.Member("runs"), of: ofCourse, value: f.speed, speed: 1, usual: usual.speed, rests: partSpeed | partRate}
		time := course
		time.of, time.speed, time.inverse = ofTime, -1, true
		course.first, time.first = speedPart.Item("runs", 0).Member("courseLength"), speedPart.Item("runs", 0).Member("time")
		if len(in.Speed.Runs) == 1 {
			course.entry, time.entry = course.first, time.first
		}
		if s := clockSlip(first.Time); s.Factor != 0 {
			time.more = []Slip{s}
		}
		add(true, course)
		add(true, time)
	}
	if b.r.Output != nil {
		flow := suspect{entry: outputPart.Member("catches"), of: ofVolume, value: float64(b.r.Output.boomMean), flow: 1, usual: usual.flow, rests: partOutput | partRate}
		if per > 1 {
			flow.more = []Slip{{Kind: SlipOneNozzle, Factor: per}}
		} else {
			flow.more = []Slip{{Kind: SlipDrop, Factor: 1. / 3}, {Kind: SlipDrop, Factor: 1. / 4}, {Kind: SlipDrop, Factor: 1. / 5}, {Kind: SlipDrop, Factor: 1. / 6}}
		}
		time := flow
		time.of, time.flow, time.inverse, time.more = ofTime, -1, true, nil
		flow.first, time.first = outputPart.Item("catches", 0).Member("volume"), outputPart.Item("catches", 0).Member("time")
		if s := clockSlip(in.Output.Catches[0].Time); s.Factor != 0 {
			time.more = []Slip{s}
		}
		add(true, flow)
		add(true, time)
	}
	add(in.Target.ApplicationRate != 0, suspect{
		entry: targetPart.Member("applicationRate"), of: ofRate, value: float64(in.Target.ApplicationRate), target: 1, usual: usual.rate, rests: partRate,
	})
	add(in.Nozzle.RatedFlowRate != 0, suspect{entry: nozzlePart.Member("ratedFlowRate"), of: ofFlow, value: float64(in.Nozzle.RatedFlowRate), rating: 1, usual: usual.flow, rests: partOutput})
	add(in.Nozzle.RatedPressure != 0, suspect{entry: nozzlePart.Member("ratedPressure"), of: ofPressure, value: float64(in.Nozzle.RatedPressure), rating: -0.5, usual: usual.pressure, rests: partOutput})
	pressure := suspect{of: ofPressure, value: f.pressure, rating: 0.5, usual: usual.pressure, rests: partPressure | partOutput}
	if own := in.Nozzle.PressureRange; own != (PressureRange{}) {
		pressure.usual = reach{float64(own.Low), float64(own.High)}
	}
	pressure.entry, pressure.first = b.workingPressure()
	add(f.pressure != 0, pressure)
	return all
}

// workingPressure is where the pressure of the catches was entered, and the first of a list.
func (b *belief) workingPressure() (entry, first finding.Place) {
	switch {
	case b.in.Output.SprayPressure != 0:
		return catchPressure, finding.Place{}
	case len(b.in.Pressure.Readings) > 0:
		return pressureReadings, pressurePart.Item("readings", 0).Member("pressure")
	}
	return outputPart.Member("catches"), outputPart.Item("catches", 0).Member("sprayPressure") // they have their own
}

// nozzlesPerCatch is how many nozzles most catches are of.
func (b *belief) nozzlesPerCatch() float64 {
	if len(b.in.Output.Catches) < 2 {
		return 1
	}
	_, n := b.usualCatch()
	return float64(n)
}

// askMachinery asks about what is outside all machinery where no slip explains it.
func (b *belief) askMachinery(f *figures) {
	ask := func(s reach, x float64, entry finding.Place, rests part) {
		if s.excludes(x) {
			b.add(Doubt{Entry: entry, Why: DoubtMachinery, rests: rests})
		}
	}
	ask(machinery.speed, f.speed, speedPart.Member("runs"), partSpeed|partRate)
	ask(machinery.width, f.width, b.widthEntry(), partRate)
	pressure, _ := b.workingPressure()
	ask(machinery.pressure, f.pressure, pressure, partPressure|partOutput)
	ask(machinery.rate, f.rate, outputPart.Member("catches"), partOutput|partRate)
}

// basisDoubtful tells that a rate outside its tolerance would be inside on the other basis,
// treated or field area, where the two differ by more than rates usually miss.
func (b *belief) basisDoubtful() bool {
	m := b.in.Machine
	if m.RowSpacing == 0 {
		return false
	}
	share := float64(m.widthPerNozzle()) * float64(m.NozzlesPerBed) / float64(m.RowSpacing)
	other := b.byTarget() * share
	if b.in.Target.RateBasis == RateBasisField {
		other = b.byTarget() / share
	}
	return apartBy(share, 1, leastBasis) && finding.Judge(other-1, float64(b.r.Rate.RateTolerance)) == finding.Within
}

// leastBasis is how many times the one area is the other when its basis is asked about. Own
// judgement: what lies nearer is the error of a setting.
const leastBasis = 1.2
