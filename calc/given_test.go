package calc_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// asked is an operation and a request that it is asked with.
type asked struct {
	name string
	ask  func(change func(in reflect.Value)) (result any, err error)
}

func ask[I, R any](name string, operation func(I) (R, error), in func() I) asked {
	return asked{name, func(change func(reflect.Value)) (any, error) {
		x := in()
		change(reflect.ValueOf(&x).Elem())
		return operation(x)
	}}
}

// requests ask every operation with much of what it takes.
func requests() []asked {
	nozzle := calc.Nozzle{RatedFlowRate: 1.2 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar, PressureRange: calc.PressureRange{Low: 1 * unit.Bar, High: 6 * unit.Bar}}
	chart := func() calc.Nozzle {
		return calc.Nozzle{FlowChart: []calc.FlowPoint{{Pressure: 2 * unit.Bar, FlowRate: 1 * unit.LitrePerMinute}, {Pressure: 4 * unit.Bar, FlowRate: 1.4 * unit.LitrePerMinute}}}
	}
	return []asked{
		ask("application-rate", calc.ApplicationRate, func() calc.ApplicationRateInput {
			return calc.ApplicationRateInput{
				NozzleFlowRate: 1 * unit.LitrePerMinute, GroundSpeed: 2, SprayedWidthPerNozzle: 0.5,
				TargetApplicationRate: 160 * unit.LitrePerHectare, LabelMaximum: 170 * unit.LitrePerHectare,
				StandardUncertainties: calc.RateStandards{NozzleFlowRate: 0.01, GroundSpeed: 0.01},
			}
		}),
		ask("application-rate of a bed", calc.ApplicationRate, func() calc.ApplicationRateInput {
			return calc.ApplicationRateInput{
				Nozzle: nozzle, SprayPressure: 3 * unit.Bar, GroundSpeed: 2, Width: 1.5, Nozzles: 3, RowSpacing: 2, RelativeDensity: 1.1,
				TargetApplicationRate: 200 * unit.LitrePerHectare, RateBasis: calc.RateBasisField,
			}
		}),
		ask("application-rate by a chart", calc.ApplicationRate, func() calc.ApplicationRateInput {
			return calc.ApplicationRateInput{Nozzle: chart(), SprayPressure: 3 * unit.Bar, SprayedWidthPerNozzle: 0.5, ApplicationRate: 200 * unit.LitrePerHectare}
		}),
		ask("area-check", calc.AreaCheck, func() calc.AreaCheckInput {
			return calc.AreaCheckInput{VolumeUsed: 0.06, CourseLength: 500, Width: 4, ExpectedApplicationRate: 300 * unit.LitrePerHectare,
				StandardUncertainties: calc.AreaStandards{VolumeUsed: 0.01, CourseLength: 0.01, Width: 0.01, ExpectedApplicationRate: 0.01}}
		}),
		ask("area-check of an area", calc.AreaCheck, func() calc.AreaCheckInput {
			return calc.AreaCheckInput{VolumeUsed: 0.06, Area: 2000, StandardUncertainties: calc.AreaStandards{Area: 0.01}}
		}),
		ask("course-length", calc.CourseLength, func() calc.CourseLengthInput {
			in := ouncesAreGallons(2)
			in.GroundSpeed = 2
			return in
		}),
		ask("field-capacity", calc.FieldCapacity, func() calc.FieldCapacityInput {
			return calc.FieldCapacityInput{GroundSpeed: 2, WorkingWidth: 12, FieldEfficiency: 0.7, TankVolume: 2, ApplicationRate: 2e-5, RefillTime: 900, FieldArea: 4e5}
		}),
		ask("field-capacity alone", calc.FieldCapacity, func() calc.FieldCapacityInput {
			return calc.FieldCapacityInput{GroundSpeed: 2, WorkingWidth: 12}
		}),
		ask("ground-speed", calc.GroundSpeed, func() calc.GroundSpeedInput {
			return calc.GroundSpeedInput{Measuring: certainty.Measuring{Uncertainty: true}, Runs: []calc.Run{
				{CourseLength: 50, Time: 25, Direction: calc.Out}, {CourseLength: 50, Time: 26, Direction: calc.Back}}}
		}),
		ask("nozzle-flow", calc.NozzleFlow, func() calc.NozzleFlowInput {
			return calc.NozzleFlowInput{Measuring: certainty.Measuring{Uncertainty: true}, Catches: []calc.Catch{
				{Volume: 1e-3, Time: 60, SprayPressure: 2 * unit.Bar}, {Volume: 1.4e-3, Time: 60, SprayPressure: 4 * unit.Bar}},
				PredictAt: []calc.Prediction{{SprayPressure: 3 * unit.Bar, RelativeDensity: 1.2}}}
		}),
		ask("nozzle-flow at one pressure", calc.NozzleFlow, func() calc.NozzleFlowInput {
			return calc.NozzleFlowInput{Measuring: certainty.Measuring{Uncertainty: true}, SprayPressure: 2 * unit.Bar,
				Catches: []calc.Catch{{Volume: 1e-3, Time: 60}}, PredictAt: []calc.Prediction{{SprayPressure: 3 * unit.Bar}}}
		}),
		ask("nozzle-acceptance", calc.NozzleAcceptance, func() calc.NozzleAcceptanceInput {
			in := calc.NozzleAcceptanceInput{Nozzle: nozzle, SprayPressure: 3 * unit.Bar, Measuring: certainty.Measuring{Uncertainty: true}}
			for _, v := range []unit.Volume{1.2e-3, 1.25e-3, 1e-3} {
				in.Catches = append(in.Catches, calc.AcceptanceCatch{Catch: calc.Catch{Volume: v, Time: 60}})
			}
			return in
		}),
		ask("nozzle-acceptance by pressures", calc.NozzleAcceptance, func() calc.NozzleAcceptanceInput {
			in := calc.NozzleAcceptanceInput{Nozzle: chart(), Measuring: certainty.Measuring{Uncertainty: true}}
			for _, v := range []unit.Volume{1.2e-3, 1.25e-3, 1.1e-3} {
				in.Catches = append(in.Catches, calc.AcceptanceCatch{Catch: calc.Catch{Volume: v, Time: 60, SprayPressure: 3 * unit.Bar}})
			}
			in.Catches = append(in.Catches, calc.AcceptanceCatch{Catch: calc.Catch{Volume: 2.4e-3, Time: 60, SprayPressure: 3 * unit.Bar},
				NozzlesOnDrop: []calc.DropNozzle{{Nozzle: nozzle, Count: 1}, {Nozzle: chart(), Count: 1}}})
			in.Tolerance.Basis = calc.RatedBasis
			return in
		}),
		ask("nozzle-selection", calc.NozzleSelection, func() calc.NozzleSelectionInput {
			in := wanted()
			in.SizeRating = ""
			in.Shelf = []calc.ShelfNozzle{{RatedFlowRate: nozzle.RatedFlowRate, RatedPressure: nozzle.RatedPressure, PressureRange: nozzle.PressureRange}}
			return in
		}),
		ask("pressure-uniformity", calc.PressureUniformity, func() calc.PressureUniformityInput {
			return calc.PressureUniformityInput{Readings: []unit.Pressure{3 * unit.Bar, 3.1 * unit.Bar, 2.9 * unit.Bar}, CabPressure: 3.2 * unit.Bar,
				TargetPressure: 3 * unit.Bar, PressureRange: nozzle.PressureRange, Measuring: certainty.Measuring{Uncertainty: true}}
		}),
		ask("pattern-uniformity", calc.PatternUniformity, func() calc.PatternUniformityInput {
			return calc.PatternUniformityInput{NozzlePattern: calc.NozzlePattern{CupSpacing: 0.1, Volumes: []unit.Volume{1e-5, 3e-5, 5e-5, 3e-5, 1e-5}},
				NozzleSpacing: 0.3, SpacingRange: calc.SpacingRange{Low: 0.2, High: 0.4, Steps: 5}, MaxCoefficientOfVariation: 0.1, MaxPlaceDeviation: 0.2}
		}),
		ask("pump-demand", calc.PumpDemand, func() calc.PumpDemandInput {
			return calc.PumpDemandInput{NozzleGroups: []calc.NozzleGroup{{Nozzles: 12, Nozzle: nozzle}}, SprayPressure: 3 * unit.Bar, TankVolume: 1.5,
				RatedPumpFlowRate: 100 * unit.LitrePerMinute, GroundSpeed: 2, Width: 6}
		}),
		ask("pump-demand of flows", calc.PumpDemand, func() calc.PumpDemandInput {
			return calc.PumpDemandInput{Nozzles: 12, NozzleFlowRate: 1.2 * unit.LitrePerMinute, AgitationFlowRate: 20 * unit.LitrePerMinute}
		}),
		ask("tank-loads", calc.TankLoads, func() calc.TankLoadsInput {
			return calc.TankLoadsInput{TankVolume: 2, ApplicationRate: 2e-5, TreatedArea: 3e5, LabelRate: 2.1e-5}
		}),
		ask("tank-loads of a field", calc.TankLoads, func() calc.TankLoadsInput {
			return calc.TankLoadsInput{TankVolume: 2, UsableVolume: 1.9, ResidualVolume: 0.05, ApplicationRate: 2e-5, FieldArea: 3e5, Width: 1.2, RowSpacing: 1.8, AreaBasis: calc.RateBasisField}
		}),
		ask("wear-forecast", calc.WearForecast, func() calc.WearForecastInput {
			return wearOf([]float64{0, 100, 200, 300}, []float64{1, 1.02, 1.03, 1.06})
		}),
		ask("corrections", calc.Corrections, tooMuch), ask("corrections by gears", calc.Corrections, geared), ask("corrections by nozzles", calc.Corrections, shelved),
		ask("calibrations", calc.FieldSheet, wholeSheet), ask("calibrations of a plan", calc.FieldSheet, plannedSheet),
		ask("calibrations, sure", calc.FieldSheet, func() calc.FieldSheetInput {
			in := twelveCatches()
			in.Output.Catches = in.Output.Catches[:3]
			in.Measuring.Uncertainty = true
			in.Machine.RowSpacing, in.Target.RateBasis = 4, calc.RateBasisTreated
			in.AreaCheck = calc.AreaCheckInput{VolumeUsed: 0.1, CourseLength: 100, Width: 4}
			in.Target.LabelMaximum = 30 * unit.USGallonPerAcre
			return in
		}),
	}
}

