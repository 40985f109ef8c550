package method

import "wetrun/calc/unit"

// wearForecastMethods are those of wear forecast.
var wearForecastMethods = group{[]string{"wear-forecast"}, []row{
	{LimitFlow, Method{
		ID: "limit_flow", Formula: "q_l = q_n * (1 + l)", Domain: "positive",
		Symbols: []Symbol{{"q_l", "limit_flow", unit.KindFlowRate}, {"q_n", "new_flow", unit.KindFlowRate}, {"l", "wear_limit", unit.KindRatio}},
	}},
	{OverNew, Method{
		ID: "over_new", Formula: "d = q / q_n - 1", Domain: "positive",
		Symbols: []Symbol{{"d", "over_new", unit.KindRatio}, {"q", "nozzle_flow", unit.KindFlowRate}, {"q_n", "new_flow", unit.KindFlowRate}},
	}},
	{WearMeanTime, Method{
		ID: "wear_mean_time", Formula: "m = sum(t_i) / n", Domain: "line",
		Symbols: []Symbol{{"m", "mean_time", unit.KindTime}, {"t_i", "catch_moment", unit.KindTime}, {"n", "number_of_values", unit.KindNone}},
	}},
	{WearMeanFlow, Method{
		ID: "wear_mean_flow", Formula: "y = sum(q_i / q_n) / n", Domain: "line",
		Symbols: []Symbol{
			{"y", "mean_flow_ratio", unit.KindNone}, {"q_i", "nozzle_flow", unit.KindFlowRate}, {"q_n", "new_flow", unit.KindFlowRate},
			{"n", "number_of_values", unit.KindNone},
		},
	}},
	{WearRate, Method{
		ID: "wear_rate", Formula: "b = s * sum((t_i - m) * (q_i / q_n - y)) / sum((t_i - m)^2)", Domain: "line",
		Symbols: []Symbol{
			{"b", "wear_rate", unit.KindRatio}, {"s", "wear_period", unit.KindTime}, {"t_i", "catch_moment", unit.KindTime},
			{"m", "mean_time", unit.KindTime}, {"q_i", "nozzle_flow", unit.KindFlowRate}, {"q_n", "new_flow", unit.KindFlowRate},
			{"y", "mean_flow_ratio", unit.KindNone},
		},
	}},
	{WearLineDeviation, Method{
		ID: "wear_line_deviation", Formula: "d = q / q_n - y - b * (t - m) / s", Domain: "line",
		Symbols: []Symbol{
			{"d", "over_line", unit.KindRatio}, {"q", "nozzle_flow", unit.KindFlowRate}, {"q_n", "new_flow", unit.KindFlowRate},
			{"y", "mean_flow_ratio", unit.KindNone}, {"b", "wear_rate", unit.KindRatio}, {"s", "wear_period", unit.KindTime},
			{"t", "catch_moment", unit.KindTime}, {"m", "mean_time", unit.KindTime},
		},
	}},
	{WearOnLine, Method{
		ID: "wear_on_line", Formula: "d = y + b * (t - m) / s - 1", Domain: "line",
		Symbols: []Symbol{
			{"d", "over_new", unit.KindRatio}, {"y", "mean_flow_ratio", unit.KindNone}, {"b", "wear_rate", unit.KindRatio},
			{"s", "wear_period", unit.KindTime}, {"t", "last_catch_moment", unit.KindTime}, {"m", "mean_time", unit.KindTime},
		},
	}},
	{WearScatter, Method{
		ID: "wear_scatter", Formula: "s = sqrt(sum(d_i^2) / (n - 2))", Domain: "line",
		Symbols: []Symbol{{"s", "scatter", unit.KindRatio}, {"d_i", "over_line", unit.KindRatio}, {"n", "number_of_values", unit.KindNone}},
	}},
	{TimeAtLimit, Method{
		ID: "time_at_limit", Formula: "x = m + s * (1 + l - y) / b", Domain: "rising_line",
		Symbols: []Symbol{
			{"x", "time_at_limit", unit.KindTime}, {"m", "mean_time", unit.KindTime}, {"s", "wear_period", unit.KindTime},
			{"l", "wear_limit", unit.KindRatio}, {"y", "mean_flow_ratio", unit.KindNone}, {"b", "wear_rate", unit.KindRatio},
		},
	}},
	{TimeLeft, Method{
		ID: "time_left", Formula: "x = x_l - t", Domain: "rising_line",
		Symbols: []Symbol{{"x", "time_left", unit.KindTime}, {"x_l", "time_at_limit", unit.KindTime}, {"t", "last_catch_moment", unit.KindTime}},
	}},
	{SeasonsLeft, Method{
		ID: "seasons_left", Formula: "n = (l - d) / b", Domain: "rising_line",
		Symbols: []Symbol{
			{"n", "seasons_left", unit.KindNone}, {"l", "wear_limit", unit.KindRatio}, {"d", "over_new", unit.KindRatio},
			{"b", "wear_rate", unit.KindRatio},
		},
	}},
	{WearSquares, Method{
		ID: "wear_squares", Formula: "S = sum(((t_i - m) / s)^2)", Domain: "line",
		Symbols: []Symbol{
			{"S", "sum_of_squares", unit.KindNone}, {"t_i", "catch_moment", unit.KindTime}, {"m", "mean_time", unit.KindTime},
			{"s", "wear_period", unit.KindTime},
		},
	}},
	{WearCertainty, Method{
		ID: "wear_certainty", Formula: "A = b^2 - (T * c)^2 / S", Domain: "line", SourceNotRead: true,
		Symbols: []Symbol{
			{"A", "certainty", unit.KindNone}, {"b", "wear_rate", unit.KindRatio}, {"T", "student_point", unit.KindNone},
			{"c", "scatter", unit.KindRatio}, {"S", "sum_of_squares", unit.KindNone},
		},
	}},
	{WearEarliest, Method{
		ID: "wear_earliest", Formula: "x = m + s * (b * (1 + l - y) - T * c * sqrt(A * (1 + 1 / n) + (1 + l - y)^2 / S)) / A", Domain: "rising_line", SourceNotRead: true,
		Symbols: []Symbol{
			{"x", "time_at_limit", unit.KindTime}, {"m", "mean_time", unit.KindTime}, {"s", "wear_period", unit.KindTime},
			{"b", "wear_rate", unit.KindRatio}, {"l", "wear_limit", unit.KindRatio}, {"y", "mean_flow_ratio", unit.KindNone},
			{"T", "student_point", unit.KindNone}, {"c", "scatter", unit.KindRatio}, {"A", "certainty", unit.KindNone},
			{"n", "number_of_values", unit.KindNone}, {"S", "sum_of_squares", unit.KindNone},
		},
	}},
	{WearLatest, Method{
		ID: "wear_latest", Formula: "x = m + s * (b * (1 + l - y) + T * c * sqrt(A * (1 + 1 / n) + (1 + l - y)^2 / S)) / A", Domain: "rising_line", SourceNotRead: true,
		Symbols: []Symbol{
			{"x", "time_at_limit", unit.KindTime}, {"m", "mean_time", unit.KindTime}, {"s", "wear_period", unit.KindTime},
			{"b", "wear_rate", unit.KindRatio}, {"l", "wear_limit", unit.KindRatio}, {"y", "mean_flow_ratio", unit.KindNone},
			{"T", "student_point", unit.KindNone}, {"c", "scatter", unit.KindRatio}, {"A", "certainty", unit.KindNone},
			{"n", "number_of_values", unit.KindNone}, {"S", "sum_of_squares", unit.KindNone},
		},
	}},
}}
