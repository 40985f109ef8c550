package calc_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"wetrun/calc"
)

// known draws what may be true, knowing what was measured (JCGM 101:2008, 6.4): each scale and
// each display rectangular, the hand normal, and a mean of repeats by Student's t at the
// pooled degrees of freedom, whose scale is the pooled scatter. It takes for granted that the
// prior is worth its degrees of freedom of readings, that runs and catches scatter normally
// about their mean and independently of the instruments, which the pooled scatter has in it
// already, that the pressure law is exact, and that each error acts by itself. It gives the
// rate over the target, and the deviations of each catch from the rating and from the mean.
func (m *measuredSheet) known(r *rand.Rand, runs, catches float64) (rate float64, rated, mean []float64) {
	watch, tape, jug, gauge := m.scales(r, m.watches), m.scales(r, m.tapes), m.scales(r, m.jugs), m.scales(r, m.gauges)
	n := float64(len(m.volume))
	t := func(nu float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: nu, Src: r}.Rand() }
	var lengths, times, squares float64
	for i := range m.run {
		lengths += m.length[i] * tape[m.tape[i]]
		times += m.run[i] * watch[m.runWatch[i]]
	}
	for i := range m.run {
		squares += math.Pow(m.run[i]*watch[m.runWatch[i]]/times, 2)
	}
	speed := lengths / times * (1 + runs*math.Sqrt(squares)*t(10+float64(len(m.run))-1))
	reference := slices.Min(m.pressure) * gauge[m.lowestGauge()]
	var boom, seen float64
	for i := range m.volume {
		law := math.Sqrt(reference / (m.pressure[i] * gauge[m.gauge[i]]))
		boom += m.volume[i] * jug[m.jug[i]] / (m.time[i] * watch[m.catchWatch[i]]) * law / n
		p := reading(r, m.pressure[i], m.gauges[m.gauge[i]]) * gauge[m.gauge[i]]
		q := reading(r, m.volume[i], m.jugs[m.jug[i]]) * jug[m.jug[i]] / (reading(r, m.time[i], m.watches[m.catchWatch[i]]) * watch[m.catchWatch[i]])
		rated = append(rated, q/(1e-3/60*math.Sqrt(p/3e5))-1)
		mean = append(mean, q*math.Sqrt(reference/p))
		seen += mean[i] / n
	}
	for i := range mean {
		mean[i] = mean[i]/seen - 1
	}
	boom *= 1 + catches/math.Sqrt(n)*t(5+n-1)
	return boom / (speed * reading(r, m.width, m.tapes[0]) * tape[0]) / m.target, rated, mean
}

// TestReferenceKnownTruth measures invented sheets once and draws what may be true 200,000
// times. Half of the width of what 95 % of the rates lie in is within 2 % of the expanded
// uncertainty, and each probability, that of lying within both limits at once too, within one
// point.
func TestReferenceKnownTruth(t *testing.T) {
	usual := measuredSheet{
		watches: []instrumentOf{{0.01, 0.0001, 0.2}}, tapes: []instrumentOf{{0.01, 0.001, 0}},
		jugs: []instrumentOf{{10e-6, 0.01, 0}}, gauges: []instrumentOf{{10e3, 0.05, 0}},
		volume: []float64{940e-6, 1060e-6, 1002e-6, 1095e-6}, time: []float64{60, 60.5, 59.8, 60},
		pressure: []float64{300e3, 300e3, 300e3, 300e3},
		jug:      make([]int, 4), catchWatch: make([]int, 4), gauge: make([]int, 4),
		length: []float64{30, 30}, run: []float64{22.8, 23.3}, tape: make([]int, 2), runWatch: make([]int, 2),
		width: 0.5, target: 28.5e-6,
	}
	coarse := usual // a jug that shows little, and is off by 5 %
	coarse.jugs, coarse.volume, coarse.time = []instrumentOf{{50e-6, 0.05, 0}}, []float64{455e-6, 530e-6, 500e-6, 548e-6}, []float64{30, 30, 30, 30}
	few := usual
	few.volume, few.time, few.pressure = []float64{1010e-6, 1085e-6}, []float64{60, 60}, []float64{300e3, 310e3}
	few.jug, few.catchWatch, few.gauge, few.length, few.run = make([]int, 2), make([]int, 2), make([]int, 2), []float64{30}, []float64{22.8}
	several := usual
	several.jugs, several.gauges = []instrumentOf{{20e-6, 0.03, 0}, {50e-6, 0.02, 0}}, []instrumentOf{{20e3, 0.04, 0}, {10e3, 0.02, 0}}
	several.jug, several.gauge, several.pressure = []int{0, 1, 0, 0}, []int{0, 1, 0, 1}, []float64{300e3, 305e3, 295e3, 302e3}
	tape := usual // the width and the course by one that is off by 4 %, which counts twice
	tape.tapes = []instrumentOf{{0.01, 0.04, 0}}
	for name, m := range map[string]measuredSheet{"usual": usual, "coarse jug": coarse, "few": few, "several": several, "bad tape": tape} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			const draws = 200_000
			m.target *= float64(mustSheet(t, m.sheet()).Rate.ApplicationRate) / m.target / 1.03 // 3 % over it
			runs, catches := m.scatters()
			r := rand.New(rand.NewPCG(3, 4))
			rates, within, both := make([]float64, draws), 0.0, make([]float64, len(m.volume))
			for i := range rates {
				rate, rated, mean := m.known(r, runs, catches)
				rates[i] = rate
				if math.Abs(rate-1) <= 0.05 {
					within += 1. / draws
				}
				for j := range both {
					if math.Abs(rated[j]) <= 0.1 && math.Abs(mean[j]) <= 0.07 {
						both[j] += 1. / draws
					}
				}
			}
			slices.Sort(rates)
			in := m.sheet()
			in.Target.RateTolerance = 0.05
			in.Output.Tolerance = calc.OutputTolerance{Rated: calc.Limits{Below: 0.1, Above: 0.1}, Mean: calc.Limits{Below: 0.07, Above: 0.07}}
			x := mustSheet(t, in)
			u := x.Rate.Uncertainty
			agrees(t, "half-width", u.ApplicationRate.Expanded()/m.target, (rates[draws*975/1000]-rates[draws*25/1000])/2, 0.02)
			if p := float64(u.Within.Probability); math.Abs(p-within) > 0.01 {
				t.Errorf("the rate is within with %.4f, drawn %.4f", p, within)
			}
			for j, want := range both {
				if p := float64(x.Output.Uncertainty.Catches[j].Within.Probability); math.Abs(p-want) > 0.01 {
					t.Errorf("catch %d is within both limits with %.4f, drawn %.4f", j, p, want)
				}
			}
		})
	}
}
