package method

import "wetrun/calc/unit"

// nozzleMethods are those of nozzles that several operations use.
var nozzleMethods = group{[]string{"application-rate", "nozzle-acceptance", "corrections", "pump-demand", "wear-forecast", "calibrations"}, []row{
	{PressureLaw, Method{
		ID: "pressure_law", Formula: "q = q_0 * (p / p_0)^n", Domain: "pressure_law", Source: sourcePressureLaw,
		Symbols: []Symbol{
			{"q", "nozzle_flow", unit.KindFlowRate}, {"q_0", "known_flow", unit.KindFlowRate}, {"p", "wanted_pressure", unit.KindPressure},
			{"p_0", "pressure_of_known_flow", unit.KindPressure}, {"n", "pressure_exponent", unit.KindNone},
		},
	}},
	{FlowChart, Method{
		ID: "flow_chart", Formula: "q = q_1 * (q_2 / q_1)^(ln(p / p_1) / ln(p_2 / p_1))", Domain: "flow_chart",
		Symbols: []Symbol{
			{"q", "nozzle_flow", unit.KindFlowRate}, {"q_1", "chart_flow_below", unit.KindFlowRate},
			{"q_2", "chart_flow_above", unit.KindFlowRate}, {"p", "wanted_pressure", unit.KindPressure},
			{"p_1", "chart_pressure_below", unit.KindPressure}, {"p_2", "chart_pressure_above", unit.KindPressure},
		},
	}},
	{FlowByChart, Method{
		ID: "flow_by_chart", Formula: "q = q_0 * c / c_0", Domain: "positive",
		Symbols: []Symbol{
			{"q", "nozzle_flow", unit.KindFlowRate}, {"q_0", "known_flow", unit.KindFlowRate}, {"c", "chart_flow_wanted", unit.KindFlowRate},
			{"c_0", "chart_flow_known", unit.KindFlowRate},
		},
		Operations: []string{"nozzle-acceptance", "calibrations"},
	}},
	{RelativeDensity, Method{
		ID: "relative_density", Formula: "s = r / r_w", Domain: "water_density", Source: sourceNonWater,
		Symbols: []Symbol{
			{"s", "relative_density", unit.KindRatio}, {"r", "liquid_density", unit.KindDensity}, {"r_w", "water_density", unit.KindDensity},
		},
		Operations: []string{"application-rate", "nozzle-flow", "nozzle-selection"},
	}},
	{LiquidFlow, Method{
		ID: "liquid_flow", Formula: "q = q_w / sqrt(s)", Domain: "thin_liquid", Source: sourceNonWater,
		Symbols: []Symbol{
			{"q", "nozzle_flow", unit.KindFlowRate}, {"q_w", "water_flow", unit.KindFlowRate}, {"s", "relative_density", unit.KindRatio},
		},
		Operations: []string{"application-rate", "nozzle-flow", "calibrations"},
	}},
	{PulsedFlow, Method{
		ID: "pulsed_flow", Formula: "q = d * q_f", Domain: "positive",
		Symbols: []Symbol{
			{"q", "nozzle_flow", unit.KindFlowRate}, {"d", "share_open", unit.KindRatio}, {"q_f", "flow_while_open", unit.KindFlowRate},
		},
		Operations: []string{"nozzle-acceptance", "calibrations"},
	}},
	{WaterEquivalentFlow, Method{
		ID: "water_equivalent_flow", Formula: "q_w = q * sqrt(s)", Domain: "thin_liquid", Source: sourceNonWater,
		Symbols: []Symbol{
			{"q_w", "water_flow", unit.KindFlowRate}, {"q", "nozzle_flow", unit.KindFlowRate}, {"s", "relative_density", unit.KindRatio},
		},
		Operations: []string{"application-rate", "nozzle-selection", "calibrations"},
	}},
	{WaterEquivalentRate, Method{
		ID: "water_equivalent_rate", Formula: "R_w = R * sqrt(s)", Domain: "thin_liquid", Source: sourceNonWater,
		Symbols: []Symbol{
			{"R_w", "water_rate", unit.KindApplicationRate}, {"R", "liquid_rate", unit.KindApplicationRate}, {"s", "relative_density", unit.KindRatio},
		},
		Operations: []string{"calibrations"},
	}},
}}
