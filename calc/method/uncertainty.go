package method

import "wetrun/calc/unit"

var (
	measuredOperations = []string{"ground-speed", "nozzle-flow", "nozzle-acceptance", "pressure-uniformity", "application-rate", "area-check", "calibrations"}
	repeatedOperations = []string{"ground-speed", "nozzle-flow", "nozzle-acceptance", "calibrations"}
	judgedOperations   = []string{"ground-speed", "nozzle-acceptance", "pressure-uniformity", "application-rate", "area-check", "calibrations"}
)

var withinSymbols = []Symbol{
	{"p", "conformance_probability", unit.KindRatio}, {"h", "upper_limit", unit.KindNone}, {"l", "lower_limit", unit.KindNone},
	{"x", "measured_value", unit.KindNone}, {"u", "standard_uncertainty", unit.KindNone},
	{"a", "widest_error", unit.KindNone}, {"s", "rest_of_errors", unit.KindNone}, {"nu", "rest_freedom", unit.KindNone},
}

func symbolsOf(all []Symbol, names ...string) (some []Symbol) {
	for _, name := range names {
		for _, s := range all {
			if s.Symbol == name {
				some = append(some, s)
			}
		}
	}
	return some
}

// uncertaintyMethods are those of uncertainties and of what they say of verdicts. None
// of the guides was read: their formulas are from memory. JCGM 100: readings and scales
// 4.3.7 and F.2.2.1, scatter 4.2, combined 5.1.2 and 5.2.2, expanded 6.2.1, coverage G.3.2,
// effective degrees of freedom G.4.1. JCGM 101: how errors are distributed, see
// certainty.Distribution. JCGM 106: conformance 7.2 and A.3.
var uncertaintyMethods = group{repeatedOperations, []row{
	{ScaleError, Method{
		ID: "scale_error", Formula: "u = sqrt(sum((c_i * a_i)^2) / 3)", Domain: "instruments", SourceNotRead: true,
		Symbols: []Symbol{
			{"u", "relative_uncertainty", unit.KindRatio}, {"c_i", "scale_sensitivity", unit.KindNone}, {"a_i", "scale_error", unit.KindRatio},
		},
		Operations: repeatedAnd("pressure-uniformity"),
	}},
	{ReadingError, Method{
		ID: "reading_error", Formula: "u = sqrt(d^2 / 12 + t^2) / x", Domain: "instruments", SourceNotRead: true,
		Symbols: []Symbol{
			{"u", "relative_uncertainty", unit.KindRatio}, {"d", "resolution", unit.KindNone}, {"t", "reaction_time", unit.KindNone}, {"x", "reading", unit.KindNone},
		},
		Operations: repeatedAnd("pressure-uniformity"),
	}},
	{Readings, Method{
		ID: "readings", Formula: "u = sqrt(sum(g_i * u_i^2))", Domain: "instruments", SourceNotRead: true,
		Symbols: []Symbol{
			{"u", "relative_uncertainty", unit.KindRatio}, {"g_i", "reading_weight", unit.KindNone}, {"u_i", "relative_uncertainty", unit.KindRatio},
		},
		Operations: repeatedAnd("pressure-uniformity"),
	}},
	{PooledScatter, Method{
		ID: "pooled_scatter", Formula: "s = sqrt((nu_0 * (s_0^2 + r^2) + (n - 1) * c^2) / (nu_0 + n - 1))", Domain: "scatter", SourceNotRead: true,
		Symbols: []Symbol{
			{"s", "pooled_scatter", unit.KindRatio}, {"nu_0", "prior_freedom", unit.KindNone}, {"s_0", "prior_scatter", unit.KindRatio},
			{"r", "mean_reading_error", unit.KindRatio}, {"n", "number_of_values", unit.KindNone}, {"c", "seen_scatter", unit.KindRatio},
		},
	}},
	{ScatterOfMean, Method{
		ID: "scatter_of_mean", Formula: "u = s * sqrt(w * f)", Domain: "scatter", SourceNotRead: true,
		Symbols: []Symbol{
			{"u", "relative_uncertainty", unit.KindRatio}, {"s", "pooled_scatter", unit.KindRatio}, {"w", "sum_of_squared_shares", unit.KindNone},
			{"f", "share_not_caught", unit.KindNone},
		},
	}},
	{CombinedUncertainty, Method{
		ID: "combined_uncertainty", Formula: "u = X * sqrt(sum(u_i^2))", Domain: "independent_sources", SourceNotRead: true,
		Symbols: []Symbol{
			{"u", "standard_uncertainty", unit.KindNone}, {"X", "reference_of_shares", unit.KindNone}, {"u_i", "relative_uncertainty", unit.KindRatio},
		},
		Operations: measuredOperations,
	}},
	{EffectiveFreedom, Method{
		ID: "effective_freedom", Formula: "nu = sum(u_i^2)^2 / sum(v_i^4 / nu_i)", Domain: "independent_sources", SourceNotRead: true,
		Symbols: []Symbol{
			{"nu", "degrees_of_freedom", unit.KindNone}, {"u_i", "relative_uncertainty", unit.KindRatio},
			{"v_i", "relative_uncertainty_with_freedom", unit.KindRatio}, {"nu_i", "degrees_of_freedom", unit.KindNone},
		},
	}},
	{StudentCoverage, Method{
		ID: "student_coverage", Formula: "k_p = uniform_t_quantile(0.975, a, s, nu)", Domain: "uniform_and_student", SourceNotRead: true,
		Symbols: append([]Symbol{{"k_p", "coverage_factor", unit.KindNone}}, symbolsOf(withinSymbols, "a", "s", "nu")...),
	}},
	{NormalCoverage, Method{
		ID: "normal_coverage", Formula: "k_p = uniform_normal_quantile(0.975, a, s)", Domain: "uniform_and_normal", SourceNotRead: true,
		Symbols:    append([]Symbol{{"k_p", "coverage_factor", unit.KindNone}}, symbolsOf(withinSymbols, "a", "s")...),
		Operations: measuredOperations,
	}},
	{ExpandedUncertainty, Method{
		ID: "expanded_uncertainty", Formula: "U = k_p * u", Domain: "independent_sources", SourceNotRead: true,
		Symbols: []Symbol{
			{"U", "expanded_uncertainty", unit.KindNone}, {"k_p", "coverage_factor", unit.KindNone}, {"u", "standard_uncertainty", unit.KindNone},
		},
		Operations: measuredOperations,
	}},
	{StudentWithin, Method{
		ID: "student_within", Formula: "p = uniform_t_cdf((h - x) / u, a, s, nu) - uniform_t_cdf((l - x) / u, a, s, nu)", Domain: "uniform_and_student", SourceNotRead: true,
		Symbols: symbolsOf(withinSymbols, "p", "h", "l", "x", "u", "a", "s", "nu"), Operations: []string{"calibrations"},
	}},
	{StudentBelow, Method{
		ID: "student_below", Formula: "p = uniform_t_cdf((h - x) / u, a, s, nu)", Domain: "uniform_and_student", SourceNotRead: true,
		Symbols: symbolsOf(withinSymbols, "p", "h", "x", "u", "a", "s", "nu"), Operations: []string{"calibrations"},
	}},
	{WithinBoth, Method{
		ID: "within_both", Formula: "p = within_both(f_1, f_2, g_1, g_2, r)", Domain: "both_limits", SourceNotRead: true,
		Symbols: []Symbol{
			{"p", "conformance_probability", unit.KindRatio}, {"f_1", "below_by_rating", unit.KindNone}, {"f_2", "above_by_rating", unit.KindNone},
			{"g_1", "below_by_mean", unit.KindNone}, {"g_2", "above_by_mean", unit.KindNone}, {"r", "correlation", unit.KindNone},
		},
		Operations: []string{"nozzle-acceptance", "calibrations"},
	}},
	{NormalWithin, Method{
		ID: "normal_within", Formula: "p = uniform_normal_cdf((h - x) / u, a, s) - uniform_normal_cdf((l - x) / u, a, s)", Domain: "uniform_and_normal", SourceNotRead: true,
		Symbols: symbolsOf(withinSymbols, "p", "h", "l", "x", "u", "a", "s"), Operations: judgedOperations,
	}},
	{NormalBelow, Method{
		ID: "normal_below", Formula: "p = uniform_normal_cdf((h - x) / u, a, s)", Domain: "uniform_and_normal", SourceNotRead: true,
		Symbols: symbolsOf(withinSymbols, "p", "h", "x", "u", "a", "s"), Operations: judgedOperations,
	}},
}}

func repeatedAnd(one string) []string { return append([]string{one}, repeatedOperations...) }
