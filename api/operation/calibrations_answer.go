package operation

import (
	"context"
	"math"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/internal/text"
)

// CalibrationsAnswer is the answer to a field sheet.
type CalibrationsAnswer struct {
	Label         string            `json:"label,omitzero"`
	Verdict       calc.SheetVerdict `json:"verdict"`
	VerdictDetail string            `json:"verdictDetail"`
	NextSteps     []StepAnswer      `json:"nextSteps"`
	Machine       MachineRequest    `json:"machine,omitzero"`
	Pressure      PressurePart      `json:"pressure"`
	Output        OutputPart        `json:"output"`
	Speed         SpeedPart         `json:"speed"`
	Rate          RatePart          `json:"rate"`
	Correction    CorrectionPart    `json:"correction"`

	Maintenance MaintenancePart `json:"maintenance"`
	AreaCheck   AreaCheckPart   `json:"areaCheck"`
	Cost        *CostAnswer     `json:"cost,omitzero"`

	NextDue  *NextDueAnswer `json:"nextDue,omitzero"`
	Cautions []Notice       `json:"cautions"`
	working.Explained
}

// StepAnswer is one thing to do next.
type StepAnswer struct {
	Code    calc.StepCode `json:"code"`
	Label   string        `json:"label,omitzero"`
	Pointer string        `json:"pointer,omitzero"`
	Text    string        `json:"text"`
	// Entry is what was sent, WouldAgree what it may have been meant to be, and Slip how it
	// came about; of a step that asks about an entry.
	Entry      wire.Quantity `json:"entry,omitzero"`
	WouldAgree wire.Quantity `json:"wouldAgree,omitzero"`
	Slip       calc.SlipKind `json:"slip,omitzero"`
	Aim        wire.Quantity `json:"aim,omitzero"` // of a step to aim lower
	// Rule is the row of the order of judgement that it follows from, Why the same in words, and
	// Because points to the entries and results that it rests on.
	Rule    calc.RuleID `json:"rule"`
	Why     string      `json:"why"`
	Because []string    `json:"because,omitzero"`

	name string // for people: the label of what it speaks of, or else its number
}

// PressurePart is the boom's pressure.
type PressurePart struct {
	Status calc.PartStatus           `json:"status"`
	Result *PressureUniformityAnswer `json:"result,omitzero"`
}

// OutputPart is the catches.
type OutputPart struct {
	Status calc.PartStatus         `json:"status"`
	Result *NozzleAcceptanceAnswer `json:"result,omitzero"`
}

// SpeedPart is the timed runs.
type SpeedPart struct {
	Status calc.PartStatus    `json:"status"`
	Result *GroundSpeedAnswer `json:"result,omitzero"`
}

// RatePart is the rate per area.
type RatePart struct {
	Status calc.PartStatus        `json:"status"`
	Result *ApplicationRateAnswer `json:"result,omitzero"`
}

// CorrectionPart is what would bring the rate to its target. Its status is the decision
// of the correction, where one was looked for.
type CorrectionPart struct {
	Status string             `json:"status"`
	Result *CorrectionsAnswer `json:"result,omitzero"`
}

func (r *CalibrationsRequest) answer(ctx context.Context, p sheetParts, x calc.FieldSheetResult) CalibrationsAnswer {
	lang := text.From(ctx)
	a := CalibrationsAnswer{
		Label:         r.Label,
		Verdict:       x.Verdict,
		VerdictDetail: text.Of(lang, "verdict."+string(x.Verdict)+r.verdictSuffix(&x)),
		NextSteps:     make([]StepAnswer, len(x.Steps)),
		Machine:       r.Machine,
		Pressure:      PressurePart{Status: x.PressureStatus},
		Output:        OutputPart{Status: x.OutputStatus},
		Speed:         SpeedPart{Status: x.SpeedStatus},
		Rate:          RatePart{Status: x.RateStatus},
		Correction:    CorrectionPart{Status: correctionStatus(x)},
		Cautions:      sheetCautions.in(ctx),
	}
	if x.Verdict == calc.Ready && x.MoreToSettle > 0 {
		a.VerdictDetail += " " + leftOpen(lang, &x, r.Output.CatchPointsOnBoom)
	}
	a.NextDue = r.Schedule.answer()
	for i, s := range x.Steps {
		a.NextSteps[i] = r.step(lang, p, &x, s)
		if s.Code == calc.StepCalibrateAgain && a.NextDue.hoursUsedUp() {
			a.NextSteps[i].Text = text.Of(lang, "step.calibrate_again_now")
		}
	}
	r.results(ctx, p, x, &a)
	r.optionalParts(ctx, x, &a)
	(&sheetWork{r, &p, &x, &a}).explain()
	return a
}

