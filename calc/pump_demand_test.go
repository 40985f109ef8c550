package calc_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

func mustPumpDemand(t rapid.TB, in calc.PumpDemandInput) calc.PumpDemandResult {
	t.Helper()
	r, err := calc.PumpDemand(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestPublishedPumpDemand: 24 nozzles of 0.505 gpm at 1.5 mph on rows of 20 ft are
// the 200 gal/acre that they were worked for. Air-Blast Sprayer Lab Exercise, PLANT
// 163, California State University, Fresno, 2020, student copy,
// seen in a copy only
func TestPublishedPumpDemand(t *testing.T) {
	r := mustPumpDemand(t, calc.PumpDemandInput{
		Nozzles: 24, NozzleFlowRate: 0.505 * unit.USGallonPerMinute,
		GroundSpeed: 1.5 * unit.MilePerHour, Width: 20 * unit.Foot,
	})
	printedAs(t, "rate", r.ApplicationRate.In(unit.USGallonPerAcre), 200, 0)
}

// TestPublishedWornPump: a pump passes down to 10 % below its rating. Kontrola
// prskalica pred sezonu, Serbian advisory service,
// https://www.poljoprivrednik.net/poljoprivreda/poljoprivredna-tehnika/5871-kontrola-prskalica-pred-sezonu
func TestPublishedWornPump(t *testing.T) {
	r := mustPumpDemand(t, calc.PumpDemandInput{
		Nozzles: 1, NozzleFlowRate: 1 * unit.LitrePerMinute, RatedPumpFlowRate: 50 * unit.LitrePerMinute,
	})
	agrees(t, "worn pump", r.WornPumpFlowRate.In(unit.LitrePerMinute), 45, 1e-12)
}

// TestReferencePumpDemand, by hand: 20 nozzles x 0.4 = 8 gal/min; 5 % of 200 gal a
// minute = 10; 20 % of 18 = 3.6; together 21.6. A pump of 24 spares 2.4, and 90 % of
// it is 21.6 exactly, which still does. It leaves 24 / 1.2 - 10 = 10 gal/min, 25
// nozzles. At 5 mph and 30 ft the rate is 495 x 8 / (5 x 30) = 26.4 gal/acre and
// could be 495 x 10 / 150 = 33. The shares are the defaults, from memory; 495 is
// 5940 / 12, see the unit table.
func TestReferencePumpDemand(t *testing.T) {
	in := calc.PumpDemandInput{
		Nozzles: 20, NozzleFlowRate: 0.4 * unit.USGallonPerMinute, TankVolume: 200 * unit.USGallon,
		RatedPumpFlowRate: 24 * unit.USGallonPerMinute, GroundSpeed: 5 * unit.MilePerHour, Width: 30 * unit.Foot,
	}
	r := mustPumpDemand(t, in)
	for _, c := range []struct {
		what string
		got  unit.FlowRate
		want float64
	}{
		{"nozzle", r.NozzleFlowRates[0], 0.4}, {"spray", r.SprayFlowRate, 8}, {"agitation", r.AgitationFlowRate, 10},
		{"reserve", r.ReserveFlowRate, 3.6}, {"total", r.TotalFlowRate, 21.6}, {"spare", r.SpareFlowRate, 2.4},
		{"worn", r.WornPumpFlowRate, 21.6}, {"largest", r.LargestSprayFlowRate, 10},
	} {
		agrees(t, c.what, c.got.In(unit.USGallonPerMinute), c.want, 1e-13)
	}
	agrees(t, "share", float64(r.AgitationShare), 0.05, 1e-13)
	agrees(t, "reserve", float64(r.Reserve), 0.2, 1e-13)
	agrees(t, "rate", r.ApplicationRate.In(unit.USGallonPerAcre), 26.4, 1e-13)
	agrees(t, "largest rate", r.LargestApplicationRate.In(unit.USGallonPerAcre), 33, 1e-13)
	if r.Sufficient != finding.Within || r.SufficientWhenWorn != finding.Within || r.LargestNozzles != 25 || r.Warnings != nil {
		t.Errorf("%v, worn %v, %d nozzles, %v", r.Sufficient, r.SufficientWhenWorn, r.LargestNozzles, r.Warnings)
	}
	// A pump of exactly the demand does, one a millionth smaller does not; both are
	// short when worn, and only the first is worth a warning of it.
	for _, c := range []struct {
		pump    unit.FlowRate
		want    finding.Verdict
		warning string
	}{{21.6, finding.Within, "ratedPumpFlowRate: short_when_worn"}, {21.6 * (1 - 1e-6), finding.Outside, ""}} {
		in.RatedPumpFlowRate = c.pump * unit.USGallonPerMinute
		r := mustPumpDemand(t, in)
		if r.Sufficient != c.want || r.SufficientWhenWorn != finding.Outside || warned(r.Warnings) != c.warning {
			t.Errorf("%v: %v, worn %v, %v", c.pump, r.Sufficient, r.SufficientWhenWorn, r.Warnings)
		}
	}
}

// TestReferencePumpDemandOfGroups, by hand: 8 x 1 L/min, and 2 of size 02, which give
// 0.8 L/min at 3 bar and half of it at 0.75 bar: 8.8 L/min. 40 L/min of agitation is
// 5 % of 800 L. 25 % of 48.8 is 12.2; together 61. A pump of 60 is short by 1; it
// leaves 60 / 1.25 - 40 = 8 L/min.
func TestReferencePumpDemandOfGroups(t *testing.T) {
	r := mustPumpDemand(t, calc.PumpDemandInput{
		NozzleGroups: []calc.NozzleGroup{
			{Nozzles: 8, NozzleFlowRate: 1 * unit.LitrePerMinute},
			{Nozzles: 2, Nozzle: calc.Nozzle{Size: "02"}},
		},
		SprayPressure: 0.75 * unit.Bar, AgitationFlowRate: 40 * unit.LitrePerMinute, TankVolume: 800 * unit.Litre,
		Reserve: 25 * unit.Percent, RatedPumpFlowRate: 60 * unit.LitrePerMinute,
	})
	agrees(t, "second group", r.NozzleFlowRates[1].In(unit.LitrePerMinute), 0.4, 1e-13)
	agrees(t, "spray", r.SprayFlowRate.In(unit.LitrePerMinute), 8.8, 1e-13)
	agrees(t, "share", r.AgitationShare.In(unit.Percent), 5, 1e-13)
	agrees(t, "total", r.TotalFlowRate.In(unit.LitrePerMinute), 61, 1e-13)
	agrees(t, "spare", r.SpareFlowRate.In(unit.LitrePerMinute), -1, 1e-12)
	agrees(t, "largest", r.LargestSprayFlowRate.In(unit.LitrePerMinute), 8, 1e-12)
	if r.Sufficient != finding.Outside || r.LargestNozzles != -1 || warned(r.Warnings) != "sprayPressure: far_from_rating" || r.ApplicationRate != 0 {
		t.Errorf("%v, %d nozzles, %v, %v", r.Sufficient, r.LargestNozzles, r.Warnings, r.ApplicationRate)
	}
}

// TestReferencePumpTooSmallToStir: 5 / 1.2 is less than the 10 that the tank takes,
// so nothing is left for nozzles.
func TestReferencePumpTooSmallToStir(t *testing.T) {
	r := mustPumpDemand(t, calc.PumpDemandInput{
		Nozzles: 2, NozzleFlowRate: 1, AgitationFlowRate: 10, RatedPumpFlowRate: 5, GroundSpeed: 2, Width: 10,
	})
	if r.Sufficient != finding.Outside || r.LargestSprayFlowRate != 0 || r.LargestNozzles != 0 || r.LargestApplicationRate != 0 {
		t.Errorf("%+v", r)
	}
}

// TestReferencePumpDemandWarnings: limits from memory.
func TestReferencePumpDemandWarnings(t *testing.T) {
	type input = calc.PumpDemandInput
	litre := unit.LitrePerMinute
	ranged := calc.Nozzle{Size: "02", PressureRange: calc.PressureRange{Low: 2e5, High: 4e5}}
	for _, c := range []struct {
		want   string
		change func(*input)
	}{
		{"", func(*input) {}},
		{"agitationFlowRate: agitation_not_counted", func(in *input) { in.AgitationFlowRate = 0 }},
		{"agitationFlowRate: unusual_agitation", func(in *input) { in.TankVolume = 49 * unit.Litre }},
		{"agitationFlowRate: unusual_agitation", func(in *input) { in.TankVolume = 1001 * unit.Litre }},
		{"", func(in *input) { in.TankVolume = 50 * unit.Litre }},
		{"agitationShare: unusual_agitation", func(in *input) {
			in.AgitationFlowRate, in.TankVolume, in.AgitationShare = 0, 1, 0.21
		}},
		{"reserve: unusual_reserve", func(in *input) { in.Reserve = 1.01 }},
		{"sprayPressure: spray_pressure_unused", func(in *input) { in.SprayPressure = 3e5 }},
		{"sprayPressure: pressure_outside_nozzle_range", func(in *input) {
			in.NozzleFlowRate, in.Nozzle, in.SprayPressure = 0, ranged, 5e5
		}},
		{"", func(in *input) { in.NozzleFlowRate, in.Nozzle, in.SprayPressure = 0, ranged, 4e5 }},
		{"", func(in *input) { in.Nozzle.PressureRange, in.SprayPressure = ranged.PressureRange, 2e5 }},
		// 0.4 m/s; 600 x 40 / (0.9 mph = 1.448 km/h x 6 m) is 2762 L/ha.
		{"groundSpeed: unusual_speed; width: unusual_rate", func(in *input) {
			in.GroundSpeed, in.Width = 0.9*unit.MilePerHour, 6
		}},
	} {
		in := input{Nozzles: 20, NozzleFlowRate: 2 * litre, AgitationFlowRate: 10 * litre}
		c.change(&in)
		if got := warned(mustPumpDemand(t, in).Warnings); got != c.want {
			t.Errorf("%+v: warned of %q, want %q", in, got, c.want)
		}
	}
}

// TestPropertyPumpDemand: the pump feeds the largest number of nozzles and not one
// more; a pump of exactly the demand feeds the nozzles given; one group and the same
// nozzles in two are the same demand.
func TestPropertyPumpDemand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := calc.PumpDemandInput{
			Nozzles:           rapid.IntRange(2, 200).Draw(t, "nozzles"),
			NozzleFlowRate:    unit.FlowRate(rapid.Float64Range(1e-6, 1e-4).Draw(t, "flow")),
			AgitationFlowRate: unit.FlowRate(rapid.Float64Range(1e-6, 1e-3).Draw(t, "agitation")),
			Reserve:           unit.Ratio(rapid.Float64Range(0.01, 1).Draw(t, "reserve")),
			RatedPumpFlowRate: unit.FlowRate(rapid.Float64Range(1e-4, 1e-2).Draw(t, "pump")),
		}
		r := mustPumpDemand(t, in)
		if within := r.Sufficient == finding.Within; within != (r.LargestNozzles >= in.Nozzles) {
			t.Errorf("%d nozzles: %v, but at most %d", in.Nozzles, r.Sufficient, r.LargestNozzles)
		}
		if most := r.LargestNozzles; most > 0 {
			for n, want := range map[int]finding.Verdict{most: finding.Within, most + 1: finding.Outside} {
				in := in
				if in.Nozzles = n; mustPumpDemand(t, in).Sufficient != want {
					t.Errorf("%d nozzles of at most %d: not %v", n, most, want)
				}
			}
		}
		split := in
		split.Nozzles, split.NozzleFlowRate, split.RatedPumpFlowRate = 0, 0, r.TotalFlowRate
		split.NozzleGroups = []calc.NozzleGroup{
			{Nozzles: 1, NozzleFlowRate: in.NozzleFlowRate}, {Nozzles: in.Nozzles - 1, NozzleFlowRate: in.NozzleFlowRate},
		}
		s := mustPumpDemand(t, split)
		agrees(t, "split", float64(s.TotalFlowRate), float64(r.TotalFlowRate), 1e-12)
		if s.Sufficient != finding.Within || s.SpareFlowRate != 0 {
			t.Errorf("a pump of the demand: %v, spare %v", s.Sufficient, s.SpareFlowRate)
		}
	})
}

