package method

import "wetrun/calc/unit"

// nozzleAcceptanceMethods are those of nozzle acceptance.
var nozzleAcceptanceMethods = group{[]string{"nozzle-acceptance", "calibrations"}, []row{
	{OutputDeviation, Method{
		ID: "output_deviation", Formula: "d = (q - q_r) / q_r", Domain: "positive",
		Symbols: []Symbol{
			{"d", "output_deviation", unit.KindRatio}, {"q", "nozzle_flow", unit.KindFlowRate}, {"q_r", "reference_flow", unit.KindFlowRate},
		},
	}},
	{AcceptableLow, Method{
		ID: "acceptable_low", Formula: "q_l = max((1 - l_i) * q_i, 0)", Domain: "references",
		Symbols: []Symbol{
			{"q_l", "lowest_acceptable_flow", unit.KindFlowRate}, {"l_i", "limit_below", unit.KindRatio},
			{"q_i", "reference_flow", unit.KindFlowRate},
		},
	}},
	{AcceptableHigh, Method{
		ID: "acceptable_high", Formula: "q_h = min((1 + l_i) * q_i)", Domain: "references",
		Symbols: []Symbol{
			{"q_h", "highest_acceptable_flow", unit.KindFlowRate}, {"l_i", "limit_above", unit.KindRatio},
			{"q_i", "reference_flow", unit.KindFlowRate},
		},
	}},
	{JugReading, Method{
		ID: "jug_reading", Formula: "V = q * n * t", Domain: "positive", Source: sourceCatch,
		Symbols: []Symbol{
			{"V", "jug_reading", unit.KindVolume}, {"q", "acceptable_flow", unit.KindFlowRate}, {"n", "nozzles_in_jug", unit.KindNone},
			{"t", "catch_time", unit.KindTime},
		},
	}},
	{WeightedMeanFlow, Method{
		ID: "weighted_mean_flow", Formula: "q = sum(q_i * n_i) / sum(n_i)", Domain: "positive",
		Symbols: []Symbol{
			{"q", "mean_nozzle_flow", unit.KindFlowRate}, {"q_i", "nozzle_flow", unit.KindFlowRate}, {"n_i", "nozzles_in_jug", unit.KindNone},
		},
	}},
	{MeanOfValues, Method{
		ID: "mean_of_values", Formula: "m = sum(x_i) / n", Domain: "positive",
		Symbols:    []Symbol{{"m", "mean", unit.KindNone}, {"x_i", "value", unit.KindNone}, {"n", "number_of_values", unit.KindNone}},
		Operations: []string{"nozzle-acceptance", "pattern-uniformity", "calibrations"},
	}},
	{CoefficientOfVariation, Method{
		ID: "coefficient_of_variation", Formula: "c = sqrt(sum((x_i - m)^2) / (n - 1)) / m", Domain: "two_values",
		Symbols: []Symbol{
			{"c", "coefficient_of_variation", unit.KindRatio}, {"x_i", "value", unit.KindNone}, {"m", "mean", unit.KindNone},
			{"n", "number_of_values", unit.KindNone},
		},
	}},
	{ProportionOutside, Method{
		ID: "proportion_outside", Formula: "p = n_o / n", Domain: "positive",
		Symbols: []Symbol{
			{"p", "proportion_outside", unit.KindRatio}, {"n_o", "points_outside", unit.KindNone}, {"n", "points_caught", unit.KindNone},
		},
	}},
	{HiddenDeviation, Method{
		ID: "hidden_deviation", Formula: "h = max(n * d + min((n - 1) * l_b, n - 1), min((n - 1) * l_a - n * d, 1))", Domain: "several_nozzles",
		Symbols: []Symbol{
			{"h", "hidden_deviation", unit.KindRatio}, {"n", "nozzles_on_drop", unit.KindNone}, {"d", "output_deviation", unit.KindRatio},
			{"l_b", "limit_below", unit.KindRatio}, {"l_a", "limit_above", unit.KindRatio},
		},
	}},
	{LargestHiddenDeviation, Method{
		ID: "largest_hidden_deviation", Formula: "h = max(h_i)", Domain: "several_nozzles",
		Symbols: []Symbol{{"h", "hidden_deviation", unit.KindRatio}, {"h_i", "hidden_deviation", unit.KindRatio}},
	}},
	{DropRating, Method{
		ID: "drop_rating", Formula: "Q = sum(q_i * n_i)", Domain: "positive",
		Symbols: []Symbol{{"Q", "drop_flow", unit.KindFlowRate}, {"q_i", "rated_flow", unit.KindFlowRate}, {"n_i", "nozzles_of_kind", unit.KindNone}},
	}},
	{AlikeNozzles, Method{
		ID: "alike_nozzles", Formula: "n = Q / min(q_i)", Domain: "positive",
		Symbols: []Symbol{{"n", "nozzles_on_drop", unit.KindNone}, {"Q", "drop_flow", unit.KindFlowRate}, {"q_i", "rated_flow", unit.KindFlowRate}},
	}},
	{DropMeanRating, Method{
		ID: "drop_mean_rating", Formula: "q = Q / n", Domain: "positive",
		Symbols: []Symbol{{"q", "reference_flow", unit.KindFlowRate}, {"Q", "drop_flow", unit.KindFlowRate}, {"n", "nozzles_in_jug", unit.KindNone}},
	}},
}}
