package calc_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestPublishedSizesAt2Bar: L/min at 2 bar of sizes rated at 3 bar, and the rate
// at 6 km/h with a nozzle each half metre (implied by the table, not printed).
// Spuitdoppen: het bos en de bomen, ILVO (Flemish inspection service),
// https://keuringspuittoestellen.ilvo.vlaanderen.be/nl/documenten/spuitdoppen-het-bos-en-de-bomen
func TestPublishedSizesAt2Bar(t *testing.T) {
	for _, c := range []struct {
		size       string
		flow, rate float64 // zero where not printed
	}{
		{"01", 0.33, 0}, {"015", 0.49, 98}, {"02", 0, 131}, {"025", 0.82, 0}, {"03", 0.98, 196},
		{"04", 0, 261}, {"05", 1.63, 327}, {"06", 1.96, 0},
	} {
		q := calc.Nozzle{Size: calc.SizeName(c.size)}.FlowAt(2 * unit.Bar)
		if c.flow != 0 {
			printedAs(t, "flow of "+c.size, q.In(unit.LitrePerMinute), c.flow, 2)
		}
		if c.rate != 0 {
			rate := float64(q) / float64(6*unit.KilometrePerHour) / float64(0.5*unit.Metre)
			printedAs(t, "rate of "+c.size, unit.ApplicationRate(rate).In(unit.LitrePerHectare), c.rate, 0)
		}
	}
}

// TestPublishedSizesAt40PSI: a size is tenths of a US gal/min at 40 psi, so 02 is
// 0.20. University of Arizona sheet citing ISO 10625, 2012,
// seen in a copy only
func TestPublishedSizesAt40PSI(t *testing.T) {
	for size, want := range map[string]float64{
		"01": 0.10, "015": 0.15, "02": 0.20, "025": 0.25, "03": 0.30, "04": 0.40, "05": 0.50, "06": 0.60, "08": 0.80,
	} {
		q, p, err := calc.Nozzle{Size: calc.SizeName(size), SizeRating: calc.US40PSI}.Rating()
		if err != nil {
			t.Fatal(err)
		}
		agrees(t, "flow of "+size, q.In(unit.USGallonPerMinute), want, 1e-12)
		agrees(t, "pressure of "+size, p.In(unit.PoundPerSquareInch), 40, 1e-12)
	}
}

// TestReferenceRating: 0.2 gal/min at 40 psi is 0.2 x sqrt(90/40) = 0.2 x 1.5 = 0.3
// at 90 psi.
func TestReferenceRating(t *testing.T) {
	n := calc.Nozzle{RatedFlowRate: 0.2 * unit.USGallonPerMinute, RatedPressure: 40 * unit.PoundPerSquareInch}
	q, p, err := n.Rating()
	if err != nil || q != n.RatedFlowRate || p != n.RatedPressure {
		t.Errorf("rating is %v at %v, %v", q, p, err)
	}
	agrees(t, "flow at 90 psi", n.FlowAt(90*unit.PoundPerSquareInch).In(unit.USGallonPerMinute), 0.3, 1e-14)
}

// TestReferenceSizeRatingsDiffer: 02 is 0.8 L/min at 3 bar. Read in the other
// table it is 0.2 x 3.785411784 = 0.7570824 L/min at 40 psi = 2.7579029 bar, so
// 0.7570824 x sqrt(3 / 2.7579029) = 0.7570824 x 1.0429690 = 0.7896134 at 3 bar:
// 1.3 % less, at each size.
func TestReferenceSizeRatingsDiffer(t *testing.T) {
	for _, s := range calc.NozzleSizes() {
		at3 := calc.Nozzle{Size: s.Size}.FlowAt(3 * unit.Bar)
		at40 := calc.Nozzle{Size: s.Size, SizeRating: calc.US40PSI}.FlowAt(3 * unit.Bar)
		if at3 != s.At3Bar {
			t.Errorf("%s gives %v at its own pressure, its row says %v", s.Size, at3, s.At3Bar)
		}
		agrees(t, string(s.Size)+" by the two ratings", float64(at40/at3), 0.7896134/0.8, 1e-6)
	}
}

