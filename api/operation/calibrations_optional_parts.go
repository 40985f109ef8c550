package operation

import (
	"context"
	"slices"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// MaintenanceRequest is what was found by eye before anything was measured.
type MaintenanceRequest struct {
	Beds     []BedRequest     `json:"beds,omitzero" len:"1..100"`
	Findings []FindingRequest `json:"findings,omitzero" len:"1..100"`
}

// BedRequest is what was seen on the nozzles of one bed.
type BedRequest struct {
	Label   string `json:"label,omitzero"`
	Clean   int    `json:"clean,omitzero" range:"0..1000"`
	Replace int    `json:"replace,omitzero" range:"0..1000"`
	Done    *bool  `json:"done,omitzero"`
}

// FindingRequest is anything else that was found, recorded as given.
type FindingRequest struct {
	Item    string `json:"item" validate:"required"`
	Finding string `json:"finding" validate:"required"`
}

// TankRequest is what the tank lost over an area.
type TankRequest struct {
	VolumeUsed   wire.Quantity `json:"volumeUsed" validate:"required" is:"volume"`
	Area         wire.Quantity `json:"area,omitzero" is:"area"`
	CourseLength wire.Quantity `json:"courseLength,omitzero" is:"length"`
	Width        wire.Quantity `json:"width,omitzero" is:"length"`
	Passes       int           `json:"passes,omitzero" range:"1..1000"`
}

// CostRequest is what the mix costs.
type CostRequest struct {
	Mix         wire.Money    `json:"mix" validate:"required"`
	PerArea     wire.Quantity `json:"perArea" validate:"required" is:"area"`
	PlannedArea wire.Quantity `json:"plannedArea,omitzero" is:"area"`
}

func (m *MaintenanceRequest) input() (in calc.SheetMaintenance) {
	in.Beds = slices.Grow(in.Beds, len(m.Beds))
	for _, b := range m.Beds {
		in.Beds = append(in.Beds, calc.BedInspection{Clean: b.Clean, Replace: b.Replace, Done: b.Done != nil && *b.Done})
	}
	return in
}

func (r *TankRequest) input() calc.AreaCheckInput {
	return calc.AreaCheckInput{
		VolumeUsed: unit.Volume(r.VolumeUsed.SI()), Area: unit.Area(r.Area.SI()),
		CourseLength: unit.Length(r.CourseLength.SI()), Width: unit.Length(r.Width.SI()), Passes: r.Passes,
	}
}

func (c *CostRequest) input() calc.SheetCost {
	if !c.PerArea.Given() {
		return calc.SheetCost{}
	}
	return calc.SheetCost{PerArea: float64(c.Mix.Amount) / c.PerArea.SI(), Area: unit.Area(c.PlannedArea.SI())}
}

// MaintenancePart is what was found by eye, with what follows.
type MaintenancePart struct {
	Status   calc.PartStatus  `json:"status"`
	Beds     []BedAnswer      `json:"beds,omitzero"`
	Findings []FindingRequest `json:"findings,omitzero"`
}

// BedAnswer is one bed with its decision.
type BedAnswer struct {
	BedRequest
	Decision calc.InspectionDecision `json:"decision"`
}

// AreaCheckPart is the rate that the tank tells.
type AreaCheckPart struct {
	Status calc.PartStatus  `json:"status"`
	Result *AreaCheckAnswer `json:"result,omitzero"`
}

// CostAnswer is what the deviation costs: above zero wasted, below zero saved.
type CostAnswer struct {
	Deviation wire.Money    `json:"deviation"`
	PerArea   wire.Quantity `json:"perArea"`
	Total     wire.Money    `json:"total,omitzero"`
}

// optionalParts fills in the parts that a sheet can do without.
func (r *CalibrationsRequest) optionalParts(ctx context.Context, x calc.FieldSheetResult, a *CalibrationsAnswer) {
	a.Maintenance = MaintenancePart{Status: x.MaintenanceStatus, Findings: r.Maintenance.Findings}
	a.Maintenance.Beds = slices.Grow(a.Maintenance.Beds, len(x.Maintenance))
	for i, d := range x.Maintenance {
		a.Maintenance.Beds = append(a.Maintenance.Beds, BedAnswer{r.Maintenance.Beds[i], d})
	}
	a.AreaCheck = AreaCheckPart{Status: x.AreaCheckStatus}
	if x.AreaCheck != nil {
		units := r.units()
		part := AreaCheckAnswer{
			Area: wire.In(x.AreaCheck.Area, units.area), ApplicationRate: wire.In(x.AreaCheck.ApplicationRate, units.rate),
			WithinTolerance: within(x.AreaCheck.Verdict), Cautions: []Notice{},
			Warnings: warnings(ctx, x.AreaCheck.Warnings),
		}
		if x.AreaCheck.Verdict != finding.NotJudged {
			part.Deviation, part.RateTolerance = percent(x.AreaCheck.Deviation), percent(x.AreaCheck.RateTolerance)
			part.ExpectedApplicationRate = wire.In(x.AreaCheck.Expected, units.rate)
		}
		a.AreaCheck.Result = &part
	}
	if x.HasCost {
		currency := r.Cost.Mix.Currency
		a.Cost = &CostAnswer{Deviation: wire.Money{Amount: wire.Number(x.CostPerArea * r.Cost.PerArea.SI()), Currency: currency}, PerArea: r.Cost.PerArea}
		if r.Cost.PlannedArea.Given() {
			a.Cost.Total = wire.Money{Amount: wire.Number(x.CostTotal), Currency: currency}
		}
	}
}