// amounts are the numbers of an input that are not counts.
func amounts(v reflect.Value, name string, each func(name string, x reflect.Value)) {
	switch v.Kind() {
	case reflect.Float64:
		if v.CanSet() {
			each(name, v)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			amounts(v.Field(i), name+"."+v.Type().Field(i).Name, each)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			amounts(v.Index(i), fmt.Sprint(name, ".", i), each)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			amounts(v.Elem(), name, each)
		}
	}
}

// TestPropertyOneIsGiven: one metre, one second, one pascal are as given as the next
// double to them. Zero alone stands for what is not given, and an operation that took
// any other number for that would answer otherwise for its neighbour. Every amount of
// every request is made one, whether it was given or not; where that is refused, the
// neighbour is refused in the same words.
func TestPropertyOneIsGiven(t *testing.T) {
	for _, r := range requests() {
		t.Run(r.name, func(t *testing.T) {
			if _, err := r.ask(func(reflect.Value) {}); err != nil {
				t.Fatalf("as it stands: %v", err)
			}
			made := func(at int, to float64) (field string, result any, err error) {
				result, err = r.ask(func(in reflect.Value) {
					n := 0
					amounts(in, "", func(name string, x reflect.Value) {
						if n == at && !strings.HasSuffix(name, "PressureExponent") { // whose range ends at one
							x.SetFloat(to)
						}
						if n == at {
							field = name
						}
						n++
					})
				})
				return field, result, err
			}
			for at := 0; ; at++ {
				field, one, refused := made(at, 1)
				if field == "" {
					break
				}
				_, next, nextRefused := made(at, 1+0x1p-40)
				if fmt.Sprint(refused) != fmt.Sprint(nextRefused) {
					t.Errorf("%s of 1: %v; of the next double: %v", field, refused, nextRefused)
				} else if where := apart(reflect.ValueOf(one), reflect.ValueOf(next), "the result"); where != "" {
					t.Errorf("%s of 1 and of the next double: %s", field, where)
				}
			}
		})
	}
}