// verdictSuffix ends the key of a verdict's words where they say more: that an entry is asked
// about, that the rate is over the label's maximum or may break the label, that something in order is close.
func (r *CalibrationsRequest) verdictSuffix(x *calc.FieldSheetResult) string {
	suffix := ""
	for _, s := range x.Steps {
		switch s.Rule {
		case calc.RuleEntries:
			return "_entry"
		case calc.RuleLabelMaximum:
			return "_over_label_maximum"
		case calc.RuleLabelSure:
			return "_label_open" + r.closerLimit(x)
		case calc.RulePressureClose, calc.RuleCatchClose, calc.RuleRateClose:
			if x.Verdict == calc.Ready {
				suffix = "_close"
			}
		}
	}
	return suffix
}

// leftOpen says what a sheet that is ready leaves open of the points that were not caught.
func leftOpen(lang text.Language, x *calc.FieldSheetResult, points int) string {
	s := &x.Output.Sampling
	if points > 0 {
		return text.Of(lang, "verdict.open", points-s.Caught, s.HighPoints-s.Outside, x.MoreToSettle)
	}
	return text.Of(lang, "verdict.open_share", int(math.Ceil(100*float64(s.High))), x.MoreToSettle)
}

// results fills in each part's own answer. Places are of the sheet already.
func (r *CalibrationsRequest) results(ctx context.Context, p sheetParts, x calc.FieldSheetResult, a *CalibrationsAnswer) {
	none := []Notice{}  // the list of the sheet is that of all its parts
	all := new(struct { // one piece of memory
		pressure PressureUniformityAnswer
		output   NozzleAcceptanceAnswer
		speed    GroundSpeedAnswer
		rate     ApplicationRateAnswer
	})
	if x.Pressure != nil {
		part := &all.pressure
		*part = pressureUniformityAnswer(ctx, &p.pressure, *x.Pressure)
		part.NextSteps = nil // the sheet has its own, which know of the other parts
		part.Cautions = none
		a.Pressure.Result = part
	}
	if x.Output != nil {
		part := &all.output
		p.output.origins.moveWarnings(x.Output.Warnings)
		*part = p.output.answer(ctx, *x.Output)
		part.Cautions = none
		a.Output.Result = part
	}
	if x.Speed != nil {
		part := &all.speed
		*part = groundSpeedAnswer(ctx, &p.speed, *x.Speed)
		a.Speed.Result = part
	}
	if x.Rate != nil {
		request := ApplicationRateRequest{
			TargetApplicationRate: r.Target.ApplicationRate, RateBasis: r.Target.RateBasis,
			LabelMaximum: r.Target.LabelMaximum, LabelMinimum: r.Target.LabelMinimum, Results: r.Results,
		}
		part := &all.rate
		*part = applicationRateAnswer(ctx, &request, *x.Rate)
		part.Cautions = none
		a.Rate.Result = part
	}
	if x.Correction != nil {
		part := correctionsAnswer(ctx, *x.Correction, r.correctionsRequest().plannedWith(x.Output))
		if part.moreDrift {
			a.Cautions = driftSheetCautions.in(ctx)
		}
		part.Cautions = none
		a.Correction.Result = &part
	}
}

// correctionStatus says whether a correction was looked for, and how it came out.
func correctionStatus(x calc.FieldSheetResult) string {
	switch {
	case x.Correction != nil:
		return string(x.Correction.Decision)
	case x.RateStatus == calc.Passed:
		return string(calc.NoCorrectionNeeded)
	}
	return string(calc.NotDone)
}
