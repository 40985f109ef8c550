package method

import "wetrun/calc/unit"

// nozzleFlowMethods are those of nozzle flow.
var nozzleFlowMethods = group{[]string{"nozzle-flow"}, []row{
	{CatchFlow, Method{
		ID: "catch_flow", Formula: "F = V / t", Domain: "positive", Source: sourceCatch,
		Symbols:    []Symbol{{"F", "catch_flow", unit.KindFlowRate}, {"V", "caught_volume", unit.KindVolume}, {"t", "catch_time", unit.KindTime}},
		Operations: []string{"nozzle-flow", "nozzle-acceptance", "wear-forecast", "calibrations"},
	}},
	{CatchNozzleFlow, Method{
		ID: "catch_nozzle_flow", Formula: "q = F / n", Domain: "positive",
		Symbols:    []Symbol{{"q", "nozzle_flow", unit.KindFlowRate}, {"F", "catch_flow", unit.KindFlowRate}, {"n", "nozzles_in_jug", unit.KindNone}},
		Operations: []string{"nozzle-flow", "nozzle-acceptance", "wear-forecast", "calibrations"},
	}},
	{MeanNozzleFlow, Method{
		ID: "mean_nozzle_flow", Formula: "q = sum(F_i) / sum(n_i)", Domain: "positive",
		Symbols: []Symbol{
			{"q", "mean_nozzle_flow", unit.KindFlowRate}, {"F_i", "catch_flow", unit.KindFlowRate}, {"n_i", "nozzles_in_jug", unit.KindNone},
		},
	}},
	{MeanLogarithm, Method{
		ID: "mean_logarithm", Formula: "m = sum(ln(x_i)) / n", Domain: "positive",
		Symbols: []Symbol{{"m", "mean_logarithm", unit.KindNone}, {"x_i", "logarithm_of", unit.KindNone}, {"n", "number_of_values", unit.KindNone}},
	}},
	{PressureExponent, Method{
		ID: "pressure_exponent", Formula: "n = sum((ln(p_i) - x) * (ln(q_i) - y)) / sum((ln(p_i) - x)^2)", Domain: "exponent",
		Symbols: []Symbol{
			{"n", "pressure_exponent", unit.KindNone}, {"p_i", "catch_pressure", unit.KindPressure}, {"q_i", "nozzle_flow", unit.KindFlowRate},
			{"x", "mean_log_pressure", unit.KindNone}, {"y", "mean_log_flow", unit.KindNone},
		},
	}},
	{PredictedFlow, Method{
		ID: "predicted_flow", Formula: "q = sum(F_i * (p / p_i)^n) / sum(n_i)", Domain: "pressure_law", Source: sourcePressureLaw,
		Symbols: []Symbol{
			{"q", "nozzle_flow", unit.KindFlowRate}, {"F_i", "catch_flow", unit.KindFlowRate}, {"p", "wanted_pressure", unit.KindPressure},
			{"p_i", "catch_pressure", unit.KindPressure}, {"n", "pressure_exponent", unit.KindNone}, {"n_i", "nozzles_in_jug", unit.KindNone},
		},
	}},
}}
