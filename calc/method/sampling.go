package method

import "wetrun/calc/unit"

var sampledOperations = []string{"nozzle-acceptance", "calibrations"}

var samplingSymbols = []Symbol{
	{"p", "proportion_of_boom", unit.KindRatio}, {"x", "points_outside", unit.KindNone}, {"n", "points_caught", unit.KindNone},
	{"N", "points_on_boom", unit.KindNone}, {"L", "replace_all_above", unit.KindRatio}, {"K", "points_at_limit", unit.KindNone},
}

var outlierSymbols = []Symbol{
	{"t", "student_upper", unit.KindNone}, {"n", "number_of_values", unit.KindNone}, {"G_c", "critical_value", unit.KindNone},
	{"W_c", "critical_value", unit.KindNone}, {"s", "standard_deviation", unit.KindNone}, {"m", "mean", unit.KindNone},
}

// samplingMethods are those of what a round tells of the boom, and of its outliers.
// None of their sources was read; see Sampling and Outliers.
var samplingMethods = group{sampledOperations, []row{
	{SharePossibleLow, Method{
		ID: "share_low", Formula: "p = beta_quantile(0.025, x, n - x + 1)", Domain: "clopper_pearson", SourceNotRead: true,
		Symbols: symbolsOf(samplingSymbols, "p", "x", "n"), Operations: sampledOperations,
	}},
	{SharePossibleHigh, Method{
		ID: "share_high", Formula: "p = beta_quantile(0.975, x + 1, n - x)", Domain: "clopper_pearson", SourceNotRead: true,
		Symbols: symbolsOf(samplingSymbols, "p", "x", "n"), Operations: sampledOperations,
	}},
	{PointsPossibleLow, Method{
		ID: "points_low", Formula: "p = (N - most_outside(n - x, n, N)) / N", Domain: "hypergeometric", SourceNotRead: true,
		Symbols: symbolsOf(samplingSymbols, "p", "x", "n", "N"), Operations: sampledOperations,
	}},
	{PointsPossibleHigh, Method{
		ID: "points_high", Formula: "p = most_outside(x, n, N) / N", Domain: "hypergeometric", SourceNotRead: true,
		Symbols: symbolsOf(samplingSymbols, "p", "x", "n", "N"), Operations: sampledOperations,
	}},
	{ChanceAbove, Method{
		ID: "chance_above", Formula: "p = 1 - beta_cdf(L, x + 0.5, n - x + 0.5)", Domain: "jeffreys", SourceNotRead: true,
		Symbols: append(symbolsOf(samplingSymbols, "x", "n", "L"), Symbol{"p", "chance_above_limit", unit.KindRatio}), Operations: sampledOperations,
	}},
	{ChanceAbovePoints, Method{
		ID: "chance_above_points", Formula: "p = beta_binomial_above(K - x, N - n, x + 0.5, n - x + 0.5)", Domain: "jeffreys_points", SourceNotRead: true,
		Symbols: append(symbolsOf(samplingSymbols, "x", "n", "N", "K"), Symbol{"p", "chance_above_limit", unit.KindRatio}), Operations: sampledOperations,
	}},
	{Grubbs, Method{
		ID: "grubbs", Formula: "G = abs(x - m) / s", Domain: "outliers", SourceNotRead: true,
		Symbols: append(symbolsOf(outlierSymbols, "m", "s"), Symbol{"G", "grubbs", unit.KindNone}, Symbol{"x", "value", unit.KindNone}), Operations: sampledOperations,
	}},
	{GrubbsPoint, Method{
		ID: "grubbs_point", Formula: "t = t_quantile(1 - 0.025 / (2 * n), n - 2)", Domain: "student_table", SourceNotRead: true,
		Symbols: symbolsOf(outlierSymbols, "t", "n"), Operations: sampledOperations,
	}},
	{GrubbsCritical, Method{
		ID: "grubbs_critical", Formula: "G_c = (n - 1) / sqrt(n) * sqrt(t^2 / (n - 2 + t^2))", Domain: "outliers", SourceNotRead: true,
		Symbols: symbolsOf(outlierSymbols, "G_c", "n", "t"), Operations: sampledOperations,
	}},
	{RangeOverDeviation, Method{
		ID: "range_over_deviation", Formula: "W = (max(x_i) - min(x_i)) / s", Domain: "outliers", SourceNotRead: true,
		Symbols: append(symbolsOf(outlierSymbols, "s"), Symbol{"W", "range_over_deviation", unit.KindNone}, Symbol{"x_i", "value", unit.KindNone}), Operations: sampledOperations,
	}},
	{RangePoint, Method{
		ID: "range_point", Formula: "t = t_quantile(1 - 0.025 / (n * (n - 1)), n - 2)", Domain: "student_table", SourceNotRead: true,
		Symbols: symbolsOf(outlierSymbols, "t", "n"), Operations: sampledOperations,
	}},
	{RangeCritical, Method{
		ID: "range_critical", Formula: "W_c = sqrt(2 * (n - 1) * t^2 / (n - 2 + t^2))", Domain: "outliers", SourceNotRead: true,
		Symbols: symbolsOf(outlierSymbols, "W_c", "n", "t"), Operations: sampledOperations,
	}},
}}
