package method

import "wetrun/calc/unit"

// tankLoadsMethods are those of tank loads.
var tankLoadsMethods = group{[]string{"tank-loads"}, []row{
	{TreatedAreaOfField, Method{
		ID: "treated_area_of_field", Formula: "A = F * W / b", Domain: "positive", Source: sourceFumigant,
		Symbols: []Symbol{
			{"A", "treated_area", unit.KindArea}, {"F", "field_area", unit.KindArea}, {"W", "treated_width", unit.KindLength},
			{"b", "row_spacing", unit.KindLength},
		},
	}},
	{FieldAreaOfTreated, Method{
		ID: "field_area_of_treated", Formula: "F = A * b / W", Domain: "positive", Source: sourceFumigant,
		Symbols: []Symbol{
			{"F", "field_area", unit.KindArea}, {"A", "treated_area", unit.KindArea}, {"b", "row_spacing", unit.KindLength},
			{"W", "treated_width", unit.KindLength},
		},
	}},
	{MixedVolume, Method{
		ID: "mixed_volume", Formula: "M = V + r", Domain: "positive",
		Symbols: []Symbol{{"M", "mixed_volume", unit.KindVolume}, {"V", "spray_volume", unit.KindVolume}, {"r", "residual_volume", unit.KindVolume}},
	}},
	{Tankfuls, Method{
		ID: "tankfuls", Formula: "n = M / U", Domain: "positive", Source: sourceMontana,
		Symbols: []Symbol{{"n", "tankfuls", unit.KindNone}, {"M", "mixed_volume", unit.KindVolume}, {"U", "usable_volume", unit.KindVolume}},
	}},
	{PartLoad, Method{
		ID: "part_load", Formula: "V = M - n * U", Domain: "positive",
		Symbols: []Symbol{
			{"V", "load_volume", unit.KindVolume}, {"M", "mixed_volume", unit.KindVolume}, {"n", "full_loads", unit.KindNone},
			{"U", "usable_volume", unit.KindVolume},
		},
	}},
	{EqualLoad, Method{
		ID: "equal_load", Formula: "V = M / n", Domain: "positive",
		Symbols: []Symbol{{"V", "load_volume", unit.KindVolume}, {"M", "mixed_volume", unit.KindVolume}, {"n", "loads", unit.KindNone}},
	}},
	{AreaAfterLines, Method{
		ID: "area_after_lines", Formula: "A = (V - r) / R", Domain: "positive",
		Symbols: []Symbol{
			{"A", "treated_area", unit.KindArea}, {"V", "load_volume", unit.KindVolume}, {"r", "residual_volume", unit.KindVolume},
			{"R", "application_rate", unit.KindApplicationRate},
		},
	}},
	{ProductOfIngredient, Method{
		ID: "product_of_ingredient", Formula: "P = a / c", Domain: "positive", Source: sourceMissouri,
		Symbols: []Symbol{
			{"P", "product_rate", unit.KindNone}, {"a", "ingredient_rate", unit.KindMassRate}, {"c", "ingredient_content", unit.KindNone},
		},
	}},
	{RateOnBasis, Method{
		ID: "rate_on_basis", Formula: "R_b = R * W / b", Domain: "positive", Source: sourceFumigant,
		Symbols: []Symbol{
			{"R_b", "rate_on_basis", unit.KindApplicationRate}, {"R", "application_rate", unit.KindApplicationRate},
			{"W", "treated_width", unit.KindLength}, {"b", "row_spacing", unit.KindLength},
		},
	}},
	{ProductInVolume, Method{
		ID: "product_in_volume", Formula: "m = P * V / R", Domain: "positive", Source: sourceMontana,
		Symbols: []Symbol{
			{"m", "product_amount", unit.KindNone}, {"P", "product_rate", unit.KindNone}, {"V", "load_volume", unit.KindVolume},
			{"R", "rate_on_basis", unit.KindApplicationRate},
		},
	}},
	{ConcentrateInVolume, Method{
		ID: "concentrate_in_volume", Formula: "m = c * V", Domain: "positive",
		Symbols: []Symbol{{"m", "product_amount", unit.KindNone}, {"c", "concentration", unit.KindNone}, {"V", "load_volume", unit.KindVolume}},
	}},
	{ProductRateApplied, Method{
		ID: "product_rate_applied", Formula: "P_a = P * R_a / R", Domain: "positive",
		Symbols: []Symbol{
			{"P_a", "product_rate_applied", unit.KindNone}, {"P", "product_rate", unit.KindNone},
			{"R_a", "rate_compared", unit.KindApplicationRate}, {"R", "rate_mixed_for", unit.KindApplicationRate},
		},
	}},
	{ConcentrateRate, Method{
		ID: "concentrate_rate", Formula: "P_a = c * R_a", Domain: "positive",
		Symbols: []Symbol{
			{"P_a", "product_rate_applied", unit.KindNone}, {"c", "concentration", unit.KindNone},
			{"R_a", "rate_compared", unit.KindApplicationRate},
		},
	}},
	{CarrierWater, Method{
		ID: "carrier_water", Formula: "w = V - sum(m_i)", Domain: "liquid_products",
		Symbols: []Symbol{{"w", "carrier_water", unit.KindVolume}, {"V", "load_volume", unit.KindVolume}, {"m_i", "liquid_product", unit.KindVolume}},
	}},
}}
