package method

import "wetrun/calc/unit"

// calibrationsMethods are those of calibrations.
var calibrationsMethods = group{[]string{"calibrations"}, []row{
	{DeviationCost, Method{
		ID: "deviation_cost", Formula: "c = m * d", Domain: "positive", Source: sourceIllinois,
		Symbols: []Symbol{{"c", "deviation_cost", unit.KindNone}, {"m", "mix_cost", unit.KindNone}, {"d", "rate_deviation", unit.KindRatio}},
	}},
	{CostForArea, Method{
		ID: "cost_for_area", Formula: "T = c * A / a", Domain: "positive", Source: sourceIllinois,
		Symbols: []Symbol{
			{"T", "total_cost", unit.KindNone}, {"c", "deviation_cost", unit.KindNone}, {"A", "planned_area", unit.KindArea},
			{"a", "cost_area", unit.KindArea},
		},
	}},
	{HoursLeft, Method{
		ID: "hours_left", Formula: "h = max(e - u, 0)", Domain: "positive",
		Symbols: []Symbol{{"h", "hours_left", unit.KindTime}, {"e", "calibrate_every", unit.KindTime}, {"u", "used_since", unit.KindTime}},
	}},
}}
