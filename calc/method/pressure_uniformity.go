package method

import "wetrun/calc/unit"

// pressureUniformityMethods are those of pressure uniformity.
var pressureUniformityMethods = group{[]string{"pressure-uniformity", "calibrations"}, []row{
	{HighestPressure, Method{
		ID: "highest_pressure", Formula: "p = max(p_i)", Domain: "positive",
		Symbols: []Symbol{{"p", "highest_pressure", unit.KindPressure}, {"p_i", "boom_pressure", unit.KindPressure}},
	}},
	{LowestPressure, Method{
		ID: "lowest_pressure", Formula: "p = min(p_i)", Domain: "positive",
		Symbols:    []Symbol{{"p", "lowest_pressure", unit.KindPressure}, {"p_i", "boom_pressure", unit.KindPressure}},
		Operations: []string{"pressure-uniformity", "nozzle-acceptance", "calibrations"},
	}},
	{MeanPressure, Method{
		ID: "mean_pressure", Formula: "p = sum(p_i) / n", Domain: "positive",
		Symbols: []Symbol{
			{"p", "mean_pressure", unit.KindPressure}, {"p_i", "boom_pressure", unit.KindPressure}, {"n", "number_of_values", unit.KindNone},
		},
	}},
	{PressureSpread, Method{
		ID: "pressure_spread", Formula: "d = p_h - p_l", Domain: "positive",
		Symbols: []Symbol{
			{"d", "pressure_difference", unit.KindPressure}, {"p_h", "highest_pressure", unit.KindPressure},
			{"p_l", "lowest_pressure", unit.KindPressure},
		},
	}},
	{FlowSpread, Method{
		ID: "flow_spread", Formula: "f = sqrt(p_h / p_l) - 1", Domain: "positive", Source: sourcePressureLaw,
		Symbols: []Symbol{
			{"f", "flow_spread", unit.KindRatio}, {"p_h", "highest_pressure", unit.KindPressure}, {"p_l", "lowest_pressure", unit.KindPressure},
		},
	}},
	{FlowSpreadAtLimit, Method{
		ID: "flow_spread_at_limit", Formula: "f = sqrt((p + d / 2) / (p - d / 2)) - 1", Domain: "half_difference", Source: sourcePressureLaw,
		Symbols: []Symbol{
			{"f", "flow_spread", unit.KindRatio}, {"p", "mean_pressure", unit.KindPressure}, {"d", "largest_difference", unit.KindPressure},
		},
	}},
	{DifferenceByShare, Method{
		ID: "difference_by_share", Formula: "d = s * p", Domain: "positive",
		Symbols: []Symbol{
			{"d", "largest_difference", unit.KindPressure}, {"s", "share_of_mean", unit.KindRatio}, {"p", "mean_pressure", unit.KindPressure},
		},
	}},
	{CabOffset, Method{
		ID: "cab_offset", Formula: "c = p_c - p", Domain: "positive",
		Symbols: []Symbol{
			{"c", "cab_offset", unit.KindPressure}, {"p_c", "cab_pressure", unit.KindPressure}, {"p", "mean_pressure", unit.KindPressure},
		},
	}},
	{CabIfGaugeError, Method{
		ID: "cab_if_gauge_error", Formula: "p_x = p_t + c", Domain: "positive",
		Symbols: []Symbol{
			{"p_x", "cab_reading_wanted", unit.KindPressure}, {"p_t", "target_pressure", unit.KindPressure},
			{"c", "cab_offset", unit.KindPressure},
		},
	}},
	{CabIfHoseLoss, Method{
		ID: "cab_if_hose_loss", Formula: "p_x = p_t * p_c / p", Domain: "positive", SourceNotRead: true,
		Symbols: []Symbol{
			{"p_x", "cab_reading_wanted", unit.KindPressure}, {"p_t", "target_pressure", unit.KindPressure},
			{"p_c", "cab_pressure", unit.KindPressure}, {"p", "mean_pressure", unit.KindPressure},
		},
	}},
}}