// TestPropertySizesAreACopy: a caller who changes the list changes nothing, and
// every row can be asked for.
func TestPropertySizesAreACopy(t *testing.T) {
	sizes := calc.NozzleSizes()
	want := sizes[0]
	sizes[0] = calc.NozzleSize{}
	if got := calc.NozzleSizes()[0]; got != want {
		t.Errorf("the first size became %v", got)
	}
	for _, s := range sizes[1:] {
		if _, _, err := (calc.Nozzle{Size: s.Size}).Rating(); err != nil {
			t.Errorf("size %s: %v", s.Size, err)
		}
	}
}

// TestPropertyRatingFollowsTheRoot: the flow at k^2 times the pressure is k times.
func TestPropertyRatingFollowsTheRoot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := unit.Pressure(rapid.Float64Range(1e4, 5e6).Draw(t, "pressure"))
		k := rapid.Float64Range(0.2, 5).Draw(t, "k")
		n := calc.Nozzle{
			RatedFlowRate: unit.FlowRate(rapid.Float64Range(1e-6, 1e-3).Draw(t, "flow")),
			RatedPressure: unit.Pressure(rapid.Float64Range(1e4, 5e6).Draw(t, "rated")),
		}
		agrees(t, "flow", float64(n.FlowAt(p*unit.Pressure(k*k))), k*float64(n.FlowAt(p)), 1e-12)
	})
}

func TestNozzleRefuses(t *testing.T) {
	lpm, bar := unit.LitrePerMinute, unit.Bar
	for want, n := range map[string]calc.Nozzle{
		"ratedFlowRate: required; ratedPressure: required": {},
		"ratedPressure: required":                          {RatedFlowRate: lpm},
		"ratedFlowRate: required":                          {RatedPressure: bar},
		"ratedFlowRate: not_positive":                      {RatedFlowRate: -lpm, RatedPressure: bar},
		"ratedPressure: not_finite":                        {RatedFlowRate: lpm, RatedPressure: unit.Pressure(endless)},
		"size: conflict":                                   {RatedFlowRate: lpm, RatedPressure: bar, Size: "02"},
		"size: unknown_size":                               {Size: "2"},
		"sizeRating: not_allowed":                          {Size: "02", SizeRating: "other"},
		"pressureRange.high: required":                     {Size: "02", PressureRange: calc.PressureRange{Low: bar}},
		"pressureRange.low: required":                      {Size: "02", PressureRange: calc.PressureRange{High: bar}},
		"pressureRange.low: not_positive":                  {Size: "02", PressureRange: calc.PressureRange{Low: -bar, High: bar}},
		"pressureRange.low: range_inverted":                {Size: "02", PressureRange: calc.PressureRange{Low: 2 * bar, High: bar}},
	} {
		if _, _, err := n.Rating(); refusal(err) != want {
			t.Errorf("%+v: got %q, want %q", n, refusal(err), want)
		}
	}
}

// A yellow 02 is rated at 3 bar, and at 2 bar gives 0.8 x sqrt(2/3). The rate at
// 6 km/h is printed as 131 L/ha, which is 131 x 6 x 0.5 / 600 = 0.655 L/min. ILVO,
// Spuitdoppen: het bos en de bomen,
// https://keuringspuittoestellen.ilvo.vlaanderen.be/nl/documenten/spuitdoppen-het-bos-en-de-bomen
func ExampleNozzle_FlowAt() {
	yellow := calc.Nozzle{Size: "02"}
	fmt.Printf("%.2f L/min\n", yellow.FlowAt(2*unit.Bar).In(unit.LitrePerMinute))
	// Output: 0.65 L/min
}

// TestPropertySizeSources: each says what it is of and where it was read, and the
// list is the caller's own.
func TestPropertySizeSources(t *testing.T) {
	about := map[string]bool{}
	for _, s := range calc.NozzleSizeSources() {
		about[s.About] = s.Title != "" && s.Publisher != "" && (s.URL == "") == strings.HasSuffix(s.Publisher, "(seen in a copy only)")
	}
	if !about["us_40_psi"] || !about["iso_3_bar"] || !about["scope"] || len(about) != 3 {
		t.Errorf("sources %v", about)
	}
	calc.NozzleSizeSources()[0].Title = ""
	if calc.NozzleSizeSources()[0].Title == "" {
		t.Error("the list is not the caller's own")
	}
}
