package text

// tolerances say of each preset what it means: tolerance.<name>.
var tolerances = []entry{
	{"tolerance.pressure_readings", "All pressure readings at the boom lie within this of each other."},
	{"tolerance.nozzle_output", "Each nozzle gives its maker's flow at the working pressure, within this either way. Without a rating the same share counts from the mean of the catches."},
	{"tolerance.replace_all", "When more than this share of the nozzles that were tested is outside, replace all of them."},
	{"tolerance.application_rate", "The rate lies within this of the target, either way. A label maximum has no tolerance."},
	{"tolerance.run_spread", "Timed runs are repeatable when the fastest is above the slowest by no more than this share of the ground speed."},
	{"tolerance.course_length", "A course that is long enough to time with a stopwatch. It is measured, so there is no default."},
	{"tolerance.catch_time", "How long to catch. It is measured, so there is no default."},
	{"tolerance.field_efficiency", "The share of speed times width that a field sprayer really covers, with turns, overlap and common refills taken off. From memory, no source was read: take your own records where you have them."},
	{"tolerance.agitation", "The share of the tank that flows back in every minute to stir it. From memory, no source was read: take the figure of the tank's or agitator's maker where there is one."},
	{"tolerance.pump_reserve", "What a pump should be able to give on top of spray and agitation, for wear and hoses. From memory, no source was read."},
	{"tolerance.meter_error", "The error of a flow meter or a speed sensor, and the spread of its readings. From memory of what inspections allow; no text was read."},

	{"tolerance.rate_5_ohio_state", "The rate against the label's rate, as a newspaper reports an extension specialist, who names two federal agencies for it."},
	{"tolerance.output_rated_10_nebraska", "Each nozzle against its maker's flow, as a newspaper reports an extension specialist. The first half of a rule of two."},
	{"tolerance.output_mean_5_nebraska", "Each nozzle against the mean of all, as a newspaper reports an extension specialist. The second half of a rule of two; replace what is outside."},
	{"tolerance.output_mean_5_montana_state", "Each nozzle against the mean of all; clean or replace what is outside. Read in a re-upload."},
	{"tolerance.output_mean_5_idaho", "Each nozzle against the mean of all. The source says less than 5 %; a nozzle exactly on the limit passes here. Read in a mirror."},
	{"tolerance.output_mean_5_sports_turf", "Each nozzle against the mean of all. The same source calls 5 to 10 % typical on its worksheet."},
	{"tolerance.rate_5_sports_turf", "The whole rate against the target, from the same source as output_mean_5_sports_turf."},
	{"tolerance.output_mean_7_sports_turf", "Each nozzle against the mean of all, for backpack and hand-held sprayers."},
	{"tolerance.output_mean_10_georgia", "Each nozzle against the mean of all."},
	{"tolerance.output_mean_10_florida_study_guide", "Each nozzle against the mean of all; replace what is outside. From a study guide that quotes state material."},
	{"tolerance.output_others_10_extension_column", "Each nozzle against the other nozzles. With the basis mean it comes out nearly the same, because a nozzle is part of its own mean."},
	{"tolerance.output_range_10_texas", "The highest nozzle less the lowest. It is not a distance from the mean: half of it with the basis mean is never more lenient."},
	{"tolerance.output_range_10_montana_state", "The highest nozzle less the lowest. It is not a distance from the mean: half of it with the basis mean is never more lenient. Read in a copy of slides."},
	{"tolerance.output_range_10_florida", "The difference between nozzles; beyond it check hoses or change orifices. It is not a distance from the mean: half of it with the basis mean is never more lenient."},
	{"tolerance.output_new_nozzle_10_usga", "A used nozzle against a new one of its kind. Catch the new one and give it as the rated flow and pressure, with the basis rated. Below the limit clean first; above it the nozzle is worn."},
	{"tolerance.rate_10_texas_winegrapes", "The output of an airblast sprayer against what the rate needs; beyond it change the nozzles. Output and rate deviate by the same share. Read in a re-upload."},
}
