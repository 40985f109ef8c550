package method

import "wetrun/calc/unit"

// nozzleSelectionMethods are those of nozzle selection.
var nozzleSelectionMethods = group{[]string{"nozzle-selection"}, []row{
	{MiddleSpeed, Method{
		ID: "middle_speed", Formula: "v = sqrt(v_l * v_h)", Domain: "positive",
		Symbols: []Symbol{{"v", "ground_speed", unit.KindSpeed}, {"v_l", "lowest_speed", unit.KindSpeed}, {"v_h", "highest_speed", unit.KindSpeed}},
	}},
	{TotalFlow, Method{
		ID: "total_flow", Formula: "Q = n * q", Domain: "positive",
		Symbols: []Symbol{{"Q", "spray_flow", unit.KindFlowRate}, {"n", "nozzles_on_width", unit.KindNone}, {"q", "nozzle_flow", unit.KindFlowRate}},
	}},
	{PressureForFlow, Method{
		ID: "pressure_for_flow", Formula: "p = p_0 * (q / q_0)^2", Domain: "pressure_law", Source: sourcePressureLaw,
		Symbols: []Symbol{
			{"p", "wanted_pressure", unit.KindPressure}, {"p_0", "pressure_of_known_flow", unit.KindPressure},
			{"q", "nozzle_flow", unit.KindFlowRate}, {"q_0", "known_flow", unit.KindFlowRate},
		},
		Operations: []string{"nozzle-selection", "corrections", "calibrations"},
	}},
	{SpeedAtPressure, Method{
		ID: "speed_at_pressure", Formula: "v = v_0 * sqrt(p / p_0)", Domain: "pressure_law", Source: sourcePressureLaw,
		Symbols: []Symbol{
			{"v", "ground_speed", unit.KindSpeed}, {"v_0", "speed_known", unit.KindSpeed}, {"p", "wanted_pressure", unit.KindPressure},
			{"p_0", "pressure_at_speed_known", unit.KindPressure},
		},
	}},
	{RangeLow, Method{
		ID: "range_low", Formula: "p = max(p_i)", Domain: "positive",
		Symbols: []Symbol{{"p", "range_low", unit.KindPressure}, {"p_i", "range_end", unit.KindPressure}},
	}},
	{RangeHigh, Method{
		ID: "range_high", Formula: "p = min(p_i)", Domain: "positive",
		Symbols: []Symbol{{"p", "range_high", unit.KindPressure}, {"p_i", "range_end", unit.KindPressure}},
	}},
}}
