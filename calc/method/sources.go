package method

// A Source says where a formula or a figure is from. The zero one stands for common
// practice, of which no published source is known.
type Source struct {
	Title, Publisher string
	Year             int // 0 when the source shows none
	URL              string
}

// SeenInCopy stands behind the publisher of what no page of its own was found for.
const SeenInCopy = " (seen in a copy only)"

// Published tells a published source from common practice.
func (s Source) Published() bool { return s.Title != "" }

// The sources of methods that more than one of them has. Those of the worked examples
// in testdata/published are the same.
var (
	// mph = ft x 60 / (s x 88)
	sourceOklahoma = Source{
		Title: "Sprayer calibration (turf fact sheet)", Publisher: "Oklahoma State University, Turf program",
		URL: "http://www.turf.okstate.edu/FactSheets/sprayer.htm",
	}
	// GPA = 5940 x GPM / (mph x in)
	sourceInFurrow = Source{
		Title: "Calibration of In-Furrow Sprays", Publisher: "Mississippi State University Extension", Year: 2020,
		URL: "https://www.mississippi-crops.com/2020/05/02/calibration-of-in-furrow-sprays/",
	}
	// treated fraction = bed width / row spacing
	sourceFumigant = Source{
		Title: "Proper Calibration of Soil Fumigant Application Equipment", Publisher: "UF/IFAS Extension", Year: 2012,
		URL: "http://edis.ifas.ufl.edu/in404",
	}
	// Q1 / Q2 = sqrt(p1 / p2)
	sourcePressureLaw = Source{
		Title: "Izracun doze i koncentracije", Publisher: "Croatian advisory sheet" + SeenInCopy,
	}
	// conversion factor sqrt(SG), SG = lb per gal / 8.34
	sourceNonWater = Source{
		Title: "Setting the Sprayer Flow Rate for Non-Water Solutions", Publisher: "University of Nebraska-Lincoln, CropWatch", Year: 2016,
		URL: "https://cropwatch.unl.edu/2016/setting-sprayer-flow-rate-non-water-solutions",
	}
	// GPM = oz per min / 128
	sourceCatch = Source{
		Title: "Calibrating your sprayer", Publisher: "Albany County (WY) Weed and Pest District",
		URL: "http://albanycountyweedandpest.com/calibrating-your-sprayer.html",
	}
	// refill volume over the area treated
	sourceRefill = Source{
		Title: "Refill Method for Boom Sprayer Calibration", Publisher: "Mesa County (CO) Weed and Pest",
		URL: "https://www.mesacounty.us/pest/controlling-weeds/sprayer-calibration-methods/refill-method-for-boom-sprayer-calibration/",
	}
	// 43,560 / width / 128; area per tank = tank / rate
	sourceMississippi = Source{
		Title: "Can you tell me about sprayer calibration?", Publisher: "Mississippi State University Extension",
		URL: "http://extension.msstate.edu/content/can-you-tell-me-about-sprayer-calibration",
	}
	// exact factors
	sourceHandbook44 = Source{Title: "NIST Handbook 44, Appendix C", Publisher: "National Institute of Standards and Technology"}
	// acres per tank = tank / rate, product per tank = that x dose
	sourceMontana = Source{
		Title: "Sprayer Calibrations and Calculations (MontGuide MT 2000-14)", Publisher: "Montana State University Extension Service" + SeenInCopy, Year: 2000,
	}
	// product by active ingredient = rate / content
	sourceMissouri = Source{
		Title: "Get the recipe right (figures as in MU guide G1272)", Publisher: "Corn and Soybean Digest, reporting University of Missouri",
		URL: "http://cornandsoybeandigest.com/print/get-recipe-right",
	}
	// a pump may be 10 % below its rating
	sourcePump = Source{
		Title: "Kontrola prskalica pred sezonu", Publisher: "Serbian advisory service",
		URL: "https://www.poljoprivrednik.net/poljoprivreda/poljoprivredna-tehnika/5871-kontrola-prskalica-pred-sezonu",
	}
	// a tenth too much at 25 dollars an acre is 2.50 dollars an acre
	sourceIllinois = Source{
		Title: "60 Ways Farmers Can Protect Surface Water, no. 55", Publisher: "University of Illinois",
		URL: "http://thisland.illinois.edu/60ways/60ways_55.html",
	}
)
