package calc

import "wetrun/calc/unit"

// pumpDemandMethods are those of pump demand.
var pumpDemandMethods = []methodRow{
	{MethodGroupFlow, Method{
		ID: "group_flow", Formula: "Q = n * q", Domain: "positive",
		Symbols:    []MethodSymbol{{"Q", "spray_flow", unit.KindFlowRate}, {"n", "nozzles_of_kind", unit.KindNone}, {"q", "nozzle_flow", unit.KindFlowRate}},
		Operations: []string{"pump-demand"},
	}},
	{MethodSprayFlow, Method{
		ID: "spray_flow", Formula: "Q = sum(Q_i)", Domain: "positive",
		Symbols:    []MethodSymbol{{"Q", "spray_flow", unit.KindFlowRate}, {"Q_i", "group_flow", unit.KindFlowRate}},
		Operations: []string{"pump-demand"},
	}},
	{MethodAgitationFlow, Method{
		ID: "agitation_flow", Formula: "a = s * V / t", Domain: "positive",
		Symbols: []MethodSymbol{
			{"a", "agitation_flow", unit.KindFlowRate}, {"s", "agitation_share", unit.KindRatio}, {"V", "tank_volume", unit.KindVolume},
			{"t", "one_minute", unit.KindTime},
		},
		Operations: []string{"pump-demand"},
	}},
	{MethodAgitationShare, Method{
		ID: "agitation_share", Formula: "s = a * t / V", Domain: "positive",
		Symbols: []MethodSymbol{
			{"s", "agitation_share", unit.KindRatio}, {"a", "agitation_flow", unit.KindFlowRate}, {"t", "one_minute", unit.KindTime},
			{"V", "tank_volume", unit.KindVolume},
		},
		Operations: []string{"pump-demand"},
	}},
	{MethodReserveFlow, Method{
		ID: "reserve_flow", Formula: "r = (Q + a) * e", Domain: "positive",
		Symbols: []MethodSymbol{
			{"r", "reserve_flow", unit.KindFlowRate}, {"Q", "spray_flow", unit.KindFlowRate}, {"a", "agitation_flow", unit.KindFlowRate},
			{"e", "reserve", unit.KindRatio},
		},
		Operations: []string{"pump-demand"},
	}},
	{MethodPumpDemand, Method{
		ID: "pump_demand", Formula: "T = Q + a + r", Domain: "positive",
		Symbols: []MethodSymbol{
			{"T", "pump_demand", unit.KindFlowRate}, {"Q", "spray_flow", unit.KindFlowRate}, {"a", "agitation_flow", unit.KindFlowRate},
			{"r", "reserve_flow", unit.KindFlowRate},
		},
		Operations: []string{"pump-demand"},
	}},
	{MethodSpareFlow, Method{
		ID: "spare_flow", Formula: "s = P - T", Domain: "positive",
		Symbols:    []MethodSymbol{{"s", "spare_flow", unit.KindFlowRate}, {"P", "pump_flow", unit.KindFlowRate}, {"T", "pump_demand", unit.KindFlowRate}},
		Operations: []string{"pump-demand"},
	}},
	{MethodWornPumpFlow, Method{
		ID: "worn_pump_flow", Formula: "P_w = P * (1 - u)", Domain: "positive", Source: sourcePump,
		Symbols:    []MethodSymbol{{"P_w", "worn_pump_flow", unit.KindFlowRate}, {"P", "pump_flow", unit.KindFlowRate}, {"u", "pump_wear", unit.KindRatio}},
		Operations: []string{"pump-demand"},
	}},
	{MethodLargestSprayFlow, Method{
		ID: "largest_spray_flow", Formula: "Q = max(P / (1 + e) - a, 0)", Domain: "positive",
		Symbols: []MethodSymbol{
			{"Q", "spray_flow", unit.KindFlowRate}, {"P", "pump_flow", unit.KindFlowRate}, {"e", "reserve", unit.KindRatio},
			{"a", "agitation_flow", unit.KindFlowRate},
		},
		Operations: []string{"pump-demand"},
	}},
	{MethodBoomRate, Method{
		ID: "boom_rate", Formula: "R = Q / (v * W)", Domain: "positive", Source: sourceInFurrow,
		Symbols: []MethodSymbol{
			{"R", "application_rate", unit.KindApplicationRate}, {"Q", "spray_flow", unit.KindFlowRate}, {"v", "ground_speed", unit.KindSpeed},
			{"W", "boom_width", unit.KindLength},
		},
		Operations: []string{"pump-demand"},
	}},
}
