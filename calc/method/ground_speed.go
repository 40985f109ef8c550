package method

import "wetrun/calc/unit"

// groundSpeedMethods are those of ground speed.
var groundSpeedMethods = group{[]string{"ground-speed", "calibrations"}, []row{
	{RunSpeed, Method{
		ID: "run_speed", Formula: "v = L / t", Domain: "positive", Source: sourceOklahoma,
		Symbols: []Symbol{{"v", "run_speed", unit.KindSpeed}, {"L", "course_length", unit.KindLength}, {"t", "run_time", unit.KindTime}},
	}},
	{TotalLength, Method{
		ID: "total_length", Formula: "L = sum(L_i)", Domain: "positive",
		Symbols: []Symbol{{"L", "total_length", unit.KindLength}, {"L_i", "course_length", unit.KindLength}},
	}},
	{TotalTime, Method{
		ID: "total_time", Formula: "t = sum(t_i)", Domain: "positive",
		Symbols: []Symbol{{"t", "total_time", unit.KindTime}, {"t_i", "run_time", unit.KindTime}},
	}},
	{GroundSpeed, Method{
		ID: "ground_speed", Formula: "v = L / t", Domain: "positive",
		Symbols: []Symbol{{"v", "ground_speed", unit.KindSpeed}, {"L", "total_length", unit.KindLength}, {"t", "total_time", unit.KindTime}},
	}},
	{RunSpread, Method{
		ID: "run_spread", Formula: "s = (max(v_i) - min(v_i)) / v", Domain: "two_runs",
		Symbols: []Symbol{{"s", "run_spread", unit.KindRatio}, {"v_i", "run_speed", unit.KindSpeed}, {"v", "ground_speed", unit.KindSpeed}},
	}},
	{CourseTime, Method{
		ID: "course_time", Formula: "t = L / v", Domain: "positive", Source: sourceOklahoma,
		Symbols:    []Symbol{{"t", "course_time", unit.KindTime}, {"L", "course_length", unit.KindLength}, {"v", "ground_speed", unit.KindSpeed}},
		Operations: []string{"ground-speed", "course-length"},
	}},
}}
