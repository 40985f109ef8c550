package method

import "wetrun/calc/unit"

// courseLengthMethods are those of course length.
var courseLengthMethods = group{[]string{"course-length"}, []row{
	{CourseArea, Method{
		ID: "course_area", Formula: "A = m * V_u / R_u", Domain: "positive", Source: sourceMississippi,
		Symbols: []Symbol{
			{"A", "treated_area", unit.KindArea}, {"m", "multiple", unit.KindNone}, {"V_u", "reading_unit", unit.KindVolume},
			{"R_u", "rate_unit", unit.KindApplicationRate},
		},
	}},
	{CourseLength, Method{
		ID: "course_length", Formula: "L = A / W", Domain: "positive", Source: sourceMississippi,
		Symbols: []Symbol{{"L", "course_length", unit.KindLength}, {"A", "treated_area", unit.KindArea}, {"W", "treated_width", unit.KindLength}},
	}},
}}
