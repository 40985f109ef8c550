package method

import "wetrun/calc/unit"

// fieldCapacityMethods are those of field capacity.
var fieldCapacityMethods = group{[]string{"field-capacity"}, []row{
	{TheoreticalWorkRate, Method{
		ID: "theoretical_work_rate", Formula: "C = v * W", Domain: "positive",
		Symbols: []Symbol{{"C", "work_rate", unit.KindWorkRate}, {"v", "ground_speed", unit.KindSpeed}, {"W", "working_width", unit.KindLength}},
	}},
	{EffectiveWorkRate, Method{
		ID: "effective_work_rate", Formula: "C_e = C * e", Domain: "positive",
		Symbols: []Symbol{
			{"C_e", "effective_work_rate", unit.KindWorkRate}, {"C", "work_rate", unit.KindWorkRate}, {"e", "field_efficiency", unit.KindRatio},
		},
	}},
	{AreaPerLoad, Method{
		ID: "area_per_load", Formula: "A = V / R", Domain: "positive", Source: sourceMississippi,
		Symbols: []Symbol{
			{"A", "area_per_load", unit.KindArea}, {"V", "load_volume", unit.KindVolume}, {"R", "application_rate", unit.KindApplicationRate},
		},
		Operations: []string{"field-capacity", "tank-loads"},
	}},
	{TimeForArea, Method{
		ID: "time_for_area", Formula: "t = A / C", Domain: "positive",
		Symbols: []Symbol{{"t", "work_time", unit.KindTime}, {"A", "area_worked", unit.KindArea}, {"C", "work_rate", unit.KindWorkRate}},
	}},
	{WorkRateWithRefills, Method{
		ID: "work_rate_with_refills", Formula: "C = A / (t + r)", Domain: "positive",
		Symbols: []Symbol{
			{"C", "work_rate", unit.KindWorkRate}, {"A", "area_per_load", unit.KindArea}, {"t", "work_time", unit.KindTime},
			{"r", "refill_time", unit.KindTime},
		},
	}},
	{VolumeForArea, Method{
		ID: "volume_for_area", Formula: "V = A * R", Domain: "positive", Source: sourceMississippi,
		Symbols: []Symbol{
			{"V", "spray_volume", unit.KindVolume}, {"A", "area_worked", unit.KindArea}, {"R", "application_rate", unit.KindApplicationRate},
		},
		Operations: []string{"field-capacity", "tank-loads"},
	}},
	{RefillingTime, Method{
		ID: "refilling_time", Formula: "t = n * r", Domain: "positive",
		Symbols: []Symbol{{"t", "refilling_time", unit.KindTime}, {"n", "refills", unit.KindNone}, {"r", "refill_time", unit.KindTime}},
	}},
	{TotalWorkTime, Method{
		ID: "total_work_time", Formula: "T = t + r", Domain: "positive",
		Symbols: []Symbol{{"T", "total_work_time", unit.KindTime}, {"t", "work_time", unit.KindTime}, {"r", "refilling_time", unit.KindTime}},
	}},
}}
