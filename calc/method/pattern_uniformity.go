package method

import "wetrun/calc/unit"

// patternUniformityMethods are those of pattern uniformity.
var patternUniformityMethods = group{[]string{"pattern-uniformity"}, []row{
	{StandardDeviation, Method{
		ID: "standard_deviation", Formula: "s = sqrt(sum((x_i - m)^2) / (n - 1))", Domain: "two_values",
		Symbols: []Symbol{
			{"s", "standard_deviation", unit.KindNone}, {"x_i", "value", unit.KindNone}, {"m", "mean", unit.KindNone},
			{"n", "number_of_values", unit.KindNone},
		},
		Operations: []string{"nozzle-acceptance", "pattern-uniformity", "calibrations"},
	}},
	{Variation, Method{
		ID: "variation", Formula: "c = s / m", Domain: "positive",
		Symbols: []Symbol{
			{"c", "coefficient_of_variation", unit.KindRatio}, {"s", "standard_deviation", unit.KindNone}, {"m", "mean", unit.KindNone},
		},
	}},
	{PlaceDeviation, Method{
		ID: "place_deviation", Formula: "d = x / m - 1", Domain: "positive",
		Symbols: []Symbol{{"d", "place_deviation", unit.KindRatio}, {"x", "value", unit.KindNone}, {"m", "mean", unit.KindNone}},
	}},
	{PlaceDistance, Method{
		ID: "place_distance", Formula: "l = i * b", Domain: "positive",
		Symbols: []Symbol{{"l", "place_distance", unit.KindLength}, {"i", "place_index", unit.KindNone}, {"b", "cup_spacing", unit.KindLength}},
	}},
	{OverlappedMean, Method{
		ID: "overlapped_mean", Formula: "m = b * sum(x_i) / w", Domain: "positive",
		Symbols: []Symbol{
			{"m", "overlapped_mean", unit.KindNone}, {"b", "cup_spacing", unit.KindLength}, {"x_i", "value", unit.KindNone},
			{"w", "nozzle_spacing", unit.KindLength},
		},
	}},
	{OverlappedVariation, Method{
		ID: "overlapped_variation", Formula: "c = sqrt(sum(l_i * (f_i^2 + f_i * g_i + g_i^2)) / (3 * w))", Domain: "overlap",
		Symbols: []Symbol{
			{"c", "coefficient_of_variation", unit.KindRatio}, {"l_i", "piece_length", unit.KindLength},
			{"f_i", "deviation_at_start", unit.KindRatio}, {"g_i", "deviation_at_end", unit.KindRatio}, {"w", "nozzle_spacing", unit.KindLength},
		},
	}},
	{OverlappedPlace, Method{
		ID: "overlapped_place", Formula: "d = sum(x_i * s_i) / m - 1", Domain: "overlap",
		Symbols: []Symbol{
			{"d", "place_deviation", unit.KindRatio}, {"x_i", "value", unit.KindNone}, {"s_i", "share_of_cup", unit.KindNone},
			{"m", "overlapped_mean", unit.KindNone},
		},
	}},
	{HighestPlace, Method{
		ID: "highest_place", Formula: "d = max(d_i)", Domain: "overlap",
		Symbols: []Symbol{{"d", "place_deviation", unit.KindRatio}, {"d_i", "deviation_at_start", unit.KindRatio}},
	}},
	{LowestPlace, Method{
		ID: "lowest_place", Formula: "d = min(d_i)", Domain: "overlap",
		Symbols: []Symbol{{"d", "place_deviation", unit.KindRatio}, {"d_i", "deviation_at_start", unit.KindRatio}},
	}},
	{SpacingStep, Method{
		ID: "spacing_step", Formula: "w = l * (n - 1 - i) / (n - 1) + h * i / (n - 1)", Domain: "two_values",
		Symbols: []Symbol{
			{"w", "nozzle_spacing", unit.KindLength}, {"l", "lowest_spacing", unit.KindLength}, {"h", "highest_spacing", unit.KindLength},
			{"i", "step_index", unit.KindNone}, {"n", "steps", unit.KindNone},
		},
	}},
}}
