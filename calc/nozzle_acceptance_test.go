package calc_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

func mustAccept(t rapid.TB, in calc.NozzleAcceptanceInput) calc.NozzleAcceptanceResult {
	t.Helper()
	r, err := calc.NozzleAcceptance(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// caught are readings of single nozzles over the same time.
func caught(time unit.Time, readings ...unit.Volume) []calc.AcceptanceCatch {
	var catches []calc.AcceptanceCatch
	for _, v := range readings {
		catches = append(catches, calc.AcceptanceCatch{Catch: calc.Catch{Volume: v, Time: time}})
	}
	return catches
}

// litreRated is judged at its own rating of 1 L/min, so that a reading in litres
// over a minute is a share of it.
func litreRated(limit unit.Ratio, readings ...unit.Volume) calc.NozzleAcceptanceInput {
	for i := range readings {
		readings[i] *= unit.Litre
	}
	return calc.NozzleAcceptanceInput{
		Nozzle:        calc.Nozzle{RatedFlowRate: unit.LitrePerMinute, RatedPressure: 3 * unit.Bar},
		SprayPressure: 3 * unit.Bar,
		Tolerance:     calc.OutputTolerance{Limit: limit},
		Catches:       caught(unit.Minute, readings...),
	}
}

// statuses spells what was judged: w within, b below, a above.
func statuses(r calc.NozzleAcceptanceResult) string {
	letters := map[calc.Status]string{calc.StatusWithin: "w", calc.StatusBelow: "b", calc.StatusAbove: "a"}
	s := ""
	for _, c := range r.Catches {
		s += letters[c.Status]
	}
	return s
}

// TestReferenceNozzleAcceptance: reference value computed from exact unit
// definitions, independently of this code.
func TestReferenceNozzleAcceptance(t *testing.T) {
	rows := []struct {
		position              certainty.Position
		oz                    unit.Volume
		flow, byRated, byMean float64
	}{
		{certainty.Left, 46.2, 0.240625, -1.76526, -1.63236}, {certainty.Left, 47.0, 0.244792, -0.0642206, 0.0709723},
		{certainty.Left, 46.5, 0.242188, -1.12737, -0.993612}, {certainty.Left, 48.1, 0.250521, 2.2747, 2.41306},
		{certainty.Center, 47.4, 0.246875, 0.786297, 0.92264}, {certainty.Center, 46.9, 0.244271, -0.27685, -0.141945},
		{certainty.Center, 39.8, 0.207292, -15.3735, -15.259}, {certainty.Center, 47.2, 0.245833, 0.361038, 0.496806},
		{certainty.Right, 46.4, 0.241667, -1.34, -1.20653}, {certainty.Right, 53.6, 0.279167, 13.9693, 14.1235},
		{certainty.Right, 47.7, 0.248438, 1.42418, 1.56139}, {certainty.Right, 46.8, 0.24375, -0.489479, -0.354862},
	}
	in := calc.NozzleAcceptanceInput{
		Nozzle:          calc.Nozzle{RatedFlowRate: 0.2 * unit.USGallonPerMinute, RatedPressure: 40 * unit.PoundPerSquareInch},
		SprayPressure:   60 * unit.PoundPerSquareInch,
		Tolerance:       calc.OutputTolerance{Limit: 10 * unit.Percent, Basis: calc.RatedBasis},
		ReplaceAllAbove: 25 * unit.Percent,
	}
	for _, row := range rows {
		in.Catches = append(in.Catches, calc.AcceptanceCatch{
			Catch:    calc.Catch{Volume: row.oz * unit.USFluidOunce, Time: 30 * unit.Second, Nozzles: 3},
			Position: row.position,
		})
	}
	r := mustAccept(t, in)
	gpm := unit.USGallonPerMinute
	agrees(t, "rated flow at pressure", r.RatedFlowRateAtPressure.In(gpm), 0.244949, 1e-5)
	agrees(t, "lowest flow", r.AcceptableFlowRate.Low.In(gpm), 0.220454, 1e-5)
	agrees(t, "highest flow", r.AcceptableFlowRate.High.In(gpm), 0.269444, 1e-5)
	for i, row := range rows {
		c := r.Catches[i]
		agrees(t, "flow", c.NozzleFlowRate.In(gpm), row.flow, 1e-5)
		agrees(t, "from rated", c.DeviationFromRated.In(unit.Percent), row.byRated, 1e-5)
		agrees(t, "from mean", c.DeviationFromMean.In(unit.Percent), row.byMean, 1e-5)
		agrees(t, "lowest reading", c.AcceptableVolume.Low.In(unit.USFluidOunce), 42.3272, 1e-5)
		agrees(t, "highest reading", c.AcceptableVolume.High.In(unit.USFluidOunce), 51.7332, 1e-5)
	}
	agrees(t, "mean", r.MeanNozzleFlowRate.In(gpm), 0.244618, 1e-5)
	agrees(t, "coefficient of variation", r.CoefficientOfVariation.In(unit.Percent), 6.37416, 1e-5)
	agrees(t, "proportion outside", r.ProportionOutside.In(unit.Percent), 16.6667, 1e-5)
	if statuses(r) != "wwwwwwbwwaww" || r.Tested != 12 || r.Outside != 2 || r.Decision != calc.FixListed || r.Warnings != nil {
		t.Errorf("judged %s: %+v", statuses(r), r)
	}
	want := []calc.Action{{Catch: 6, Do: calc.CleanAndRecatch}, {Catch: 9, Do: calc.CatchEachNozzle}}
	if fmt.Sprint(r.Actions) != fmt.Sprint(want) {
		t.Errorf("actions %v, want %v", r.Actions, want)
	}
}

// TestReferenceBothBases: rated 1, limit 10 %. Readings 1.08, 1.08, 0.96 and 0.88
// have a mean of 1.00; 0.88 is outside both. Readings 1.09, 1.09, 1.09 and 0.93
// have a mean of 1.05: all are within 10 % of the rating, but 0.93 is 11.4 % below
// the mean. Of 1.11, 1.10, 1.10 and 1.09, mean 1.10, the first is outside the
// rating alone. The ranges overlap from 0.9 x the larger reference to 1.1 x the
// smaller.
func TestReferenceBothBases(t *testing.T) {
	for _, c := range []struct {
		readings  []unit.Volume
		want      [3]string // by the rating, the mean, both
		low, high float64
	}{
		{[]unit.Volume{1.08, 1.08, 0.96, 0.88}, [3]string{"wwwb", "wwwb", "wwwb"}, 0.9, 1.1},
		{[]unit.Volume{1.09, 1.09, 1.09, 0.93}, [3]string{"wwww", "wwwb", "wwwb"}, 0.945, 1.1},
		{[]unit.Volume{1.11, 1.10, 1.10, 1.09}, [3]string{"awww", "wwww", "awww"}, 0.99, 1.1},
		// Mean 1.3: 1.17 to 1.43 does not meet 0.9 to 1.1, so nothing is acceptable.
		{[]unit.Volume{1.3, 1.3}, [3]string{"aa", "ww", "aa"}, 0, 0},
	} {
		for i, basis := range []calc.Basis{calc.RatedBasis, calc.MeanBasis, calc.BothBases} {
			in := litreRated(0.1, append([]unit.Volume(nil), c.readings...)...)
			in.Tolerance.Basis = basis
			r := mustAccept(t, in)
			if statuses(r) != c.want[i] || r.Basis != basis {
				t.Errorf("%v by basis %s: %s, want %s", c.readings, basis, statuses(r), c.want[i])
			}
			if basis == calc.BothBases {
				agrees(t, "low", r.AcceptableFlowRate.Low.In(unit.LitrePerMinute), c.low, 1e-12)
				agrees(t, "high", r.AcceptableFlowRate.High.In(unit.LitrePerMinute), c.high, 1e-12)
				agrees(t, "low reading", r.Catches[0].AcceptableVolume.Low.In(unit.Litre), c.low, 1e-12)
			}
		}
	}
}

// TestReferenceDefaultBasis: the rating where there is one, else the mean.
func TestReferenceDefaultBasis(t *testing.T) {
	in := litreRated(0, 1.3, 1.3)
	if r := mustAccept(t, in); r.Basis != calc.RatedBasis || r.Limit != calc.DefaultOutputTolerance || r.ReplaceAllAbove != certainty.DefaultReplaceAllAbove || statuses(r) != "aa" {
		t.Errorf("with a rating: %+v", r)
	}
	in.Nozzle = calc.Nozzle{}
	r := mustAccept(t, in)
	if r.Basis != calc.MeanBasis || statuses(r) != "ww" || r.HasRating || r.Decision != calc.Keep || r.Actions != nil {
		t.Errorf("without: %+v", r)
	}
	// 1.3 less and more 10 %.
	agrees(t, "low", r.AcceptableFlowRate.Low.In(unit.LitrePerMinute), 1.17, 1e-12)
	agrees(t, "high", r.AcceptableFlowRate.High.In(unit.LitrePerMinute), 1.43, 1e-12)
}

// TestReferenceMixedPressures: rated 1 L/min at 3 bar. A catch at 12 bar should
// give sqrt(12/3) = 2 and one at 0.75 bar sqrt(0.75/3) = 0.5. Brought to 3 bar, 2.2
// at 12 bar is 1.1 and 0.45 at 0.75 bar is 0.9; with 1.0 at 3 bar the mean is 1.0.
func TestReferenceMixedPressures(t *testing.T) {
	in := litreRated(0.1, 1, 2.2, 0.45)
	in.Catches[1].SprayPressure, in.Catches[2].SprayPressure = 12*unit.Bar, 0.75*unit.Bar
	for _, basis := range []calc.Basis{calc.RatedBasis, calc.MeanBasis, calc.BothBases} {
		in.Tolerance.Basis = basis
		r := mustAccept(t, in)
		if statuses(r) != "www" {
			t.Errorf("by basis %s: %s", basis, statuses(r))
		}
		lpm := unit.LitrePerMinute
		for i, want := range []struct{ at3, low, high float64 }{{1, 0.9, 1.1}, {1.1, 1.8, 2.2}, {0.9, 0.45, 0.55}} {
			agrees(t, "brought to 3 bar", r.Catches[i].NozzleFlowRateAtPressure.In(lpm), want.at3, 1e-12)
			agrees(t, "low", r.Catches[i].AcceptableFlowRate.Low.In(lpm), want.low, 1e-12)
			agrees(t, "high", r.Catches[i].AcceptableFlowRate.High.In(lpm), want.high, 1e-12)
		}
		agrees(t, "mean", r.MeanNozzleFlowRate.In(lpm), 1, 1e-12)
		agrees(t, "variation", r.CoefficientOfVariation.In(unit.Percent), 10, 1e-12) // sqrt(0.02 / 2)
		agrees(t, "common range", r.AcceptableFlowRate.Low.In(lpm), 0.9, 1e-12)
	}
	// Without a common pressure the lowest serves, where 1.0 at 3 bar is 0.5, and
	// no one range holds for all.
	in.SprayPressure, in.Catches[0].SprayPressure = 0, 3*unit.Bar
	r := mustAccept(t, in)
	agrees(t, "working pressure", r.SprayPressure.In(unit.Bar), 0.75, 1e-12)
	agrees(t, "mean at the lowest", r.MeanNozzleFlowRate.In(unit.LitrePerMinute), 0.5, 1e-12)
	if r.AcceptableFlowRate != (calc.FlowRange{}) || r.RatedFlowRateAtPressure != 0 || statuses(r) != "www" {
		t.Errorf("one range for all: %+v", r)
	}
	// One pressure on every catch is a common one: 2 L/min at 12 bar.
	for i := range in.Catches {
		in.Catches[i].SprayPressure = 12 * unit.Bar
	}
	agrees(t, "shared", mustAccept(t, in).RatedFlowRateAtPressure.In(unit.LitrePerMinute), 2, 1e-12)
}

// TestReferenceHiddenDeviation: three nozzles, limit 10 %. At 0 % two that are 10 %
// low leave a third 3 x 0 + 2 x 10 = 20 % high. At +7 % it is 3 x 7 + 2 x 10 = 41 %.
// At -7 % as much low. Of ten at -8 %, the low side is 9 x 10 + 10 x 8 = 170 %,
// but no nozzle gives less than nothing: 100 %. One outside hides nothing more.
func TestReferenceHiddenDeviation(t *testing.T) {
	for _, c := range []struct {
		nozzles   int
		off, want float64
	}{{3, 0, 0.20}, {3, 0.07, 0.41}, {3, -0.07, 0.41}, {10, -0.08, 1}, {1, 0.07, 0}, {0, 0.07, 0}, {3, 0.11, 0}} {
		in := litreRated(0.1, unit.Volume(1+c.off)*unit.Volume(max(c.nozzles, 1)))
		in.Catches[0].Nozzles = c.nozzles
		r := mustAccept(t, in)
		agrees(t, fmt.Sprint(c), float64(r.Catches[0].LargestHiddenDeviation), c.want, 1e-9)
		agrees(t, fmt.Sprint(c), float64(r.LargestHiddenDeviation), c.want, 1e-9)
	}
}

// TestReferenceSides: left 1.0 and 1.1 of one nozzle each, and 3.6 of three, are
// 5.7/5 = 1.14; right 0.86; centre and unplaced count in the mean only:
// (5.7 + 0.86 + 0.96) / 7 = 7.52/7.
func TestReferenceSides(t *testing.T) {
	in := litreRated(0.5, 1.0, 1.1, 3.6, 0.86, 0.96)
	in.Catches[2].Nozzles = 3
	for i, p := range []certainty.Position{certainty.Left, certainty.Left, certainty.Left, certainty.Right, certainty.Unplaced} {
		in.Catches[i].Position = p
	}
	r := mustAccept(t, in)
	if len(r.Sides) != 2 || r.Sides[0].Position != certainty.Left || r.Sides[0].Catches != 3 || r.Sides[1].Position != certainty.Right || r.Sides[1].Catches != 1 {
		t.Fatalf("sides are %+v", r.Sides)
	}
	agrees(t, "mean", r.MeanNozzleFlowRate.In(unit.LitrePerMinute), 7.52/7, 1e-12)
	agrees(t, "left", r.Sides[0].MeanNozzleFlowRate.In(unit.LitrePerMinute), 1.14, 1e-12)
	agrees(t, "right", r.Sides[1].MeanNozzleFlowRate.In(unit.LitrePerMinute), 0.86, 1e-12)
	agrees(t, "left from the mean", float64(r.Sides[0].DeviationFromMean), 1.14*7/7.52-1, 1e-9)
}

// TestReferenceAcceptanceWarnings: a catch of 19 s, and pressures beside 2 to 4 bar.
func TestReferenceAcceptanceWarnings(t *testing.T) {
	in := litreRated(1, 1, 1)
	in.Nozzle.PressureRange = calc.PressureRange{Low: 2 * unit.Bar, High: 4 * unit.Bar}
	if r := mustAccept(t, in); r.Warnings != nil {
		t.Errorf("warned of %v", r.Warnings)
	}
	in.SprayPressure = 5 * unit.Bar
	in.Catches[0].Time = 19 * unit.Second
	in.Catches[1].SprayPressure = 1.9 * unit.Bar
	got := warned(mustAccept(t, in).Warnings)
	if want := "catches[0].time: short_catch; catches[1].sprayPressure: " + calc.WarnPressureOutsideRange +
		"; catches[1].sprayPressure: " + calc.WarnFarPressure +
		"; sprayPressure: " + calc.WarnPressureOutsideRange; got != want {
		t.Errorf("warned of %q, want %q", got, want)
	}
}

// TestReferenceOneCatch: statistics are left out.
func TestReferenceOneCatch(t *testing.T) {
	r := mustAccept(t, litreRated(0.1, 1.05))
	if r.HasMean || r.CoefficientOfVariation != 0 || r.Sides != nil || r.Even || statuses(r) != "w" {
		t.Errorf("got %+v", r)
	}
	agrees(t, "from rated", r.Catches[0].DeviationFromRated.In(unit.Percent), 5, 1e-12)
}

// TestReferenceReadingExactlyOnItsLimit: 44 and 36 of 40 are on a limit of 10 %, 42.8
// and 37.2 on one of 7 %, in every unit of volume and with the pressure in any. A
// hundred-thousandth more is outside.
func TestReferenceReadingExactlyOnItsLimit(t *testing.T) {
	volumes := []unit.Volume{unit.USFluidOunce, unit.Millilitre, unit.Litre, unit.ImperialFluidOunce, unit.USGallon}
	pressures := [][2]unit.Pressure{
		{40 * unit.PoundPerSquareInch, 40 * unit.PoundPerSquareInch}, {3 * unit.Bar, 300 * unit.Kilopascal},
		{2.75 * unit.Bar, 275 * unit.Kilopascal}, {275 * unit.Kilopascal, 2.75 * unit.Bar},
	}
	for _, v := range volumes {
		for _, p := range pressures {
			for _, c := range []struct {
				limit unit.Ratio
				shift unit.Volume
				want  string
			}{{10 * unit.Percent, 4, "wwab"}, {7 * unit.Percent, 2.8, "wwab"}} {
				r := mustAccept(t, calc.NozzleAcceptanceInput{
					Nozzle:        calc.Nozzle{RatedFlowRate: unit.FlowRate(float64(40*v) / 30), RatedPressure: p[0]},
					SprayPressure: p[1],
					Tolerance:     calc.OutputTolerance{Limit: c.limit},
					Catches:       caught(30*unit.Second, (40+c.shift)*v, (40-c.shift)*v, (40+c.shift)*v*1.00001, (40-c.shift)*v*0.99999),
				})
				if statuses(r) != c.want {
					t.Errorf("limit %v, volume unit %v, pressures %v: %s", c.limit, v, p, statuses(r))
				}
			}
		}
	}
}

func ExampleNozzleAcceptance() {
	// Three tips of a hand boom gave 44, 45 and 44 fl oz in 46 s: 133 fl oz in all,
	// and each within 7 % of the average, 41.2 to 47.4. SportsTurf, April 2014,
	// https://read.dmtmag.com/i/282941/37
	r, err := calc.NozzleAcceptance(calc.NozzleAcceptanceInput{
		Catches:   caught(46*unit.Second, 44*unit.USFluidOunce, 45*unit.USFluidOunce, 44*unit.USFluidOunce),
		Tolerance: calc.OutputTolerance{Limit: 7 * unit.Percent, Basis: calc.MeanBasis},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	jug := r.Catches[0].AcceptableVolume
	fmt.Printf("%d of %d outside %.1f to %.1f fl oz\n", r.Outside, r.Tested,
		jug.Low.In(unit.USFluidOunce), jug.High.In(unit.USFluidOunce))
	// Output: 0 of 3 outside 41.2 to 47.4 fl oz
}
