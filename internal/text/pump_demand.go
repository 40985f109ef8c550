package text

var pumpDemand = []entry{
	{"warning.agitation_not_counted", "No agitation is counted. That is right only where the pump does not stir the tank; otherwise give tankVolume or agitationFlowRate.", ""},
	{"warning.unusual_agitation", "This agitation is unusual for a field sprayer: it is outside 1 to 20 % of the tank a minute. Check the flow, the share and the tank, and their units.", ""},
	{"warning.unusual_reserve", "A reserve of more than 100 % is unusual. It is a share on top of spray and agitation.", ""},
	{"warning.short_when_worn", "The pump is enough as rated, but not when it has lost 10 % of its rating, which a used pump may have. Have its flow measured.", ""},
	{"next.reduce_pump_demand", "The pump is too small for this. Use fewer or smaller nozzles, a lower pressure that their maker allows, or a larger pump. Do not take it from the agitation that the product needs.", ""},
	{"caution.pump_at_pressure", "A pump gives less as pressure rises and the shaft slows. Count with its flow at the working pressure and shaft speed, not with the largest that its plate shows.", ""},
	{"caution.worn_pump", "A worn pump gives less than its rating. One published inspection page lets a pump pass until it is more than 10 % below. Have its flow measured before you rely on a small spare.", ""},
}
