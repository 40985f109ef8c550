package calc

import (
	"slices"

	"wetrun/calc/certainty"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// What people in the trade use where nothing else is asked for. Each is common
// practice without a published source, or a rule of thumb from memory where it says so; every
// operation takes another value.
const (
	DefaultPressureDifference = 10 * unit.PoundPerSquareInch // highest less lowest boom reading
	DefaultOutputTolerance    = 10 * unit.Percent            // of a nozzle's rated flow
	DefaultRateTolerance      = 10 * unit.Percent            // of the target rate
	DefaultRunTolerance       = 5 * unit.Percent             // spread of timed runs
	DefaultFieldEfficiency    = 65 * unit.Percent            // of speed x width, refills included; a rule of thumb
	DefaultAgitationShare     = 5 * unit.Percent             // of the tank's volume in every minute; a rule of thumb
	DefaultPumpReserve        = 20 * unit.Percent            // on top of spray and agitation; a rule of thumb
	DefaultWearLimit          = 10 * unit.Percent            // of a set above its new flow
)

// A Tolerance is one figure that people in the trade use, under a name of its
// own, with where it is from.
type Tolerance struct {
	// Name is stable and in snake_case. It never is that of a standard.
	Name string
	// Value is in the SI unit of its quantity, above zero; Unit is the one that
	// it is spoken of in.
	Value float64
	Unit  unit.ID
	// AppliesTo is the operation and, as a JSON pointer, the member of its
	// request that takes the value. A first item stands for any.
	AppliesTo string
	// Basis is what the value is a share of. Empty when it is no share, or when
	// the operation knows one basis only.
	Basis ToleranceBasis
	// Default tells that the operation uses it when the member is left out.
	Default bool
	Source  method.Source
	// RuleOfThumb tells that the figure was not read anywhere. Such a figure may stand
	// in for what a pump or a field takes, never for a limit that passes or fails.
	RuleOfThumb bool
	// OwnJudgement tells that nobody else says so: it is what seemed right to whoever
	// wrote this.
	OwnJudgement bool
}

// A ToleranceBasis is what a deviation is counted from.
type ToleranceBasis string

// The bases. Only the first two are ones that nozzle acceptance can be asked for;
// the others are what a source says, which one of these two comes near to.
const (
	BasisRated     ToleranceBasis = "rated"      // the nozzle's rated flow
	BasisMean      ToleranceBasis = "mean"       // the mean of all nozzles caught
	BasisOthers    ToleranceBasis = "others"     // the other nozzles, without the one judged
	BasisRange     ToleranceBasis = "range"      // highest less lowest of all nozzles
	BasisNewNozzle ToleranceBasis = "new_nozzle" // a new nozzle of the same kind, caught alike
)

// Tolerances lists the presets: first common practice, of which the defaults come
// straight from the Default constants, then the errors of instruments and how far
// measurements repeat, then what sources print. The list is the caller's own.
func Tolerances() []Tolerance {
	return slices.Concat(commonTolerances(), instrumentTolerances(), publishedTolerances())
}

// The members that presets are for.
const (
	forPressure = "pressure-uniformity#/maxDifference"
	forOutput   = "nozzle-acceptance#/tolerance/limit"
	forReplace  = "nozzle-acceptance#/replaceAllAbove"
	forCount    = "nozzle-acceptance#/replaceAllFrom"
	forRate     = "application-rate#/rateTolerance"
	forRuns     = "ground-speed#/runTolerance"
	forCourse   = "ground-speed#/runs/0/courseLength"
	forCatch    = "nozzle-flow#/catches/0/time"
	forCapacity = "field-capacity#/fieldEfficiency"
	forStirring = "pump-demand#/agitationShare"
	forReserve  = "pump-demand#/reserve"
	forWear     = "wear-forecast#/limit"
	forPattern  = "pattern-uniformity#/maxCoefficientOfVariation"
	forPlace    = "pattern-uniformity#/maxPlaceDeviation"
	forMeter    = "meter-calibration#/meterTolerance"

	forAboveRated = "nozzle-acceptance#/tolerance/rated/above"
	forBelowMean  = "nozzle-acceptance#/tolerance/mean/below"
)

// commonTolerances are common practice, no published source. Course and catch are
// no defaults: they are measured, so a request always gives them.
func commonTolerances() []Tolerance {
	common := func(name string, value float64, u unit.ID, appliesTo string, basis ToleranceBasis, isDefault bool) Tolerance {
		return Tolerance{name, value, u, appliesTo, basis, isDefault, method.Source{}, false, false}
	}
	memory := func(name string, value float64, appliesTo string, isDefault bool) Tolerance {
		return Tolerance{name, value, unit.IDPct, appliesTo, "", isDefault, method.Source{}, true, false}
	}
	return []Tolerance{
		common("pressure_readings", float64(DefaultPressureDifference), unit.IDPsi, forPressure, "", true),
		common("nozzle_output", float64(DefaultOutputTolerance), unit.IDPct, forOutput, BasisRated, true),
		common("replace_all", float64(certainty.DefaultReplaceAllAbove), unit.IDPct, forReplace, "", true),
		common("application_rate", float64(DefaultRateTolerance), unit.IDPct, forRate, "", true),
		common("run_spread", float64(DefaultRunTolerance), unit.IDPct, forRuns, "", true),
		common("nozzle_wear", float64(DefaultWearLimit), unit.IDPct, forWear, BasisNewNozzle, true),
		common("course_length", float64(100*unit.Foot), unit.IDFt, forCourse, "", false),
		common("catch_time", float64(30*unit.Second), unit.IDS, forCatch, "", false),
		memory("field_efficiency", float64(DefaultFieldEfficiency), forCapacity, true),
		memory("agitation", float64(DefaultAgitationShare), forStirring, true),
		memory("pump_reserve", float64(DefaultPumpReserve), forReserve, true),
		memory("meter_error", float64(5*unit.Percent), forMeter, false),
	}
}

// publishedTolerances are read in the sources that each names.
func publishedTolerances() []Tolerance {
	all := make([]Tolerance, 0, len(publishedRules)+1)
	for _, r := range publishedRules {
		all = append(all, Tolerance{
			Name: r.name, Value: float64(unit.Ratio(r.percent) * unit.Percent), Unit: unit.IDPct,
			AppliesTo: r.appliesTo, Basis: r.basis, Source: r.source,
		})
	}
	return append(all, Tolerance{Name: "replace_all_from_2", Value: 2, Unit: unit.IDOne, AppliesTo: forCount, Source: berryGrower})
}
