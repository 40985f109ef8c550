package calc

// A publishedRule is an acceptance rule as its source prints it.
type publishedRule struct {
	name      string
	percent   float64
	appliesTo string
	basis     ToleranceBasis
	source    ToleranceSource
}

// copyOnly stands behind the publisher of what no page of its own was found for.
const copyOnly = " (seen in a copy only)"

// Sources that give more than one rule.
var (
	// A newspaper's report of an extension specialist.
	nebraska = ToleranceSource{
		"Proper spraying requires precise testing, application (UNL)",
		"Joplin Globe, reporting University of Nebraska-Lincoln extension", 0,
		"http://www.joplinglobe.com/archives/proper-spraying-requires-precise-testing-application/article_a5caa9e8-7c8f-518a-8555-465fa4cf7364.html",
	}
	// Each nozzle against the average, and the whole rate against the target.
	sportsTurf = ToleranceSource{
		"Calibration and safety of pesticide application equipment, SportsTurf September 2012",
		"Sports Turf Managers Association", 2012, "http://read.dmtmag.com/i/82015/20",
	}
)

// publishedRules are 5 %, 7 % and 10 %, by source. The same figure from two sources is two
// rules, which a number at the end tells apart.
var publishedRules = [...]publishedRule{
	// Attributed there to two federal agencies; a newspaper's report.
	{"rate_5_of_target", 5, forRate, "", ToleranceSource{
		"Take time to calibrate your sprayers (Ohio State University Extension)",
		"The Daily Record, reporting Ohio State University Extension", 2012,
		"http://www.the-daily-record.com/news/20120417/take-time-to-calibrate-your-sprayers",
	}},
	{"output_10_of_rated", 10, forOutput, BasisRated, nebraska},
	{"output_5_of_mean", 5, forOutput, BasisMean, nebraska},
	{"output_5_of_mean_2", 5, forOutput, BasisMean, ToleranceSource{
		"Sprayer Calibrations and Calculations (MontGuide)",
		"Montana State University Extension Service" + copyOnly, 2000, "",
	}},
	{"output_5_of_mean_3", 5, forOutput, BasisMean, sportsTurf},
	{"rate_5_of_target_2", 5, forRate, "", sportsTurf},
	{"output_7_of_mean", 7, forOutput, BasisMean, ToleranceSource{
		"Backpack and Hand-Held Sprayer Calibration, SportsTurf April 2014 pp. 36-38",
		"Sports Turf Managers Association", 2014, "https://read.dmtmag.com/i/282941/37",
	}},
	{"output_10_of_mean", 10, forOutput, BasisMean, ToleranceSource{
		"Forest Pest Control, Appendix: Sprayer Calibration",
		"University of Georgia, College of Agricultural and Environmental Sciences", 2002, "https://www.bugwood.org/pestcontrol/appendix.html",
	}},
	// A study guide that quotes state material.
	{"output_10_of_mean_2", 10, forOutput, BasisMean, ToleranceSource{
		"Florida pest control examinations study guide, p. 213",
		"study guide for the Florida state examinations (publisher not shown)" + copyOnly, 0, "",
	}},
	{"output_10_of_others", 10, forOutput, BasisOthers, ToleranceSource{
		"Steps To Accurate Sprayer Calibration",
		"newspaper print of an extension column", 2013, "https://www.yalnews.com/2013/02/13/growin-green-80/",
	}},
	{"output_10_of_range", 10, forOutput, BasisRange, ToleranceSource{
		"Take time to calibrate your sprayer: forage management",
		"Texas Cooperative Extension, printed in Drovers", 0,
		"http://www.cattlenetwork.com/drovers/departments/profit-tips/take-time-to-calibrate-your-sprayer-forage-management-113900829.html",
	}},
	{"output_10_of_range_2", 10, forOutput, BasisRange, ToleranceSource{
		"Calibration of your Field Sprayers using Shortcut Methods (slides)",
		"Montana State University Extension, Pesticide Education Program" + copyOnly, 0, "",
	}},
	{"output_10_of_range_3", 10, forOutput, BasisRange, ToleranceSource{
		"Calibration (aquatic herbicide spray boom and hand gun)",
		"UF/IFAS Center for Aquatic and Invasive Plants", 0, "http://plants.ifas.ufl.edu/manage/research-and-outreach/calibration",
	}},
	{"output_10_of_rated_new", 10, forOutput, BasisNewNozzle, ToleranceSource{
		"The 10-Percent Rule",
		"USGA Green Section, Central Region", 2016,
		"https://www.usga.org/content/usga/home-page/course-care/regional-updates/central-region/the-10-percent-rule.html",
	}},
	// Total output against what the rate needs, for an airblast sprayer: the same
	// share of the rate.
	{"rate_10_of_target", 10, forRate, "", ToleranceSource{
		"Airblast Sprayer Calibration Worksheet (winegrapes)",
		"Texas winegrape extension worksheet" + copyOnly, 0, "",
	}},
}
