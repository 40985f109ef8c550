package calc

import (
	"slices"

	"wetrun/calc/finding"
)

// Where a sheet has what the functions for its parts speak of, which know their own input
// alone. The first move that fits is made; the last takes all the rest.
var (
	placesOfMaintenance = []finding.Move{{To: finding.Member("maintenance")}}
	placesOfPressure    = []finding.Move{{From: finding.Member("pressureRange"), To: nozzlePressureRange}, stays("nozzle"), {To: finding.Member("pressure")}}
	placesOfOutput      = []finding.Move{stays("nozzle"), stays("dutyCycle"), {To: finding.Member("output")}}
	placesOfSpeed       = []finding.Move{{To: finding.Member("speed")}}
	placesOfAreaCheck   = []finding.Move{{To: finding.Member("areaCheck")}}
	placesOfRate        = []finding.Move{
		{From: finding.Member("targetApplicationRate"), To: finding.Member("target").Member("applicationRate")},
		{From: finding.Member("groundSpeed"), To: finding.Member("speed")},
		{From: finding.Member("nozzleFlowRate"), To: finding.Member("machine")},
		{From: finding.Member("applicationRate"), To: finding.Member("machine")},
		{From: finding.Member("relativeDensity"), To: finding.Member("machine")},
		{From: finding.Member("rateTolerance"), To: finding.Member("machine")},
		{From: finding.Member("width"), To: finding.Member("machine")},
		{From: finding.Member("rateBasis"), To: finding.Member("target").Member("rateBasis")},
	}
	// A correction goes by the pressure of the catches, or else by that of the boom.
	placesOfCorrection       = placesOfPlanning(finding.Member("output").Member("sprayPressure"))
	placesOfCorrectionByBoom = placesOfPlanning(finding.Member("pressure"))
)

func stays(name string) finding.Move {
	return finding.Move{From: finding.Member(name), To: finding.Member(name)}
}

func placesOfPlanning(pressure finding.Place) []finding.Move {
	measured := finding.Member("measured")
	return []finding.Move{
		stays("nozzle"), stays("limits"), stays("rateController"),
		{From: finding.Member("targetApplicationRate"), To: finding.Member("target").Member("applicationRate")},
		{From: finding.Member("boomEven"), To: finding.Member("pressure")},
		{From: measured.Member("groundSpeed"), To: finding.Member("speed")},
		{From: measured.Member("sprayPressure"), To: pressure},
		{From: measured.Member("dutyCycle"), To: finding.Member("dutyCycle")},
		{From: measured, To: finding.Member("machine")},
		{To: finding.Member("planning")},
	}
}

// UnderPlanning puts the violations of a sheet's planning where the sheet has them. What
// the sheet says in a part of its own is wrong there by itself, not because of planning.
func UnderPlanning(v finding.Invalid) finding.Invalid {
	out := v.Moved(placesOfCorrection)
	for i := range out {
		if out[i].Place.Part() != "planning" && out[i].Place.Part() != "nozzle" {
			out[i].Because = finding.Place{}
		}
	}
	return out
}

// addPart adds the violations of a part. Those of the nozzle, which the parts share, are
// listed once; instruments and repeatability the sheet checks itself.
func addPart(v *finding.Invalid, err error, places []finding.Move) {
	wrong, _ := err.(finding.Invalid)
	for _, x := range wrong {
		if part := x.Place.Part(); part != "instruments" && part != "repeatability" {
			addNew(v, x.Moved(places))
		}
	}
}

// mostListed is how many violations of a sheet are gathered: an answer lists half as many, and each
// is compared with all.
const mostListed = 200

// addNew adds a violation that does not stand there yet.
func addNew(v *finding.Invalid, x finding.Violation) {
	if len(*v) < mostListed && !slices.ContainsFunc(*v, x.Equal) {
		*v = append(*v, x)
	}
}

// placeWarnings puts the warnings of the parts where the sheet has what they are of.
func (r *FieldSheetResult) placeWarnings(in *FieldSheetInput) {
	if r.Pressure != nil {
		moveAll(r.Pressure.Warnings, placesOfPressure)
	}
	if r.Output != nil {
		moveAll(r.Output.Warnings, placesOfOutput)
	}
	if r.Speed != nil {
		moveAll(r.Speed.Warnings, placesOfSpeed)
	}
	if r.Rate != nil {
		moveAll(r.Rate.Warnings, placesOfRate)
	}
	if r.AreaCheck != nil {
		moveAll(r.AreaCheck.Warnings, placesOfAreaCheck)
	}
	if r.Correction != nil {
		places := placesOfCorrectionByBoom
		if in.Output.SprayPressure != 0 {
			places = placesOfCorrection
		}
		moveAll(r.Correction.Warnings, places)
		for i := range r.Correction.Plans {
			moveAll(r.Correction.Plans[i].Warnings, places)
		}
	}
}

func moveAll(warnings []finding.Warning, places []finding.Move) {
	for i := range warnings {
		warnings[i].Place = warnings[i].Place.Moved(places)
	}
}
