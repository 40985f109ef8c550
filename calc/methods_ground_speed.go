package calc

import "wetrun/calc/unit"

// groundSpeedMethods are those of ground speed.
var groundSpeedMethods = []methodRow{
	{MethodRunSpeed, Method{
		ID: "run_speed", Formula: "v = L / t", Domain: "positive", Source: sourceOklahoma,
		Symbols:    []MethodSymbol{{"v", "run_speed", unit.KindSpeed}, {"L", "course_length", unit.KindLength}, {"t", "run_time", unit.KindTime}},
		Operations: []string{"ground-speed", "calibrations"},
	}},
	{MethodTotalLength, Method{
		ID: "total_length", Formula: "L = sum(L_i)", Domain: "positive",
		Symbols:    []MethodSymbol{{"L", "total_length", unit.KindLength}, {"L_i", "course_length", unit.KindLength}},
		Operations: []string{"ground-speed", "calibrations"},
	}},
	{MethodTotalTime, Method{
		ID: "total_time", Formula: "t = sum(t_i)", Domain: "positive",
		Symbols:    []MethodSymbol{{"t", "total_time", unit.KindTime}, {"t_i", "run_time", unit.KindTime}},
		Operations: []string{"ground-speed", "calibrations"},
	}},
	{MethodGroundSpeed, Method{
		ID: "ground_speed", Formula: "v = L / t", Domain: "positive",
		Symbols:    []MethodSymbol{{"v", "ground_speed", unit.KindSpeed}, {"L", "total_length", unit.KindLength}, {"t", "total_time", unit.KindTime}},
		Operations: []string{"ground-speed", "calibrations"},
	}},
	{MethodRunSpread, Method{
		ID: "run_spread", Formula: "s = (max(v_i) - min(v_i)) / v", Domain: "two_runs",
		Symbols:    []MethodSymbol{{"s", "run_spread", unit.KindRatio}, {"v_i", "run_speed", unit.KindSpeed}, {"v", "ground_speed", unit.KindSpeed}},
		Operations: []string{"ground-speed", "calibrations"},
	}},
	{MethodCourseTime, Method{
		ID: "course_time", Formula: "t = L / v", Domain: "positive", Source: sourceOklahoma,
		Symbols:    []MethodSymbol{{"t", "course_time", unit.KindTime}, {"L", "course_length", unit.KindLength}, {"v", "ground_speed", unit.KindSpeed}},
		Operations: []string{"ground-speed", "course-length"},
	}},
}
