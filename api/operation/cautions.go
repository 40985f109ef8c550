package operation

import "slices"

// The places of work, each with the cautions for its hazards.
var (
	atOpenedFittings = []string{"machine_off", "pressure_injects", "first_aid", "protective_equipment"}
	atRunningBoom    = []string{"running_machine", "power_lines", "bystanders"}
	onCourse         = []string{"moving_tractor", "bystanders"}
	atTank           = []string{"tank_entry", "do_not_overfill", "backflow"}
	ofProducts       = []string{"mixing_equipment", "first_aid", "spills", "jar_test", "rinse_containers", "residual_mix"}
)

// The cautions of each operation: those of the places where its work is done, and its own.
// internal/text/CAUTIONS.md names the hazard that each is for.
var (
	// Catches, cups and gauges.
	catchCautions = cautionsAt(only("clean_water"), atOpenedFittings, atRunningBoom, only("local_rules"))
	wearCautions  = cautionsAt(only("clean_water"), atOpenedFittings, atRunningBoom, only("label_is_law", "local_rules"))

	speedCautions = cautionsAt(onCourse)
	meterCautions = cautionsAt(only("clean_water"), onCourse, only("local_rules"))
	areaCautions  = cautionsAt(only("label_is_law", "clean_water"), onCourse, only("power_lines", "backflow", "local_rules"))

	rateCautions     = cautionsAt(only("label_is_law", "local_rules", "clean_water"))
	capacityCautions = cautionsAt(only("label_is_law", "local_rules")) // a plan of work is no leave to spray
	pumpCautions     = cautionsAt(only("pump_at_pressure", "worn_pump", "shaft_speed"), atOpenedFittings, only("local_rules"))

	correctionCautions = correctionsAnd()
	driftCautions      = correctionsAnd("drift")

	fillCautions  = cautionsAt(only("label_is_law"), atTank, only("local_rules")) // water alone
	tankCautions  = cautionsAt(only("label_is_law"), ofProducts, atTank, only("local_rules"))
	rinseCautions = cautionsAt(only("label_is_law", "rinse_through", "spray_out_rinsate", "residue_sticks", "tank_entry"), atOpenedFittings, only("local_rules"))

	// The whole job is done by a sheet; its parts have no list of their own.
	sheetCautions      = sheetAnd()
	driftSheetCautions = sheetAnd("drift")
)

// correctionsAnd are the cautions of a change, and those of a plan among them.
func correctionsAnd(more ...string) noticeSet {
	return cautionsAt(only("label_is_law", "clean_water", "shaft_speed"), more, atOpenedFittings, atRunningBoom, only("local_rules"))
}

// sheetAnd are the cautions of a sheet, and those of a plan among them.
func sheetAnd(more ...string) noticeSet {
	return cautionsAt(
		only("clean_water", "rinsate"), atOpenedFittings, atRunningBoom, only("shaft_speed"), more, onCourse,
		only("backflow", "reentry", "label_is_law", "local_rules"),
	)
}

// selectionCautions are those of a choice among nozzles, which somebody fits then: sizes by
// their color, and a chart of droplets, have cautions of their own.
func selectionCautions(colored, chart bool) []string {
	codes := slices.Concat(only("label_is_law", "drift", "catch_before_use"), atOpenedFittings, only("local_rules"))
	if colored {
		codes = append(codes, "iso_10625_scope")
	}
	if chart {
		codes = append(codes, "droplet_chart")
	}
	return codes
}

// only are cautions that no place has.
func only(codes ...string) []string { return codes }

// cautionsAt are the cautions of some places, each once.
func cautionsAt(places ...[]string) noticeSet {
	var codes []string
	for _, code := range slices.Concat(places...) {
		if !slices.Contains(codes, code) {
			codes = append(codes, code)
		}
	}
	return noticeSetOf("caution", codes...)
}
