package calc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// measuredSheet is a field sheet as plain numbers in SI units, to be measured again
// and again with other errors. Invented.
type measuredSheet struct {
	watches, tapes, jugs, gauges []instrumentOf
	volume, time                 []float64
	pressure                     []float64 // nil: none
	jug, catchWatch, gauge       []int
	length, run                  []float64
	tape, runWatch               []int
	width                        float64
	target                       float64
}

type instrumentOf struct{ resolution, scale, reaction float64 }

// errors of one draw (JCGM 101, 6.4.2): each scale once, rectangular.
func (m *measuredSheet) scales(r *rand.Rand, of []instrumentOf) []float64 {
	all := make([]float64, len(of))
	for i, x := range of {
		all[i] = 1 + x.scale*(2*r.Float64()-1)
	}
	return all
}

// reading is a value with the error of one reading: anywhere in the interval of the
// display, and the hand's normal error.
func reading(r *rand.Rand, value float64, of instrumentOf) float64 {
	return value + of.resolution*(r.Float64()-0.5) + of.reaction*r.NormFloat64()
}

// draw measures the sheet once with other errors and returns the rate over the target,
// and how far catch 0 is from the mean of the catches and from a rating of f at p.
// speedScatter and flowScatter are the standard deviations of one run and of one catch
// as a share, readings included, so readings are not drawn a second time for what the
// mean of the boom rests on.
func (m *measuredSheet) draw(r *rand.Rand, speedScatter, flowScatter float64) (rate, fromMean, fromRated float64) {
	watch, tape, jug, gauge := m.scales(r, m.watches), m.scales(r, m.tapes), m.scales(r, m.jugs), m.scales(r, m.gauges)
	var lengths, times float64
	for i := range m.run {
		t := m.run[i] * watch[m.runWatch[i]] / (1 + speedScatter*r.NormFloat64())
		lengths += m.length[i] * tape[m.tape[i]]
		times += t
	}
	lowest := m.pressure[0]
	for _, p := range m.pressure {
		lowest = min(lowest, p)
	}
	reference := lowest * gauge[m.lowestGauge()]
	var seen, boom, flow0, rated0 float64
	n := float64(len(m.volume))
	for i := range m.volume {
		v, t := reading(r, m.volume[i], m.jugs[m.jug[i]])*jug[m.jug[i]], reading(r, m.time[i], m.watches[m.catchWatch[i]])*watch[m.catchWatch[i]]
		p := reading(r, m.pressure[i], m.gauges[m.gauge[i]]) * gauge[m.gauge[i]]
		q := v / t * math.Sqrt(reference/p)
		seen += q / n
		if i == 0 {
			flow0, rated0 = q, v/t/math.Sqrt(p)
		}
		// As the boom: the same catch without its readings, with the scatter that has them.
		plain := m.volume[i] * jug[m.jug[i]] / (m.time[i] * watch[m.catchWatch[i]]) *
			math.Sqrt(reference/(m.pressure[i]*gauge[m.gauge[i]]))
		boom += plain * (1 + flowScatter*r.NormFloat64()) / n
	}
	width := reading(r, m.width, m.tapes[0]) * tape[0]
	return boom / (lengths / times * width) / m.target, flow0/seen - 1, rated0
}

func (m *measuredSheet) lowestGauge() int {
	at := 0
	for i, p := range m.pressure {
		if p < m.pressure[at] {
			at = i
		}
	}
	return m.gauge[at]
}

// sheet is the same for the code under test.
func (m *measuredSheet) sheet() calc.FieldSheetInput {
	in := calc.FieldSheetInput{
		Machine: calc.Machine{SprayedWidthPerNozzle: unit.Length(m.width), Tape: "tape0"},
		Nozzle:  calc.Nozzle{RatedFlowRate: 1 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar},
		Target:  calc.SheetTarget{ApplicationRate: unit.ApplicationRate(m.target)},
	}
	in.Measuring.Uncertainty = true
	list := func(name string, kind certainty.InstrumentKind, of []instrumentOf) {
		for i, x := range of {
			in.Measuring.Instruments = append(in.Measuring.Instruments, certainty.Instrument{
				ID: name + string(rune('0'+i)), Kind: kind, Resolution: x.resolution, ScaleError: unit.Ratio(x.scale), ReactionTime: unit.Time(x.reaction),
			})
		}
	}
	list("watch", certainty.Stopwatch, m.watches)
	list("tape", certainty.Tape, m.tapes)
	list("jug", certainty.Jug, m.jugs)
	list("gauge", certainty.Gauge, m.gauges)
	id := func(name string, i int) string { return name + string(rune('0'+i)) }
	for i := range m.volume {
		in.Output.Catches = append(in.Output.Catches, calc.AcceptanceCatch{Catch: calc.Catch{
			Volume: unit.Volume(m.volume[i]), Time: unit.Time(m.time[i]), SprayPressure: unit.Pressure(m.pressure[i]),
			Jug: id("jug", m.jug[i]), Stopwatch: id("watch", m.catchWatch[i]), Gauge: id("gauge", m.gauge[i]),
		}})
	}
	for i := range m.run {
		in.Speed.Runs = append(in.Speed.Runs, calc.Run{
			CourseLength: unit.Length(m.length[i]), Time: unit.Time(m.run[i]), Tape: id("tape", m.tape[i]), Stopwatch: id("watch", m.runWatch[i]),
		})
	}
	return in
}

