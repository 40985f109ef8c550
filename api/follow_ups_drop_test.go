package api

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"
)

// mixedDropSheet has a drop a of two nozzles of 1 L/min at 3 bar, right at 1 L in 30 s,
// and a drop b of one such nozzle and one of 0.5 L/min: 1.5 L/min, so 0.75 L is right and
// the 0.9 L of the round are a fifth too much.
const mixedDropSheet = `{"resultUnits":"metric","uncertainty":false,"nozzle":` + litreNozzle + `,
"machine":{"sprayedWidthPerNozzle":{"value":0.5,"unit":"m"}},
"speed":{"runs":[{"courseLength":{"value":100,"unit":"m"},"time":{"value":50,"unit":"s"}}]},
"output":{"sprayPressure":{"value":3,"unit":"bar"},"replaceAllAbove":{"value":60,"unit":"%"},"catches":[
{"label":"a","nozzles":2,"volume":{"value":1,"unit":"L"},"time":{"value":30,"unit":"s"}},
{"label":"b","position":"left","nozzlesOnDrop":[{"nozzle":` + litreNozzle + `,"count":1},{"nozzle":{"ratedFlowRate":{"value":0.5,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}},"count":1}],
"volume":{"value":0.9,"unit":"L"},"time":{"value":30,"unit":"s"}}],"followUps":[FOLLOW]}}`

const litreNozzle = `{"ratedFlowRate":{"value":1,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}}`

func mixedFollow(members string) string {
	return strings.Replace(mixedDropSheet, "FOLLOW", `{"replaces":"b","volume":{"value":0.75,"unit":"L"},"time":{"value":30,"unit":"s"}`+members+`}`, 1)
}

// TestReferenceFollowUpOfADropOfDifferentNozzles: 0.75 L in 30 s is the 1.5 L/min of the
// makers, and both drops together give 3.5 L/min out of four nozzles, 0.875 each.
func TestReferenceFollowUpOfADropOfDifferentNozzles(t *testing.T) {
	for _, members := range []string{"", `,"nozzles":2`} {
		w := post(t, "calibrations", mixedFollow(members))
		type figure struct{ Value float64 }
		var a struct {
			Output struct {
				Result struct {
					Catches []struct {
						Status                             string
						DeviationFromRated, NozzleFlowRate figure
					}
					Warnings []struct{ Pointer string }
				}
			}
			Rate struct {
				Result struct{ NozzleFlowRate figure }
			}
		}
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
			t.Fatalf("%d %v %s", w.Code, err, w.Body)
		}
		b := a.Output.Result.Catches[1]
		if b.Status != "within" || b.DeviationFromRated.Value != 0 || b.NozzleFlowRate.Value != 0.75 || a.Rate.Result.NozzleFlowRate.Value != 0.875 {
			t.Errorf("%s: %s, %v from rated, %v, rate of %v", members, b.Status, b.DeviationFromRated, b.NozzleFlowRate, a.Rate.Result.NozzleFlowRate)
		}
		if len(a.Output.Result.Warnings) != 1 || a.Output.Result.Warnings[0].Pointer != "#/output/catches/1/nozzlesOnDrop" {
			t.Errorf("%s: warned of %v", members, a.Output.Result.Warnings)
		}
	}
}

// TestFollowUpOfADropOfDifferentNozzlesRefuses: one nozzle of two, and the two nozzles
// each alone, are of nobody knows which.
func TestFollowUpOfADropOfDifferentNozzlesRefuses(t *testing.T) {
	one := `,"nozzles":1`
	for _, sheet := range []string{
		mixedFollow(one), mixedFollow(`,"nozzles":3`),
		mixedFollow(`},{"replaces":"b","volume":{"value":0.25,"unit":"L"},"time":{"value":30,"unit":"s"}`),
		mixedFollow(one + `},{"replaces":"b","nozzles":1,"volume":{"value":0.25,"unit":"L"},"time":{"value":30,"unit":"s"}`),
	} {
		if codes, _ := refusals(t, "calibrations", sheet); !slices.Equal(codes, []string{"#/output/catches/1 incomplete_follow_up"}) {
			t.Errorf("%q", codes)
		}
	}
}

// TestFollowUpsRefuseWhereTheyStand: what is wrong with a follow-up is told of it, and of
// its drop of the catch that has the nozzles.
func TestFollowUpsRefuseWhereTheyStand(t *testing.T) {
	bad := mixedFollow(`,"jug":"tin"`)
	bad = strings.Replace(bad, `"nozzlesOnDrop":[`, `"nozzles":2,"nozzlesOnDrop":[`, 1)
	codes, _ := refusals(t, "calibrations", bad)
	slices.Sort(codes)
	if want := []string{"#/output/catches/1/nozzlesOnDrop conflict", "#/output/followUps/0/jug unknown_instrument"}; !slices.Equal(codes, want) {
		t.Errorf("%q, want %q", codes, want)
	}
	bad = strings.Replace(followUpSheet, "FOLLOW", `,"followUps":[{"replaces":"a","volume":{"value":0.5,"unit":"L"},"time":{"value":30,"unit":"s"}},
		{"replaces":"a","volume":{"value":0.5,"unit":"L"},"time":{"value":30,"unit":"s"}}]`, 1)
	bad = strings.Replace(bad, `"label":"b",`, `"label":"b","jug":"tin",`, 1) // the third catch of the round that is judged
	if codes, _ = refusals(t, "calibrations", bad); !slices.Equal(codes, []string{"#/output/catches/1/jug unknown_instrument"}) {
		t.Errorf("%q", codes)
	}
}