// apart tells where two results differ by more than a double's neighbour can do; "" if
// nowhere.
func apart(a, b reflect.Value, name string) string {
	switch a.Kind() {
	case reflect.Float64:
		x, y := a.Float(), b.Float()
		if x == y || math.IsNaN(x) && math.IsNaN(y) || math.Abs(x-y) <= 1e-6*math.Max(math.Abs(x), math.Abs(y))+1e-10 {
			return ""
		}
	case reflect.Struct:
		for i := range a.NumField() {
			if where := apart(a.Field(i), b.Field(i), name+"."+a.Type().Field(i).Name); where != "" {
				return where
			}
		}
		return ""
	case reflect.Slice, reflect.Array:
		if a.Len() == b.Len() {
			for i := range a.Len() {
				if where := apart(a.Index(i), b.Index(i), fmt.Sprint(name, ".", i)); where != "" {
					return where
				}
			}
			return ""
		}
	case reflect.Pointer:
		if a.IsNil() || b.IsNil() {
			if a.IsNil() && b.IsNil() {
				return ""
			}
		} else {
			return apart(a.Elem(), b.Elem(), name)
		}
	default:
		if a.Equal(b) {
			return ""
		}
	}
	return fmt.Sprintf("%s: %v and %v", name, a, b)
}
