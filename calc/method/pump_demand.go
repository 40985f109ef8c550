package method

import "wetrun/calc/unit"

// pumpDemandMethods are those of pump demand.
var pumpDemandMethods = group{[]string{"pump-demand"}, []row{
	{GroupFlow, Method{
		ID: "group_flow", Formula: "Q = n * q", Domain: "positive",
		Symbols: []Symbol{{"Q", "spray_flow", unit.KindFlowRate}, {"n", "nozzles_of_kind", unit.KindNone}, {"q", "nozzle_flow", unit.KindFlowRate}},
	}},
	{SprayFlow, Method{
		ID: "spray_flow", Formula: "Q = sum(Q_i)", Domain: "positive",
		Symbols: []Symbol{{"Q", "spray_flow", unit.KindFlowRate}, {"Q_i", "group_flow", unit.KindFlowRate}},
	}},
	{AgitationFlow, Method{
		ID: "agitation_flow", Formula: "a = s * V / t", Domain: "positive",
		Symbols: []Symbol{
			{"a", "agitation_flow", unit.KindFlowRate}, {"s", "agitation_share", unit.KindRatio}, {"V", "tank_volume", unit.KindVolume},
			{"t", "one_minute", unit.KindTime},
		},
	}},
	{AgitationShare, Method{
		ID: "agitation_share", Formula: "s = a * t / V", Domain: "positive",
		Symbols: []Symbol{
			{"s", "agitation_share", unit.KindRatio}, {"a", "agitation_flow", unit.KindFlowRate}, {"t", "one_minute", unit.KindTime},
			{"V", "tank_volume", unit.KindVolume},
		},
	}},
	{ReserveFlow, Method{
		ID: "reserve_flow", Formula: "r = (Q + a) * e", Domain: "positive",
		Symbols: []Symbol{
			{"r", "reserve_flow", unit.KindFlowRate}, {"Q", "spray_flow", unit.KindFlowRate}, {"a", "agitation_flow", unit.KindFlowRate},
			{"e", "reserve", unit.KindRatio},
		},
	}},
	{PumpDemand, Method{
		ID: "pump_demand", Formula: "T = Q + a + r", Domain: "positive",
		Symbols: []Symbol{
			{"T", "pump_demand", unit.KindFlowRate}, {"Q", "spray_flow", unit.KindFlowRate}, {"a", "agitation_flow", unit.KindFlowRate},
			{"r", "reserve_flow", unit.KindFlowRate},
		},
	}},
	{SpareFlow, Method{
		ID: "spare_flow", Formula: "s = P - T", Domain: "positive",
		Symbols: []Symbol{{"s", "spare_flow", unit.KindFlowRate}, {"P", "pump_flow", unit.KindFlowRate}, {"T", "pump_demand", unit.KindFlowRate}},
	}},
	{WornPumpFlow, Method{
		ID: "worn_pump_flow", Formula: "P_w = P * (1 - u)", Domain: "positive", Source: sourcePump,
		Symbols: []Symbol{{"P_w", "worn_pump_flow", unit.KindFlowRate}, {"P", "pump_flow", unit.KindFlowRate}, {"u", "pump_wear", unit.KindRatio}},
	}},
	{LargestSprayFlow, Method{
		ID: "largest_spray_flow", Formula: "Q = max(P / (1 + e) - a, 0)", Domain: "positive",
		Symbols: []Symbol{
			{"Q", "spray_flow", unit.KindFlowRate}, {"P", "pump_flow", unit.KindFlowRate}, {"e", "reserve", unit.KindRatio},
			{"a", "agitation_flow", unit.KindFlowRate},
		},
	}},
	{BoomRate, Method{
		ID: "boom_rate", Formula: "R = Q / (v * W)", Domain: "positive", Source: sourceInFurrow,
		Symbols: []Symbol{
			{"R", "application_rate", unit.KindApplicationRate}, {"Q", "spray_flow", unit.KindFlowRate}, {"v", "ground_speed", unit.KindSpeed},
			{"W", "boom_width", unit.KindLength},
		},
	}},
}}