// scatters are s_p of runs and of catches, written out from the rule in the
// documentation: the prior with the mean variance of the readings, pooled with what is
// seen.
func (m *measuredSheet) scatters() (runs, catches float64) {
	pool := func(s0, nu0, readings float64, x []float64, about float64) float64 {
		var sum, seen float64
		for _, v := range x {
			sum += v / float64(len(x))
		}
		for _, v := range x {
			seen += (v - sum) * (v - sum) / (about * about)
		}
		return math.Sqrt((nu0*(s0*s0+readings) + seen) / (nu0 + float64(len(x)) - 1))
	}
	square := func(x float64) float64 { return x * x }
	variance := func(x instrumentOf, value float64) float64 {
		return (square(x.resolution)/12 + square(x.reaction)) / square(value)
	}
	var speeds, flows []float64
	var lengths, times, onRun, onCatch float64
	for i := range m.run {
		speeds = append(speeds, m.length[i]/m.run[i])
		lengths += m.length[i]
		times += m.run[i]
		onRun += (variance(m.watches[m.runWatch[i]], m.run[i]) + variance(m.tapes[m.tape[i]], m.length[i])) / float64(len(m.run))
	}
	var mean float64
	lowest := m.pressure[0]
	for _, p := range m.pressure {
		lowest = min(lowest, p)
	}
	for i := range m.volume {
		flows = append(flows, m.volume[i]/m.time[i]*math.Sqrt(lowest/m.pressure[i]))
		mean += flows[i] / float64(len(m.volume))
		onCatch += (variance(m.jugs[m.jug[i]], m.volume[i]) + variance(m.watches[m.catchWatch[i]], m.time[i]) +
			variance(m.gauges[m.gauge[i]], m.pressure[i])/4) / float64(len(m.volume))
	}
	return pool(0.015, 10, onRun, speeds, lengths/times), pool(0.04, 5, onCatch, flows, mean)
}

// TestReferenceMonteCarlo measures two invented sheets a million times with other
// errors (JCGM 101) and holds the standard deviations of the rate and of the
// deviations against the analytic ones: within 2 %.
func TestReferenceMonteCarlo(t *testing.T) {
	repeat := func(x ...int) []int { return x }
	shared := measuredSheet{
		watches: []instrumentOf{{0.01, 0.002, 0.2}}, tapes: []instrumentOf{{0.01, 0.01, 0}},
		jugs: []instrumentOf{{20e-6, 0.02, 0}}, gauges: []instrumentOf{{20e3, 0.04, 0}},
		volume: []float64{980e-6, 1010e-6, 1002e-6, 995e-6}, time: []float64{60, 60.5, 59.8, 60},
		pressure: []float64{300e3, 305e3, 295e3, 302e3},
		jug:      repeat(0, 0, 0, 0), catchWatch: repeat(0, 0, 0, 0), gauge: repeat(0, 0, 0, 0),
		length: []float64{30, 30}, run: []float64{22.8, 23.3}, tape: repeat(0, 0), runWatch: repeat(0, 0),
		width: 0.5, target: 27e-6,
	}
	several := shared
	several.watches = []instrumentOf{{0.01, 0.002, 0.2}, {0.1, 0.004, 0.3}}
	several.jugs = []instrumentOf{{20e-6, 0.03, 0}, {50e-6, 0.02, 0}}
	several.gauges = []instrumentOf{{20e3, 0.04, 0}, {10e3, 0.06, 0}, {20e3, 0.02, 0}}
	several.jug, several.gauge, several.catchWatch = repeat(0, 1, 0, 0), repeat(0, 1, 2, 0), repeat(0, 0, 1, 1)
	several.length, several.runWatch = []float64{30, 60}, repeat(0, 1)
	several.run = []float64{22.8, 46.0}
	for name, m := range map[string]measuredSheet{"one of each": shared, "two jugs, three gauges": several} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			runs, catches := m.scatters()
			r := rand.New(rand.NewPCG(1, 2))
			var rate, mean, rated moments
			for range 1_000_000 {
				a, b, c := m.draw(r, runs, catches)
				rate.add(a)
				mean.add(b)
				rated.add(c)
			}
			x := mustSheet(t, m.sheet())
			u := x.Output.Uncertainty.Catches[0]
			agrees(t, "rate", x.Rate.Uncertainty.ApplicationRate.Standard/m.target, rate.deviation(), 0.02)
			agrees(t, "deviation from target", x.Rate.Uncertainty.Deviation.Standard, rate.deviation(), 0.02)
			agrees(t, "deviation from the mean", u.DeviationFromMean.Standard, mean.deviation(), 0.02)
			over := 1 + float64(x.Output.Catches[0].DeviationFromRated)
			agrees(t, "deviation from the rating", u.DeviationFromRated.Standard/over, rated.deviation()/rated.mean(), 0.02)
		})
	}
}

// moments are the mean and the standard deviation of a stream of numbers (Welford).
type moments struct{ n, m, s float64 }

func (m *moments) add(x float64) {
	m.n++
	d := x - m.m
	m.m += d / m.n
	m.s += d * (x - m.m)
}

func (m *moments) mean() float64      { return m.m }
func (m *moments) deviation() float64 { return math.Sqrt(m.s / (m.n - 1)) }
