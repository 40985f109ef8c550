package operation

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
)

// TestLimitsThatFollow: limits that follow from others, or that calc has too.
func TestLimitsThatFollow(t *testing.T) {
	if n := mostItems[MeasuringRequest]("instruments"); n != certainty.MostInstruments {
		t.Errorf("a request may list %d instruments, a calculation takes %d", n, certainty.MostInstruments)
	}
	if n := mostItems[TankRinseRequest]("rinses"); n != calc.MostRinses {
		t.Errorf("a request may list %d rinses, a calculation tries %d", n, calc.MostRinses)
	}
	classes, nozzles := len(calc.DropletClass("").Words()), mostItems[CorrectionsRequest]("nozzles")
	if rows := mostItems[CorrectionsRequest]("dropletChart"); rows != classes*(nozzles+1) {
		t.Errorf("%d rows are not one for each class of each nozzle, the present one too", rows)
	}
	for _, list := range []string{"nozzles", "gears", "dropletChart"} {
		if a, b := mostItems[CorrectionsRequest](list), mostItems[PlanningRequest](list); a != b {
			t.Errorf("%s: a plan has %d, the planning of a sheet %d", list, a, b)
		}
	}
}
