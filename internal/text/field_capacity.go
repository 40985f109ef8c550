package text

var fieldCapacity = []entry{
	{"problem.over_100_percent", "This is a share of a whole, so it may be at most 100 %, which is 1.", ""},
	{"warning.unusual_width", "This width is unusual for a field sprayer: it is outside 0.5 to 60 m, which is 1.6 to 197 ft. Check the value and its unit.", ""},
	{"warning.unusual_efficiency", "This efficiency is unusual for a field sprayer, which is seldom outside 40 to 95 %. Turns, overlap and stops always take a part.", ""},
	{"warning.efficiency_counts_refills", "No fieldEfficiency is given, and the one used instead has common refills in it already. With refillTime they count twice. Give the efficiency without refills.", ""},
	{"warning.application_rate_unused", "applicationRate changes nothing here, because neither tankVolume nor fieldArea is given.", ""},
}
