package method

import "wetrun/calc/unit"

// tankRinseMethods are those of tank rinse.
var tankRinseMethods = group{[]string{"tank-rinse"}, []row{
	{EqualRinseVolume, Method{
		ID: "equal_rinse_volume", Formula: "V = W / n", Domain: "positive",
		Symbols: []Symbol{{"V", "rinse_volume", unit.KindVolume}, {"W", "rinse_water", unit.KindVolume}, {"n", "number_of_rinses", unit.KindNone}},
	}},
	{RinseDilution, Method{
		ID: "rinse_dilution", Formula: "c = c_0 * V_r / (V_r + V)", Domain: "rinse",
		Symbols: []Symbol{
			{"c", "share_left", unit.KindRatio}, {"c_0", "share_before", unit.KindRatio}, {"V_r", "stays_after_spraying", unit.KindVolume}, {"V", "rinse_volume", unit.KindVolume},
		},
	}},
	{EqualRinses, Method{
		ID: "equal_rinses", Formula: "c = (V_r / (V_r + W / n)) ^ n", Domain: "rinse",
		Symbols: []Symbol{
			{"c", "share_left", unit.KindRatio}, {"V_r", "stays_after_spraying", unit.KindVolume}, {"W", "rinse_water", unit.KindVolume}, {"n", "number_of_rinses", unit.KindNone},
		},
	}},
	{TotalRinseWater, Method{
		ID: "total_rinse_water", Formula: "W = sum(V_i)", Domain: "positive",
		Symbols: []Symbol{{"W", "rinse_water", unit.KindVolume}, {"V_i", "rinse_volume", unit.KindVolume}},
	}},
	{WaterForRinses, Method{
		ID: "water_for_rinses", Formula: "W = n * V_r * ((1 / c) ^ (1 / n) - 1)", Domain: "rinse",
		Symbols: []Symbol{
			{"W", "rinse_water", unit.KindVolume}, {"n", "number_of_rinses", unit.KindNone}, {"V_r", "stays_after_spraying", unit.KindVolume}, {"c", "share_left", unit.KindRatio},
		},
	}},
}}
