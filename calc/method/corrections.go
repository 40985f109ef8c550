package method

import "wetrun/calc/unit"

// correctionsMethods are those of corrections.
var correctionsMethods = group{[]string{"corrections", "calibrations"}, []row{
	{PredictedRate, Method{
		ID: "predicted_rate", Formula: "R_p = R * f * (v / v_p) * (p_p / p)^n * (d_p / d)", Domain: "unchanged_is_one", Source: sourcePressureLaw,
		Symbols: []Symbol{
			{"R_p", "predicted_rate", unit.KindApplicationRate}, {"R", "application_rate", unit.KindApplicationRate},
			{"f", "flow_ratio", unit.KindNone}, {"v", "ground_speed", unit.KindSpeed}, {"v_p", "planned_speed", unit.KindSpeed},
			{"p_p", "planned_pressure", unit.KindPressure}, {"p", "spray_pressure", unit.KindPressure},
			{"n", "pressure_exponent", unit.KindNone}, {"d", "duty_cycle", unit.KindRatio}, {"d_p", "planned_duty_cycle", unit.KindRatio},
		},
	}},
	{CorrectedSpeed, Method{
		ID: "corrected_speed", Formula: "v_p = v * R / R_t", Domain: "positive", Source: sourceMontana,
		Symbols: []Symbol{
			{"v_p", "planned_speed", unit.KindSpeed}, {"v", "ground_speed", unit.KindSpeed}, {"R", "rate_compared", unit.KindApplicationRate},
			{"R_t", "rate_wanted", unit.KindApplicationRate},
		},
	}},
	{CorrectedPressure, Method{
		ID: "corrected_pressure", Formula: "p_p = p * (R_t / R)^(1 / n)", Domain: "pressure_law", Source: sourcePressureLaw,
		Symbols: []Symbol{
			{"p_p", "planned_pressure", unit.KindPressure}, {"p", "spray_pressure", unit.KindPressure},
			{"R_t", "rate_wanted", unit.KindApplicationRate}, {"R", "rate_compared", unit.KindApplicationRate},
			{"n", "pressure_exponent", unit.KindNone},
		},
	}},
	{CorrectedEngineSpeed, Method{
		ID: "corrected_engine_speed", Formula: "e_p = e * R / R_t", Domain: "positive",
		Symbols: []Symbol{
			{"e_p", "planned_engine_speed", unit.KindRotationalSpeed}, {"e", "engine_speed", unit.KindRotationalSpeed},
			{"R", "rate_compared", unit.KindApplicationRate}, {"R_t", "rate_wanted", unit.KindApplicationRate},
		},
	}},
	{CorrectedDutyCycle, Method{
		ID: "corrected_duty_cycle", Formula: "d_p = d * R_t / R", Domain: "positive",
		Symbols: []Symbol{
			{"d_p", "planned_duty_cycle", unit.KindRatio}, {"d", "duty_cycle", unit.KindRatio}, {"R_t", "rate_wanted", unit.KindApplicationRate},
			{"R", "rate_compared", unit.KindApplicationRate},
		},
	}},
	{SpeedInGear, Method{
		ID: "speed_in_gear", Formula: "v_p = v_g * e / e_g", Domain: "positive",
		Symbols: []Symbol{
			{"v_p", "planned_speed", unit.KindSpeed}, {"v_g", "speed_in_gear", unit.KindSpeed}, {"e", "engine_speed", unit.KindRotationalSpeed},
			{"e_g", "engine_speed_of_gear", unit.KindRotationalSpeed},
		},
	}},
	{EngineSpeedInGear, Method{
		ID: "engine_speed_in_gear", Formula: "e_p = e_g * v / v_g", Domain: "positive",
		Symbols: []Symbol{
			{"e_p", "planned_engine_speed", unit.KindRotationalSpeed}, {"e_g", "engine_speed_of_gear", unit.KindRotationalSpeed},
			{"v", "planned_speed", unit.KindSpeed}, {"v_g", "speed_in_gear", unit.KindSpeed},
		},
	}},
	{FlowRatio, Method{
		ID: "flow_ratio", Formula: "f = q_2 / q_1 * (p_1 / p_2)^n", Domain: "pressure_law", Source: sourcePressureLaw,
		Symbols: []Symbol{
			{"f", "flow_ratio", unit.KindNone}, {"q_2", "other_flow", unit.KindFlowRate}, {"q_1", "present_flow", unit.KindFlowRate},
			{"p_1", "pressure_of_present_flow", unit.KindPressure}, {"p_2", "pressure_of_other_flow", unit.KindPressure},
			{"n", "pressure_exponent", unit.KindNone},
		},
	}},
	{FlowRatioByChart, Method{
		ID: "flow_ratio_by_chart", Formula: "f = f_0 * c / c_0", Domain: "positive",
		Symbols: []Symbol{
			{"f", "flow_ratio", unit.KindNone}, {"f_0", "flow_ratio_measured", unit.KindNone}, {"c", "chart_flow_wanted", unit.KindFlowRate},
			{"c_0", "chart_flow_measured", unit.KindFlowRate},
		},
	}},
	{ChartFlowForRate, Method{
		ID: "chart_flow_for_rate", Formula: "c = c_0 * R_t / R", Domain: "positive",
		Symbols: []Symbol{
			{"c", "chart_flow_wanted", unit.KindFlowRate}, {"c_0", "chart_flow_measured", unit.KindFlowRate},
			{"R_t", "rate_wanted", unit.KindApplicationRate}, {"R", "rate_compared", unit.KindApplicationRate},
		},
	}},
	{PressureByChart, Method{
		ID: "pressure_by_chart", Formula: "p = p_1 * (p_2 / p_1)^(ln(q / q_1) / ln(q_2 / q_1))", Domain: "pressure_by_chart",
		Symbols: []Symbol{
			{"p", "wanted_pressure", unit.KindPressure}, {"p_1", "chart_pressure_below", unit.KindPressure},
			{"p_2", "chart_pressure_above", unit.KindPressure}, {"q", "nozzle_flow", unit.KindFlowRate},
			{"q_1", "chart_flow_below", unit.KindFlowRate}, {"q_2", "chart_flow_above", unit.KindFlowRate},
		},
	}},
	{RelativeChange, Method{
		ID: "relative_change", Formula: "c = x / x_0 - 1", Domain: "positive",
		Symbols: []Symbol{{"c", "relative_change", unit.KindRatio}, {"x", "planned_value", unit.KindNone}, {"x_0", "present_value", unit.KindNone}},
	}},
	{ChangeSize, Method{
		ID: "change_size", Formula: "s = abs(ln(v_p / v)) + abs(ln(p_p / p)) + abs(ln(d_p / d)) + g + z", Domain: "unchanged_is_one",
		Symbols: []Symbol{
			{"s", "change_size", unit.KindNone}, {"v_p", "planned_speed", unit.KindSpeed}, {"v", "ground_speed", unit.KindSpeed},
			{"p_p", "planned_pressure", unit.KindPressure}, {"p", "spray_pressure", unit.KindPressure},
			{"d_p", "planned_duty_cycle", unit.KindRatio}, {"d", "duty_cycle", unit.KindRatio}, {"g", "gear_change_cost", unit.KindNone},
			{"z", "nozzle_change_cost", unit.KindNone},
		},
	}},
	{StudentGuard, Method{
		ID: "student_guard", Formula: "g = uniform_t_quantile(0.95, a, s, nu) * u / R", Domain: "uniform_and_student", SourceNotRead: true,
		Symbols: []Symbol{
			{"g", "label_guard", unit.KindRatio}, {"a", "widest_error", unit.KindNone}, {"s", "rest_of_errors", unit.KindNone},
			{"nu", "rest_freedom", unit.KindNone}, {"u", "standard_uncertainty", unit.KindApplicationRate}, {"R", "rate_compared", unit.KindApplicationRate},
		},
		Operations: []string{"calibrations"},
	}},
	{NormalGuard, Method{
		ID: "normal_guard", Formula: "g = uniform_normal_quantile(0.95, a, s) * u / R", Domain: "uniform_and_normal", SourceNotRead: true,
		Symbols: []Symbol{
			{"g", "label_guard", unit.KindRatio}, {"a", "widest_error", unit.KindNone}, {"s", "rest_of_errors", unit.KindNone},
			{"u", "standard_uncertainty", unit.KindApplicationRate}, {"R", "rate_compared", unit.KindApplicationRate},
		},
		Operations: []string{"calibrations"},
	}},
	{GuardedAim, Method{
		ID: "guarded_aim", Formula: "R_a = R_m * (1 + 2 * g)", Domain: "positive",
		Symbols: []Symbol{
			{"R_a", "rate_aimed_at", unit.KindApplicationRate}, {"R_m", "label_limit", unit.KindApplicationRate}, {"g", "signed_guard", unit.KindRatio},
		},
		Operations: []string{"calibrations"},
	}},
	{MiddleAim, Method{
		ID: "middle_aim", Formula: "R_a = (R_l + R_h) / 2", Domain: "positive",
		Symbols: []Symbol{
			{"R_a", "rate_aimed_at", unit.KindApplicationRate}, {"R_l", "lowest_allowed_rate", unit.KindApplicationRate},
			{"R_h", "highest_allowed_rate", unit.KindApplicationRate},
		},
		Operations: []string{"calibrations"},
	}},
}}
