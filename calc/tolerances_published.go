package calc

import "wetrun/calc/method"

// A publishedRule is an acceptance rule as its source prints it.
type publishedRule struct {
	name      string
	percent   float64
	appliesTo string
	basis     ToleranceBasis
	source    method.Source
}

// Sources that give more than one rule.
var (
	// A newspaper's report of an extension specialist.
	nebraska = method.Source{
		Title:     "Proper spraying requires precise testing, application (UNL)",
		Publisher: "Joplin Globe, reporting University of Nebraska-Lincoln extension",
		URL:       "http://www.joplinglobe.com/archives/proper-spraying-requires-precise-testing-application/article_a5caa9e8-7c8f-518a-8555-465fa4cf7364.html",
	}
	// Each nozzle against the average, and the whole rate against the target.
	sportsTurf = method.Source{
		Title:     "Calibration and safety of pesticide application equipment, SportsTurf September 2012",
		Publisher: "Sports Turf Managers Association", Year: 2012,
		URL: "http://read.dmtmag.com/i/82015/20",
	}
)

// More of them, each with two rules.
var (
	// More or less than the maker's rate or a new tip; two or more above it are a new set.
	berryGrower = method.Source{
		Title:     "Two keys to sprayer efficiency (pp. 16-17)",
		Publisher: "British Columbia Berry Grower", Year: 2010,
		URL: "https://content.yudu.com/Library/A1nx70/BritishColumbiaBerry/resources/17.htm",
	}
	// Against the mean of three new tips of the same model at the working pressure.
	esalq = method.Source{
		Title:     "Calibration of sprayers, producer series no. 61, p. 62",
		Publisher: "ESALQ, Universidade de São Paulo",
		URL:       "http://www.esalq.usp.br/cprural/flipbook/pb/pb61/assets/basic-html/page63.html",
	}
	// Both at once: either way from the mean, and above the original flow.
	castelar = method.Source{
		Title:     "Necesidad de picos pulverizadores aptos (summary of a work of 1987)",
		Publisher: "INTA Castelar, reprinted by a blog", Year: 1987,
		URL: "https://bioplagasargentina.blogspot.com/2017/07/necesidad-de-picos-pulverizadores-aptos.html",
	}
	// The variation of a row of cups, and each place where nozzles overlap.
	balcarce = method.Source{
		Title:     "Protocolo integral de verificación técnica de equipos pulverizadores (report on it)",
		Publisher: "Facultad de Ciencias Agrarias, Balcarce (UNMdP), reported by a farm news site",
		URL:       "https://bichosdecampo.com/la-facultad-de-ciencias-agrarias-de-balcarce-publico-un-protocolo-integral-de-verificacion-tecnica-de-equipos-pulverizadores",
	}
)