func TestPumpDemandRefuses(t *testing.T) {
	type input = calc.PumpDemandInput
	group := calc.NozzleGroup{Nozzles: 2, NozzleFlowRate: 1}
	for want, change := range map[string]func(*input){
		"nozzles: required; nozzleFlowRate: required": func(in *input) { *in = input{} },
		"nozzles: not_positive":                       func(in *input) { in.Nozzles = -1 },
		"nozzleFlowRate: not_positive":                func(in *input) { in.NozzleFlowRate = -1 },
		"nozzle: conflict":                            func(in *input) { in.Nozzle, in.SprayPressure = calc.Nozzle{Size: "02"}, 1e5 },
		"sprayPressure: required":                     func(in *input) { in.NozzleFlowRate, in.Nozzle.Size = 0, "02" },
		"nozzle.ratedPressure: required":              func(in *input) { in.NozzleFlowRate, in.Nozzle.RatedFlowRate, in.SprayPressure = 0, 1, 1 },
		"nozzle.pressureRange.low: range_inverted":    func(in *input) { in.Nozzle.PressureRange = calc.PressureRange{Low: 2, High: 1} },
		"sprayPressure: not_finite":                   func(in *input) { in.SprayPressure = unit.Pressure(endless) },
		"nozzleGroups: conflict":                      func(in *input) { in.NozzleGroups = []calc.NozzleGroup{group} },
		"nozzleGroups: conflict; ratedPumpFlowRate: not_positive": func(in *input) { // a range alone is not passed over either
			in.Nozzles, in.NozzleFlowRate, in.RatedPumpFlowRate = 0, 0, -1
			in.Nozzle.PressureRange, in.NozzleGroups = calc.PressureRange{Low: 1, High: 2}, []calc.NozzleGroup{group}
		},
		"nozzleGroups[1].nozzles: required":        func(in *input) { *in = input{NozzleGroups: []calc.NozzleGroup{group, {NozzleFlowRate: 1}}} },
		"nozzleGroups[0].nozzleFlowRate: required": func(in *input) { *in = input{NozzleGroups: []calc.NozzleGroup{{Nozzles: 1}}} },
		"nozzleGroups[0].nozzle.size: unknown_size": func(in *input) {
			*in = input{SprayPressure: 1, NozzleGroups: []calc.NozzleGroup{{Nozzles: 1, Nozzle: calc.Nozzle{Size: "3"}}}}
		},
		"agitationShare: conflict":                       func(in *input) { in.AgitationShare, in.AgitationFlowRate, in.TankVolume = 0.1, 1, 1 },
		"tankVolume: required":                           func(in *input) { in.AgitationShare = 0.1 },
		"agitationShare: not_positive":                   func(in *input) { in.AgitationShare, in.TankVolume = -0.1, 1 },
		"agitationFlowRate: not_positive":                func(in *input) { in.AgitationFlowRate = -1 },
		"tankVolume: not_finite":                         func(in *input) { in.TankVolume = unit.Volume(noNumber) },
		"reserve: not_positive":                          func(in *input) { in.Reserve = -1 },
		"ratedPumpFlowRate: not_positive":                func(in *input) { in.RatedPumpFlowRate = -1 },
		"groundSpeed: required":                          func(in *input) { in.Width = 1 },
		"width: required":                                func(in *input) { in.GroundSpeed = 1 },
		"groundSpeed: not_positive; width: not_positive": func(in *input) { in.GroundSpeed, in.Width = -1, -1 },
		"ratedPumpFlowRate: not_computable":              func(in *input) { in.RatedPumpFlowRate = 1e10 },
	} {
		in := input{Nozzles: 2, NozzleFlowRate: 1}
		change(&in)
		if r, err := calc.PumpDemand(in); refusal(err) != want || r.TotalFlowRate != 0 {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
}

// Invented: 20 nozzles of 0.4 gal/min are 8; 5 % of 200 gal a minute are 10; 20 % of
// both are 3.6.
func ExamplePumpDemand() {
	r, err := calc.PumpDemand(calc.PumpDemandInput{
		Nozzles: 20, NozzleFlowRate: 0.4 * unit.USGallonPerMinute, TankVolume: 200 * unit.USGallon,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f gal/min\n", r.TotalFlowRate.In(unit.USGallonPerMinute))
	// Output: 21.6 gal/min
}

// TestReferenceAgitationBounds: from 1 to 20 % of the tank a minute is usual, from memory.
func TestReferenceAgitationBounds(t *testing.T) {
	for percent, want := range map[float64]bool{0.99: true, 1: false, 1.1: false, 19.9: false, 20.1: true} {
		r := mustPumpDemand(t, calc.PumpDemandInput{
			Nozzles: 1, NozzleFlowRate: unit.LitrePerMinute, TankVolume: 1, AgitationShare: unit.Ratio(percent) * unit.Percent,
		})
		if got := strings.Contains(warned(r.Warnings), calc.WarnUnusualAgitation); got != want {
			t.Errorf("%v %%: warned %v", percent, got)
		}
	}
}

// TestReferencePumpFeedsWholeNozzles, by hand: a pump of n times the flow of one nozzle, without
// agitation and reserve, feeds n of them, up to 1e9.
func TestReferencePumpFeedsWholeNozzles(t *testing.T) {
	for _, litres := range []float64{0.1, 0.3, 0.7, 1.1} {
		for n := 1; n <= 60; n++ {
			r := mustPumpDemand(t, calc.PumpDemandInput{
				Nozzles: 1, NozzleFlowRate: unit.FlowRate(litres) * unit.LitrePerMinute, NoReserve: true,
				RatedPumpFlowRate: unit.FlowRate(litres*float64(n)) * unit.LitrePerMinute,
			})
			if r.LargestNozzles != n {
				t.Errorf("%d x %v L/min: at most %d", n, litres, r.LargestNozzles)
			}
		}
	}
	r := mustPumpDemand(t, calc.PumpDemandInput{Nozzles: 1, NozzleFlowRate: 1, NoReserve: true, RatedPumpFlowRate: 1e9})
	if r.LargestNozzles != 1e9 {
		t.Errorf("at most %d", r.LargestNozzles)
	}
}

// TestPumpDemandRefusesBeside: what is refused beside something else, or stands in for it, is
// told with it. Groups stand beside what the input says of nozzles, and not within a group.
func TestPumpDemandRefusesBeside(t *testing.T) {
	type input = calc.PumpDemandInput
	groups := []calc.NozzleGroup{{Nozzles: 2, NozzleFlowRate: 1}}
	for want, in := range map[string]input{
		"nozzles":        {Nozzles: 1, NozzleGroups: groups},
		"nozzleFlowRate": {NozzleFlowRate: 1, NozzleGroups: groups},
		"nozzle":         {Nozzle: calc.Nozzle{Size: "02"}, SprayPressure: 3e5, NozzleGroups: groups},
	} {
		_, err := calc.PumpDemand(in)
		var v finding.Invalid
		if !errors.As(err, &v) || refusal(err) != "nozzleGroups: conflict" || v[0].Because.String() != want {
			t.Errorf("beside %s: %+v", want, err)
		}
	}
	for want, in := range map[string]input{
		"[nozzle nozzleGroups]":    {Nozzles: 1},
		"[nozzleGroups[0].nozzle]": {NozzleGroups: []calc.NozzleGroup{{Nozzles: 1}}},
	} {
		_, err := calc.PumpDemand(in)
		var v finding.Invalid
		if !errors.As(err, &v) || fmt.Sprint(v[0].Instead) != want {
			t.Errorf("%+v, instead %v, want %s", err, v[0].Instead, want)
		}
	}
}
