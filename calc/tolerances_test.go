package calc_test

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// TestReferenceCommonTolerances: common practice, no published source.
func TestReferenceCommonTolerances(t *testing.T) {
	want := map[string]struct {
		value     float64
		in        unit.ID
		isDefault bool
	}{
		"pressure_readings": {10, unit.IDPsi, true},
		"nozzle_output":     {10, unit.IDPct, true},
		"replace_all":       {25, unit.IDPct, true},
		"application_rate":  {10, unit.IDPct, true},
		"run_spread":        {5, unit.IDPct, true},
		"nozzle_wear":       {10, unit.IDPct, true},
		"course_length":     {100, unit.IDFt, false},
		"catch_time":        {30, unit.IDS, false},
		"field_efficiency":  {65, unit.IDPct, true}, // a rule of thumb
		"agitation":         {5, unit.IDPct, true},  // a rule of thumb
		"pump_reserve":      {20, unit.IDPct, true}, // a rule of thumb
		"meter_error":       {5, unit.IDPct, false}, // a rule of thumb
		// Errors of instruments and repeats: own judgement, but the jug's, which is published,
		// and the stopwatch's display.
		"stopwatch_resolution": {0.01, unit.IDS, true}, "stopwatch_scale_error": {0.01, unit.IDPct, true}, "reaction_time": {0.2, unit.IDS, true},
		"tape_resolution": {1, unit.IDCm, true}, "tape_scale_error": {0.1, unit.IDPct, true},
		"jug_resolution": {10, unit.IDML, true}, "gauge_resolution": {0.1, unit.IDBar, true}, "gauge_scale_error": {5, unit.IDPct, true},
		"runs_repeatability": {1.5, unit.IDPct, true}, "catches_repeatability": {4, unit.IDPct, true},
	}
	judged := []string{
		"stopwatch_scale_error", "reaction_time", "tape_resolution", "tape_scale_error", "jug_resolution",
		"gauge_resolution", "gauge_scale_error", "runs_repeatability", "catches_repeatability",
	}
	for _, x := range calc.Tolerances() {
		if x.Source.Published() {
			continue
		}
		w, ok := want[x.Name]
		if !ok || x.Unit != w.in || x.Default != w.isDefault || x.Source != (method.Source{}) {
			t.Errorf("%+v, want %+v", x, w)
		}
		if x.OwnJudgement != slices.Contains(judged, x.Name) || x.OwnJudgement && x.RuleOfThumb {
			t.Errorf("%s: own judgement is %v, a rule of thumb %v", x.Name, x.OwnJudgement, x.RuleOfThumb)
		}
		agrees(t, x.Name, x.Value/x.Unit.Factor(), w.value, 1e-12)
		delete(want, x.Name)
	}
	if len(want) > 0 {
		t.Errorf("not listed: %v", want)
	}
}

