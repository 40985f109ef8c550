package calc

import (
	"wetrun/calc/certainty"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// The members that the errors of instruments are for.
const (
	forResolution = "ground-speed#/instruments/0/resolution"
	forScale      = "ground-speed#/instruments/0/scaleError"
	forReaction   = "ground-speed#/instruments/0/reactionTime"
	forRunsPrior  = "ground-speed#/repeatability/runs/standardDeviation"
	forCatchPrior = "nozzle-acceptance#/repeatability/catches/standardDeviation"
)

// inspectionCylinders is where a measuring cylinder's error is from.
var inspectionCylinders = method.Source{
	Title:     "On testing the output of nozzles: measuring cylinders of testers are typically within 1 %",
	Publisher: "National Sprayer Testing Scheme (United Kingdom), in a trade magazine",
	URL:       "https://www.eioperator.com/?p=165701",
}

// instrumentTolerances are the errors that count where no instrument is listed, and
// what is expected of runs and catches before any is measured. Their sources stand
// beside DefaultInstrument.
func instrumentTolerances() []Tolerance {
	figure := func(name string, value float64, u unit.ID, appliesTo string) Tolerance {
		return Tolerance{Name: name, Value: value, Unit: u, AppliesTo: appliesTo, Default: true}
	}
	judged := func(name string, value float64, u unit.ID, appliesTo string) Tolerance {
		t := figure(name, value, u, appliesTo)
		t.OwnJudgement = true
		return t
	}
	cylinder := figure("jug_scale_error", float64(certainty.DefaultJugScale), unit.IDPct, forScale)
	cylinder.Source = inspectionCylinders
	return []Tolerance{
		figure("stopwatch_resolution", float64(certainty.DefaultStopwatchResolution), unit.IDS, forResolution),
		judged("stopwatch_scale_error", float64(certainty.DefaultStopwatchScale), unit.IDPct, forScale),
		judged("reaction_time", float64(certainty.DefaultReactionTime), unit.IDS, forReaction),
		judged("tape_resolution", float64(certainty.DefaultTapeResolution), unit.IDCm, forResolution),
		judged("tape_scale_error", float64(certainty.DefaultTapeScale), unit.IDPct, forScale),
		judged("jug_resolution", float64(certainty.DefaultJugResolution), unit.IDML, forResolution),
		cylinder,
		judged("gauge_resolution", float64(certainty.DefaultGaugeResolution), unit.IDBar, forResolution),
		judged("gauge_scale_error", float64(certainty.DefaultGaugeScale), unit.IDPct, forScale),
		judged("runs_repeatability", float64(certainty.DefaultRunsPrior.StandardDeviation), unit.IDPct, forRunsPrior),
		judged("catches_repeatability", float64(certainty.DefaultCatchesPrior.StandardDeviation), unit.IDPct, forCatchPrior),
	}
}
