package api

import (
	"context"
	"slices"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// MaintenanceRequest is what was found by eye before anything was measured.
type MaintenanceRequest struct {
	Beds     []BedRequest     `json:"beds,omitzero"`
	Findings []FindingRequest `json:"findings,omitzero"`
}

// BedRequest is what was seen on the nozzles of one bed.
type BedRequest struct {
	Label   string `json:"label,omitzero"`
	Clean   int    `json:"clean,omitzero"`
	Replace int    `json:"replace,omitzero"`
	Done    *bool  `json:"done,omitzero"`
}

// FindingRequest is anything else that was found, recorded as given.
type FindingRequest struct {
	Item    string `json:"item"`
	Finding string `json:"finding"`
}

// TankRequest is what the tank lost over an area.
type TankRequest struct {
	VolumeUsed   Quantity `json:"volumeUsed"`
	Area         Quantity `json:"area,omitzero"`
	CourseLength Quantity `json:"courseLength,omitzero"`
	Width        Quantity `json:"width,omitzero"`
	Passes       int      `json:"passes,omitzero"`
}

// CostRequest is what the mix costs.
type CostRequest struct {
	Mix         Money    `json:"mix"`
	PerArea     Quantity `json:"perArea"`
	PlannedArea Quantity `json:"plannedArea,omitzero"`
}

const mostFindings = 100

var bedTable = objectOf(
	label("label", func(b *BedRequest) *string { return &b.Label }, longestLabel),
	count("clean", func(b *BedRequest) *int { return &b.Clean }, 0, mostNozzles),
	count("replace", func(b *BedRequest) *int { return &b.Replace }, 0, mostNozzles),
	flag("done", func(b *BedRequest) **bool { return &b.Done }),
)

var findingTable = objectOf(
	require(label("item", func(f *FindingRequest) *string { return &f.Item }, longestLabel)),
	require(label("finding", func(f *FindingRequest) *string { return &f.Finding }, longestLabel)),
)

var maintenanceTable = objectOf(
	list("beds", func(m *MaintenanceRequest) *[]BedRequest { return &m.Beds }, 1, mostBeds, bedTable),
	list("findings", func(m *MaintenanceRequest) *[]FindingRequest { return &m.Findings }, 1, mostFindings, findingTable),
)

var tankTable = objectOf(
	require(quantity("volumeUsed", func(r *TankRequest) *Quantity { return &r.VolumeUsed }, unit.KindVolume)),
	quantity("area", func(r *TankRequest) *Quantity { return &r.Area }, unit.KindArea),
	quantity("courseLength", func(r *TankRequest) *Quantity { return &r.CourseLength }, unit.KindLength),
	quantity("width", func(r *TankRequest) *Quantity { return &r.Width }, unit.KindLength),
	count("passes", func(r *TankRequest) *int { return &r.Passes }, 1, mostPasses),
)

var costTable = objectOf(
	require(nested("mix", func(c *CostRequest) *Money { return &c.Mix }, moneyTable)),
	require(quantity("perArea", func(c *CostRequest) *Quantity { return &c.PerArea }, unit.KindArea)),
	quantity("plannedArea", func(c *CostRequest) *Quantity { return &c.PlannedArea }, unit.KindArea),
)

func (m *MaintenanceRequest) input() (in calc.SheetMaintenance) {
	in.Beds = slices.Grow(in.Beds, len(m.Beds))
	for _, b := range m.Beds {
		in.Beds = append(in.Beds, calc.BedFinding{Clean: b.Clean, Replace: b.Replace, Done: b.Done != nil && *b.Done})
	}
	return in
}

func (r *TankRequest) input() calc.AreaCheckInput {
	return calc.AreaCheckInput{
		VolumeUsed: unit.Volume(r.VolumeUsed.si()), Area: unit.Area(r.Area.si()),
		CourseLength: unit.Length(r.CourseLength.si()), Width: unit.Length(r.Width.si()), Passes: r.Passes,
	}
}

func (c *CostRequest) input() calc.SheetCost {
	if !c.PerArea.given() {
		return calc.SheetCost{}
	}
	return calc.SheetCost{PerArea: float64(c.Mix.Amount) / c.PerArea.si(), Area: unit.Area(c.PlannedArea.si())}
}

// MaintenancePart is what was found by eye, with what follows.
type MaintenancePart struct {
	Status   calc.PartStatus  `json:"status"`
	Beds     []BedResponse    `json:"beds,omitzero"`
	Findings []FindingRequest `json:"findings,omitzero"`
}

// BedResponse is one bed with its decision.
type BedResponse struct {
	BedRequest
	Decision calc.InspectionDecision `json:"decision"`
}

// AreaCheckPart is the rate that the tank tells.
type AreaCheckPart struct {
	Status calc.PartStatus    `json:"status"`
	Result *AreaCheckResponse `json:"result,omitzero"`
}

// CostResponse is what the deviation costs: above zero wasted, below zero saved.
type CostResponse struct {
	Deviation Money    `json:"deviation"`
	PerArea   Quantity `json:"perArea"`
	Total     Money    `json:"total,omitzero"`
}

// extras fills in the parts that a sheet can do without.
func (r *CalibrationsRequest) extras(ctx context.Context, x calc.FieldSheetResult, a *CalibrationsResponse) {
	a.Maintenance = MaintenancePart{Status: x.MaintenanceStatus, Findings: r.Maintenance.Findings}
	a.Maintenance.Beds = slices.Grow(a.Maintenance.Beds, len(x.Maintenance))
	for i, d := range x.Maintenance {
		a.Maintenance.Beds = append(a.Maintenance.Beds, BedResponse{r.Maintenance.Beds[i], d})
	}
	a.AreaCheck = AreaCheckPart{Status: x.AreaCheckStatus}
	if x.AreaCheck != nil {
		units := r.units()
		part := AreaCheckResponse{
			Area: in(x.AreaCheck.Area, units.area), ApplicationRate: in(x.AreaCheck.ApplicationRate, units.rate),
			WithinTolerance: within(x.AreaCheck.Verdict), Cautions: rateCautions.in(ctx),
			Warnings: warnings(ctx, x.AreaCheck.Warnings),
		}
		if x.AreaCheck.Verdict != finding.NotJudged {
			part.Deviation, part.RateTolerance = percent(x.AreaCheck.Deviation), percent(x.AreaCheck.RateTolerance)
			part.ExpectedApplicationRate = in(x.AreaCheck.Expected, units.rate)
		}
		a.AreaCheck.Result = &part
	}
	if x.HasCost {
		currency := r.Cost.Mix.Currency
		a.Cost = &CostResponse{Deviation: Money{Number(x.CostPerArea * r.Cost.PerArea.si()), currency}, PerArea: r.Cost.PerArea}
		if r.Cost.PlannedArea.given() {
			a.Cost.Total = Money{Number(x.CostTotal), currency}
		}
	}
}
