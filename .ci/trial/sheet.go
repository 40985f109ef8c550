package main

// A sheet is the body of POST /v1/calibrations, as far as a crew fills it in.
type sheet struct {
	Label       string            `json:"label,omitempty"`
	Machine     sheetMachine      `json:"machine"`
	Nozzle      *sheetNozzle      `json:"nozzle,omitempty"`
	DutyCycle   *quantity         `json:"dutyCycle,omitempty"`
	Pressure    sheetPressure     `json:"pressure"`
	Output      sheetOutput       `json:"output"`
	Speed       sheetSpeed        `json:"speed"`
	Target      sheetTarget       `json:"target"`
	Limits      *sheetLimits      `json:"limits,omitempty"`
	Maintenance *sheetMaintenance `json:"maintenance,omitempty"`
	Instruments []instrument      `json:"instruments,omitempty"`
	Uncertainty *bool             `json:"uncertainty,omitempty"`
	Confirmed   []string          `json:"confirmed,omitempty"`
}

type sheetMachine struct {
	Sides         []string  `json:"sides,omitempty"`
	BedsCovered   int       `json:"bedsCovered,omitempty"`
	BedWidth      *quantity `json:"bedWidth,omitempty"`
	NozzlesPerBed int       `json:"nozzlesPerBed,omitempty"`
	Spacing       *quantity `json:"sprayedWidthPerNozzle,omitempty"`
	RowSpacing    *quantity `json:"rowSpacing,omitempty"`
}

type sheetNozzle struct {
	RatedFlowRate *quantity `json:"ratedFlowRate,omitempty"`
	RatedPressure *quantity `json:"ratedPressure,omitempty"`
	Size          string    `json:"size,omitempty"`
	SizeRating    string    `json:"sizeRating,omitempty"`
	PressureRange *span     `json:"pressureRange,omitempty"`
}

type span struct {
	Low  *quantity `json:"low"`
	High *quantity `json:"high"`
}

type sheetPressure struct {
	Readings    []reading `json:"readings"`
	CabPressure *quantity `json:"cabPressure,omitempty"`
}

type reading struct {
	Position string    `json:"position,omitempty"`
	Pressure *quantity `json:"pressure"`
}

type sheetOutput struct {
	SprayPressure     *quantity  `json:"sprayPressure,omitempty"`
	Catches           []catch    `json:"catches"`
	FollowUps         []followUp `json:"followUps,omitempty"`
	Tolerance         *tolerance `json:"tolerance,omitempty"`
	CatchPointsOnBoom int        `json:"catchPointsOnBoom,omitempty"`
}

type catch struct {
	Label         string       `json:"label,omitempty"`
	Position      string       `json:"position,omitempty"`
	Bed           int          `json:"bed,omitempty"`
	Nozzles       int          `json:"nozzles,omitempty"`
	NozzlesOnDrop []dropNozzle `json:"nozzlesOnDrop,omitempty"`
	Volume        *quantity    `json:"volume"`
	Time          *quantity    `json:"time"`
}

type dropNozzle struct {
	Nozzle sheetNozzle `json:"nozzle"`
	Count  int         `json:"count"`
}

type followUp struct {
	Replaces string    `json:"replaces"`
	Nozzles  int       `json:"nozzles,omitempty"`
	Volume   *quantity `json:"volume"`
	Time     *quantity `json:"time"`
}

type tolerance struct {
	Limit *quantity `json:"limit"`
	Basis string    `json:"basis,omitempty"`
}

type sheetSpeed struct {
	Runs []run `json:"runs"`
}

type run struct {
	CourseLength *quantity `json:"courseLength"`
	Time         *quantity `json:"time"`
}

type sheetTarget struct {
	ApplicationRate *quantity `json:"applicationRate"`
	RateTolerance   *quantity `json:"rateTolerance,omitempty"`
	RateBasis       string    `json:"rateBasis,omitempty"`
	LabelMaximum    *quantity `json:"labelMaximum,omitempty"`
	LabelMinimum    *quantity `json:"labelMinimum,omitempty"`
}

type sheetLimits struct {
	GroundSpeed   *span `json:"groundSpeed,omitempty"`
	SprayPressure *span `json:"sprayPressure,omitempty"`
}

type sheetMaintenance struct {
	Beds []inspection `json:"beds"`
}

type inspection struct {
	Clean   int  `json:"clean,omitempty"`
	Replace int  `json:"replace,omitempty"`
	Done    bool `json:"done,omitempty"`
}

type instrument struct {
	ID           string    `json:"id"`
	Kind         string    `json:"kind"`
	Resolution   *quantity `json:"resolution"`
	ScaleError   *quantity `json:"scaleError"`
	ReactionTime *quantity `json:"reactionTime,omitempty"`
}