// TestPublishedTolerances: the share that each source prints, by its publisher and
// title; the sources stand in the table itself, one by one.
func TestPublishedTolerances(t *testing.T) {
	want := map[string]float64{ // %, by publisher, basis and start of the title
		"The Daily Record, reporting Ohio State University Extension| Take time":                                     5,
		"Joplin Globe, reporting University of Nebraska-Lincoln extension|rated Proper":                              10,
		"Joplin Globe, reporting University of Nebraska-Lincoln extension|mean Proper":                               5,
		"Montana State University Extension Service (seen in a copy only)|mean Sprayer Calibrations":                 5,
		"Sports Turf Managers Association|mean Calibration and":                                                      5,
		"Sports Turf Managers Association| Calibration and":                                                          5,
		"Sports Turf Managers Association|mean Backpack":                                                             7,
		"University of Georgia, College of Agricultural and Environmental Sciences|mean For":                         10,
		"study guide for the Florida state examinations (publisher not shown) (seen in a copy only)|mean Florida":    10,
		"newspaper print of an extension column|others Steps":                                                        10,
		"Texas Cooperative Extension, printed in Drovers|range Take time":                                            10,
		"Montana State University Extension, Pesticide Education Program (seen in a copy only)|range Calibration of": 10,
		"UF/IFAS Center for Aquatic and Invasive Plants|range Calibration":                                           10,
		"USGA Green Section, Central Region|new_nozzle The 10-Percent":                                               10,
		"Texas winegrape extension worksheet (seen in a copy only)| Airblast":                                        10,
		"National Sprayer Testing Scheme (United Kingdom), in a trade magazine| On testing":                          1,
		"a farm trade magazine of the United Kingdom|rated Made to measure":                                          5,
		"British Columbia Berry Grower|rated Two keys":                                                               5,
		"ESALQ, Universidade de São Paulo|new_nozzle Calibration":                                                    10,
		"ESALQ, Universidade de São Paulo| Calibration":                                                              10,
		"INTA Castelar, reprinted by a blog|mean Necesidad":                                                          10,
		"INTA Castelar, reprinted by a blog|rated Necesidad":                                                         15,
		"Groenten & Fruit (Schoon Water project)|mean Doppen":                                                        5,
		"Agriland, with an approved equipment inspector| Getting prepped":                                            10,
		"Instituto Plan Agropecuario, Uruguay| Revista":                                                              10,
		"Facultad de Ciencias Agrarias, Balcarce (UNMdP), reported by a farm news site|variation Protocolo":          10,
		"Facultad de Ciencias Agrarias, Balcarce (UNMdP), reported by a farm news site|place Protocolo":              20,
		"British Columbia Berry Grower| Two keys":                                                                    200, // two nozzles
	}
	names := map[string]bool{}
	for _, x := range calc.Tolerances() {
		if names[x.Name] {
			t.Errorf("two presets are called %s", x.Name)
		}
		names[x.Name] = true
		if strings.Contains(x.Name, "iso") || strings.Contains(x.Name, "asabe") || strings.Contains(x.Name, "astm") {
			t.Errorf("%s carries the name of a standard", x.Name)
		}
		if !x.Source.Published() {
			continue
		}
		copied := strings.HasSuffix(x.Source.Publisher, "(seen in a copy only)")
		if u, err := url.Parse(x.Source.URL); err != nil || (u.Host == "") != copied {
			t.Errorf("%s: its source is at %q, seen in a copy only: %v", x.Name, x.Source.URL, copied)
		}
		for _, institution := range []string{"state", "usga", "turf", "nebraska", "georgia", "florida", "texas"} {
			if strings.Contains(x.Name, institution) {
				t.Errorf("%s carries the name of an institution", x.Name)
			}
		}
		found := false
		for key, percent := range want {
			if strings.HasPrefix(x.Source.Publisher+"|"+ofWhat(x)+" "+x.Source.Title, key) {
				agrees(t, x.Name, x.Value/unit.IDPct.Factor(), percent, 1e-12)
				delete(want, key)
				found = true
			}
		}
		if !found || x.Unit != unit.IDPct && x.Name != "replace_all_from_2" || x.Default != (x.Name == "jug_scale_error") {
			t.Errorf("%+v is not what a source prints", x)
		}
	}
	if len(want) > 0 {
		t.Errorf("not listed: %v", want)
	}
}

// ofWhat tells rules of one source apart: by their basis, or by what of a pattern they are.
func ofWhat(x calc.Tolerance) string {
	if part, ok := strings.CutPrefix(x.Name, "pattern_"); ok {
		return part
	}
	return string(x.Basis)
}

// TestPublishedYears: the years that the sources show, in the order of the list; 0
// where one shows none.
func TestPublishedYears(t *testing.T) {
	want := []string{
		"The Daily Record 2012", "Joplin Globe 0", "Joplin Globe 0", "Montana State University Extension Service (seen in a copy only) 2000",
		"Sports Turf Managers Association 2012", "Sports Turf Managers Association 2012", "Sports Turf Managers Association 2014",
		"University of Georgia 2002", "study guide for the Florida state examinations (publisher not shown) (seen in a copy only) 0",
		"newspaper print of an extension column 2013", "Texas Cooperative Extension 0", "Montana State University Extension 0",
		"UF/IFAS Center for Aquatic and Invasive Plants 0", "USGA Green Section 2016", "Texas winegrape extension worksheet (seen in a copy only) 0",
		"a farm trade magazine of the United Kingdom 0", "British Columbia Berry Grower 2010", "ESALQ 0", "ESALQ 0",
		"INTA Castelar 1987", "INTA Castelar 1987", "Groenten & Fruit (Schoon Water project) 2010", "Agriland 0", "Instituto Plan Agropecuario 0",
		"Facultad de Ciencias Agrarias 0", "Facultad de Ciencias Agrarias 0", "British Columbia Berry Grower 2010",
	}
	var got []string
	for _, x := range calc.Tolerances() {
		if x.Source.Published() && !x.Default && x.Source.Title != "" {
			publisher, _, _ := strings.Cut(x.Source.Publisher, ",")
			got = append(got, fmt.Sprint(publisher, " ", x.Source.Year))
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%q, want\n%q", got, want)
	}
}

// TestPublishedNozzleSizeYears: of the sources of nozzle sizes one shows its year.
func TestPublishedNozzleSizeYears(t *testing.T) {
	for _, x := range calc.NozzleSizeSources() {
		want := 0
		if strings.Contains(x.Publisher, "Arizona") {
			want = 2012
		}
		if x.Year != want {
			t.Errorf("%s: %d, want %d", x.Title, x.Year, want)
		}
	}
}
