package calc_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestPropertySmallRinsesLeaveLess: split once more the same water leaves less, never less
// than exp(-W / Vr), and RinsesNeeded is the first number that is enough.
func TestPropertySmallRinsesLeaveLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := calc.TankRinseInput{
			ResidualVolume: unit.Volume(rapid.Float64Range(1e-4, 1).Draw(t, "residual")), RinseWater: unit.Volume(rapid.Float64Range(1e-4, 1).Draw(t, "water")),
			WantedShareLeft: unit.Ratio(rapid.Float64Range(1e-3, 1).Draw(t, "wanted")),
		}
		before, enough := 1.0, 0
		for n := 1; n <= calc.MostRinses; n++ {
			in.NumberOfRinses = n
			r, err := calc.TankRinse(in)
			left := float64(r.SharesLeft[n-1])
			if err != nil || left >= before || left < math.Exp(-float64(in.RinseWater/in.ResidualVolume)) {
				t.Fatal(n, before, left, err)
			}
			if enough == 0 && r.Verdict == finding.Within {
				enough = n
			}
			if before = left; n == calc.MostRinses && r.RinsesNeeded != enough {
				t.Fatal(r.RinsesNeeded, "rinses are said to be needed, not", enough)
			}
		}
	})
}

func TestTankRinseRefuses(t *testing.T) {
	for want, in := range map[string]calc.TankRinseInput{
		"residualVolume: required; rinses: required":                   {},
		"rinses[1].volume: required":                                   {ResidualVolume: 1, Rinses: []unit.Volume{1, 0}},
		"wantedShareLeft: over_100_percent":                            {ResidualVolume: 1, RinseWater: 1, NumberOfRinses: 1, WantedShareLeft: 1.01},
		"rinseWater: conflict; numberOfRinses: conflict":               {ResidualVolume: 1, Rinses: []unit.Volume{1}, RinseWater: 1, NumberOfRinses: 1},
		"rinseWater: conflict":                                         {ResidualVolume: 1, Rinses: []unit.Volume{1}, RinseWater: 1},
		"numberOfRinses: conflict":                                     {ResidualVolume: 1, Rinses: []unit.Volume{1}, NumberOfRinses: 1},
		"numberOfRinses: required":                                     {ResidualVolume: 1, RinseWater: 1},
		"rinseWater: required":                                         {ResidualVolume: 1, NumberOfRinses: 1},
		"wantedShareLeft: not_positive; numberOfRinses: not_positive":  {ResidualVolume: 1, RinseWater: 1, NumberOfRinses: -1, WantedShareLeft: -1},
		"residualVolume: not_positive; rinses[0].volume: not_positive": {ResidualVolume: -1, Rinses: []unit.Volume{-1}},
	} {
		if r, err := calc.TankRinse(in); refusal(err) != want || r.SharesLeft != nil {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
}

// TestRinseLimits: by hand. A share that is just reached is within, more than 20 rinses are
// not tried, and without a share that is wanted nothing is judged. Three rinses of a third
// each leave (1 / (1 + 1/3))^3 = 27 / 64.
func TestRinseLimits(t *testing.T) {
	half := calc.TankRinseInput{ResidualVolume: 1, Rinses: []unit.Volume{1}, WantedShareLeft: 0.5}
	if r, err := calc.TankRinse(half); err != nil || r.Verdict != finding.Within || r.RinsesNeeded != 1 || r.OneRinse != 0.5 || math.Abs(float64(r.ThreeRinses)-27./64) > 1e-15 {
		t.Errorf("%+v, %v", r, err)
	}
	half.WantedShareLeft = 0.3769 // 20 rinses leave (1 / 1.05)^20 = 0.37689, 19 leave 0.37736
	if r, _ := calc.TankRinse(half); r.RinsesNeeded != 20 || r.Verdict != finding.Outside {
		t.Errorf("%+v", r)
	}
	half.WantedShareLeft = 0.3768
	if r, _ := calc.TankRinse(half); r.RinsesNeeded != 0 {
		t.Errorf("%+v", r)
	}
	half.WantedShareLeft = 0
	if r, _ := calc.TankRinse(half); r.RinsesNeeded != 0 || r.Verdict != finding.NotJudged {
		t.Errorf("%+v", r)
	}
}

// TestRinseWater: by hand. Three rinses of what stays itself leave (1 / 2)^3 = 12.5 %, so
// three times as much water is what three rinses take for it.
func TestRinseWater(t *testing.T) {
	r, err := calc.TankRinse(calc.TankRinseInput{ResidualVolume: 2, Rinses: []unit.Volume{2, 1, 1}, WantedShareLeft: 0.125})
	if err != nil || r.RinseWater != 4 || math.Abs(float64(r.WaterForThreeRinses)-6) > 1e-12 {
		t.Errorf("%+v, %v", r, err)
	}
	if got := warned(r.Warnings); got != "rinses[1].volume: little_rinse_water; wantedShareLeft: unusual_share" {
		t.Error(got)
	}
	r, _ = calc.TankRinse(calc.TankRinseInput{ResidualVolume: 2, RinseWater: 5, NumberOfRinses: 3, WantedShareLeft: 0.1})
	if got := warned(r.Warnings); got != "rinseWater: little_rinse_water" {
		t.Error(got)
	}
}
