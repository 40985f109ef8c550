package method

import "wetrun/calc/unit"

// areaCheckMethods are those of area check.
var areaCheckMethods = group{[]string{"area-check", "calibrations"}, []row{
	{CourseTreatedArea, Method{
		ID: "course_treated_area", Formula: "A = L * W * n", Domain: "positive",
		Symbols: []Symbol{
			{"A", "treated_area", unit.KindArea}, {"L", "course_length", unit.KindLength}, {"W", "treated_width", unit.KindLength},
			{"n", "passes", unit.KindNone},
		},
	}},
	{RateFromTank, Method{
		ID: "rate_from_tank", Formula: "R = V / A", Domain: "positive", Source: sourceRefill,
		Symbols: []Symbol{
			{"R", "application_rate", unit.KindApplicationRate}, {"V", "volume_used", unit.KindVolume}, {"A", "treated_area", unit.KindArea},
		},
	}},
}}
