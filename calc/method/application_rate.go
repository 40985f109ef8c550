package method

import "wetrun/calc/unit"

// applicationRateMethods are those of application rate.
var applicationRateMethods = group{[]string{"application-rate", "calibrations"}, []row{
	{ApplicationRate, Method{
		ID: "application_rate", Formula: "R = q / (v * w)", Domain: "positive", Source: sourceInFurrow,
		Symbols: []Symbol{
			{"R", "application_rate", unit.KindApplicationRate}, {"q", "nozzle_flow", unit.KindFlowRate}, {"v", "ground_speed", unit.KindSpeed},
			{"w", "width_per_nozzle", unit.KindLength},
		},
	}},
	{NozzleFlowForRate, Method{
		ID: "nozzle_flow_for_rate", Formula: "q = R * v * w", Domain: "positive", Source: sourceInFurrow,
		Symbols: []Symbol{
			{"q", "nozzle_flow", unit.KindFlowRate}, {"R", "application_rate", unit.KindApplicationRate}, {"v", "ground_speed", unit.KindSpeed},
			{"w", "width_per_nozzle", unit.KindLength},
		},
		Operations: []string{"application-rate", "nozzle-selection"},
	}},
	{SpeedForRate, Method{
		ID: "speed_for_rate", Formula: "v = q / (R * w)", Domain: "positive", Source: sourceInFurrow,
		Symbols: []Symbol{
			{"v", "ground_speed", unit.KindSpeed}, {"q", "nozzle_flow", unit.KindFlowRate}, {"R", "application_rate", unit.KindApplicationRate},
			{"w", "width_per_nozzle", unit.KindLength},
		},
		Operations: []string{"application-rate"},
	}},
	{WidthForRate, Method{
		ID: "width_for_rate", Formula: "w = q / (R * v)", Domain: "positive", Source: sourceInFurrow,
		Symbols: []Symbol{
			{"w", "width_per_nozzle", unit.KindLength}, {"q", "nozzle_flow", unit.KindFlowRate},
			{"R", "application_rate", unit.KindApplicationRate}, {"v", "ground_speed", unit.KindSpeed},
		},
		Operations: []string{"application-rate"},
	}},
	{WidthPerNozzle, Method{
		ID: "width_per_nozzle", Formula: "w = W / n", Domain: "positive",
		Symbols: []Symbol{
			{"w", "width_per_nozzle", unit.KindLength}, {"W", "treated_width", unit.KindLength}, {"n", "nozzles_on_width", unit.KindNone},
		},
		Operations: []string{"application-rate", "nozzle-selection", "calibrations"},
	}},
	{TreatedWidth, Method{
		ID: "treated_width", Formula: "W = w * n", Domain: "positive",
		Symbols: []Symbol{
			{"W", "treated_width", unit.KindLength}, {"w", "width_per_nozzle", unit.KindLength}, {"n", "nozzles_on_width", unit.KindNone},
		},
	}},
	{FieldRate, Method{
		ID: "field_rate", Formula: "R_f = R * W / b", Domain: "positive", Source: sourceFumigant,
		Symbols: []Symbol{
			{"R_f", "field_rate", unit.KindApplicationRate}, {"R", "application_rate", unit.KindApplicationRate},
			{"W", "treated_width", unit.KindLength}, {"b", "row_spacing", unit.KindLength},
		},
	}},
	{RateDeviation, Method{
		ID: "rate_deviation", Formula: "d = (R - R_t) / R_t", Domain: "positive",
		Symbols: []Symbol{
			{"d", "rate_deviation", unit.KindRatio}, {"R", "rate_compared", unit.KindApplicationRate},
			{"R_t", "rate_wanted", unit.KindApplicationRate},
		},
		Operations: []string{"application-rate", "area-check", "corrections", "calibrations", "tank-loads"},
	}},
	{UnitConversion, Method{
		ID: "unit_conversion", Formula: "y = x", Domain: "any", Source: sourceHandbook44,
		Symbols:    []Symbol{{"y", "converted", unit.KindNone}, {"x", "to_convert", unit.KindNone}},
		Operations: []string{"convert", "pressure-uniformity", "nozzle-selection", "corrections", "calibrations", "tank-loads"},
	}},
}}