// publishedRules are 5 %, 7 %, 10 % and more, by source. The same figure from two sources is two
// rules, which a number at the end tells apart.
var publishedRules = [...]publishedRule{
	// Attributed there to two federal agencies; a newspaper's report.
	{"rate_5_of_target", 5, forRate, "", method.Source{
		Title:     "Take time to calibrate your sprayers (Ohio State University Extension)",
		Publisher: "The Daily Record, reporting Ohio State University Extension", Year: 2012,
		URL: "http://www.the-daily-record.com/news/20120417/take-time-to-calibrate-your-sprayers",
	}},
	{"output_10_of_rated", 10, forOutput, BasisRated, nebraska},
	{"output_5_of_mean", 5, forOutput, BasisMean, nebraska},
	{"output_5_of_mean_2", 5, forOutput, BasisMean, method.Source{
		Title:     "Sprayer Calibrations and Calculations (MontGuide)",
		Publisher: "Montana State University Extension Service" + method.SeenInCopy, Year: 2000,
		URL: "",
	}},
	{"output_5_of_mean_3", 5, forOutput, BasisMean, sportsTurf},
	{"rate_5_of_target_2", 5, forRate, "", sportsTurf},
	{"output_7_of_mean", 7, forOutput, BasisMean, method.Source{
		Title:     "Backpack and Hand-Held Sprayer Calibration, SportsTurf April 2014 pp. 36-38",
		Publisher: "Sports Turf Managers Association", Year: 2014,
		URL: "https://read.dmtmag.com/i/282941/37",
	}},
	{"output_10_of_mean", 10, forOutput, BasisMean, method.Source{
		Title:     "Forest Pest Control, Appendix: Sprayer Calibration",
		Publisher: "University of Georgia, College of Agricultural and Environmental Sciences", Year: 2002,
		URL: "https://www.bugwood.org/pestcontrol/appendix.html",
	}},
	// A study guide that quotes state material.
	{"output_10_of_mean_2", 10, forOutput, BasisMean, method.Source{
		Title:     "Florida pest control examinations study guide, p. 213",
		Publisher: "study guide for the Florida state examinations (publisher not shown)" + method.SeenInCopy, URL: "",
	}},
	{"output_10_of_others", 10, forOutput, BasisOthers, method.Source{
		Title:     "Steps To Accurate Sprayer Calibration",
		Publisher: "newspaper print of an extension column", Year: 2013,
		URL: "https://www.yalnews.com/2013/02/13/growin-green-80/",
	}},
	{"output_10_of_range", 10, forOutput, BasisRange, method.Source{
		Title:     "Take time to calibrate your sprayer: forage management",
		Publisher: "Texas Cooperative Extension, printed in Drovers",
		URL:       "http://www.cattlenetwork.com/drovers/departments/profit-tips/take-time-to-calibrate-your-sprayer-forage-management-113900829.html",
	}},
	{"output_10_of_range_2", 10, forOutput, BasisRange, method.Source{
		Title:     "Calibration of your Field Sprayers using Shortcut Methods (slides)",
		Publisher: "Montana State University Extension, Pesticide Education Program" + method.SeenInCopy,
		URL:       "",
	}},
	{"output_10_of_range_3", 10, forOutput, BasisRange, method.Source{
		Title:     "Calibration (aquatic herbicide spray boom and hand gun)",
		Publisher: "UF/IFAS Center for Aquatic and Invasive Plants",
		URL:       "http://plants.ifas.ufl.edu/manage/research-and-outreach/calibration",
	}},
	{"output_10_of_rated_new", 10, forOutput, BasisNewNozzle, method.Source{
		Title:     "The 10-Percent Rule",
		Publisher: "USGA Green Section, Central Region", Year: 2016,
		URL: "https://www.usga.org/content/usga/home-page/course-care/regional-updates/central-region/the-10-percent-rule.html",
	}},
	// Total output against what the rate needs, for an airblast sprayer: the same
	// share of the rate.
	{"rate_10_of_target", 10, forRate, "", method.Source{
		Title:     "Airblast Sprayer Calibration Worksheet (winegrapes)",
		Publisher: "Texas winegrape extension worksheet" + method.SeenInCopy, URL: "",
	}},
	{"output_5_of_rated", 5, forOutput, BasisRated, method.Source{
		Title:     "Made to measure (on the National Sprayer Testing Scheme, United Kingdom)",
		Publisher: "a farm trade magazine of the United Kingdom",
		URL:       "https://www.eioperator.com/?p=165701",
	}},
	{"output_5_of_rated_2", 5, forOutput, BasisRated, berryGrower},
	{"output_10_of_rated_new_2", 10, forOutput, BasisNewNozzle, esalq},
	{"replace_all_10", 10, forReplace, "", esalq},
	{"output_10_of_mean_3", 10, forOutput, BasisMean, castelar},
	{"output_15_above_rated", 15, forAboveRated, BasisRated, castelar},
	// What gives less than that is rejected as blocked; what gives more is called worn.
	{"output_5_below_mean", 5, forBelowMean, BasisMean, method.Source{
		Title:     "Doppen veldspuit wijken vaak af",
		Publisher: "Groenten & Fruit (Schoon Water project)", Year: 2010,
		URL: "https://www.gfactueel.nl/Vollegrond/Nieuws/2010/10/Doppen-veldspuit-wijken-vaak-af-GFA137273W/",
	}},
	// The fall from one end of a spray line to the other.
	{"pressure_10_of_mean", 10, forPressure, "", method.Source{
		Title:     "Getting prepped for the sprayer test (Irish inspection)",
		Publisher: "Agriland, with an approved equipment inspector",
		URL:       "https://agriland.co.uk/farming-news/machinery-focus-getting-prepped-for-the-sprayer-test",
	}},
	// From 3 bar to no less than 2.7 bar at the end of the boom.
	{"pressure_10_of_mean_2", 10, forPressure, "", method.Source{
		Title:     "Revista del Plan Agropecuario no. 162, p. 57",
		Publisher: "Instituto Plan Agropecuario, Uruguay",
		URL:       "https://www.planagropecuario.org.uy/publicaciones/revista/Revista_on_line/Revista_162/files/assets/basic-html/page59.html",
	}},
	{"pattern_variation", 10, forPattern, "", balcarce},
	{"pattern_place", 20, forPlace, "", balcarce},
}
