package api

import (
	"fmt"
	"math"
	"net/http"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// A pen writes the quantities of one request, each in a unit drawn for it.
type pen struct{ t *rapid.T }

// q writes so many SI units of a kind.
func (p pen) q(kind unit.Kind, si float64) string {
	symbol := rapid.SampledFrom(kind.Symbols()).Draw(p.t, "unit")
	return `{"value":` + strconv.FormatFloat(si/unit.Lookup(symbol).Factor(), 'g', -1, 64) + `,"unit":"` + symbol + `"}`
}

func (p pen) cost(x float64) string { return p.q(unit.KindRatio, x) }
func (p pen) rate(x float64) string {
	return p.q(unit.KindApplicationRate, x*float64(unit.LitrePerHectare))
}
func (p pen) draw(name string, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(p.t, name)
}
func (p pen) catch(litres, minutes float64, members string) string {
	return `{"volume":` + p.q(unit.KindVolume, litres*float64(unit.Litre)) + `,"time":` + p.q(unit.KindTime, minutes*60) + members + `}`
}

// rated is a nozzle of so many litres a minute at 3 bar, and that pressure.
func (p pen) rated(q float64) string {
	return `"nozzle":{"ratedFlowRate":` + p.q(unit.KindFlowRate, q*float64(unit.LitrePerMinute)) + `,"ratedPressure":` + p.q(unit.KindPressure, 3*float64(unit.Bar)) + `},` +
		`"sprayPressure":` + p.q(unit.KindPressure, 3*float64(unit.Bar))
}

// fourth gives all of a rate but the rate, in L/ha.
func (p pen) fourth(rate float64) string {
	v, w := p.draw("m/s", 0.5, 5), p.draw("m", 0.2, 2)
	return `"nozzleFlowRate":` + p.q(unit.KindFlowRate, rate*float64(unit.LitrePerHectare)*v*w) +
		`,"groundSpeed":` + p.q(unit.KindSpeed, v) + `,"sprayedWidthPerNozzle":` + p.q(unit.KindLength, w)
}

// onLimits holds, for each limit of the service, a request with a reading that lies
// beyond it by a factor: on it when that is 1.
var onLimits = []struct {
	limit           string // operation#/member
	inside, outside string // what the answer holds only then; empty when nothing tells
	members         func(p pen, l, beyond float64) string
}{
	{"pressure-uniformity#/maxDifference", `"withinTolerance":true`, `"withinTolerance":false`, func(p pen, l, beyond float64) string {
		low, apart := p.draw("bar", 1, 10)*float64(unit.Bar), l*float64(unit.Bar)
		pressure := func(x float64) string { return `{"pressure":` + p.q(unit.KindPressure, x) + `}` }
		return `"readings":[` + pressure(low) + "," + pressure(low+apart*beyond) + `],"maxDifference":` + p.q(unit.KindPressure, apart)
	}},
	{"pressure-uniformity#/maxDifference", `"withinTolerance":true`, `"withinTolerance":false`, func(p pen, l, beyond float64) string {
		mean := p.draw("bar", 1, 10) * float64(unit.Bar)
		pressure := func(x float64) string { return `{"pressure":` + p.q(unit.KindPressure, x) + `}` }
		return `"readings":[` + pressure(mean*(1-l*beyond/2)) + "," + pressure(mean*(1+l*beyond/2)) + `],"maxDifference":` + p.cost(l)
	}},
	{"nozzle-acceptance#/tolerance/limit", `"status":"within"`, `"status":"above"`, func(p pen, l, beyond float64) string {
		q, min := p.draw("L/min", 0.1, 5), p.draw("min", 0.2, 2)
		return p.rated(q) + `,"tolerance":{"limit":` + p.cost(l) + `},"catches":[` + p.catch(q*min*(1+l*beyond), min, "") + `]`
	}},
	{"nozzle-acceptance#/tolerance/limit", `"status":"within"`, `"status":"below"`, func(p pen, l, beyond float64) string {
		q, min := p.draw("L/min", 0.1, 5), p.draw("min", 0.2, 2)
		return p.rated(q) + `,"tolerance":{"limit":` + p.cost(l) + `},"catches":[` + p.catch(3*q*min*(1-l*beyond), min, `,"nozzles":3`) + `]`
	}},
	{"nozzle-acceptance#/tolerance/limit", `"decision":"keep"`, `"decision":"fix_listed"`, func(p pen, l, beyond float64) string {
		q := p.draw("L/min", 0.1, 5)
		return `"tolerance":{"limit":` + p.cost(l) + `,"basis":"mean"},"catches":[` + p.catch(q*(1+l*beyond), 1, "") + "," + p.catch(2*q*(1-l*beyond), 2, "") + `]`
	}},
	{"nozzle-acceptance#/tolerance/rated/above", `"status":"within"`, `"status":"above"`, func(p pen, l, beyond float64) string {
		q, min := p.draw("L/min", 0.1, 5), p.draw("min", 0.2, 2)
		return p.rated(q) + `,"tolerance":{"rated":{"above":` + p.cost(l) + `}},"catches":[` + p.catch(q*min*(1+l*beyond), min, "") + `]`
	}},
	{"nozzle-acceptance#/tolerance/mean/below", `"catchesOutside":0`, `"catchesOutside":1`, func(p pen, l, beyond float64) string {
		q := p.draw("L/min", 0.1, 5) // 1 + l and 1 - l have a mean of 1
		return `"tolerance":{"mean":{"below":` + p.cost(l) + `}},"catches":[` + p.catch(q*(1+l*beyond), 1, "") + "," + p.catch(2*q*(1-l*beyond), 2, "") + `]`
	}},
	{"nozzle-acceptance#/replaceAllFrom", `"decision":"fix_listed"`, `"decision":"replace_all"`, func(p pen, _, beyond float64) string {
		n := rapid.IntRange(2, 40).Draw(p.t, "caught")
		k := rapid.IntRange(1, (n+1)/2).Draw(p.t, "worn")
		from := k
		if beyond == 1 {
			from = k + 1
		}
		var catches []string
		for i := range n {
			litres := 1.0
			if i < k {
				litres = 1.3 + 0.01*float64(i%2) // worn
			}
			catches = append(catches, p.catch(litres, 1, ""))
		}
		return p.rated(1) + fmt.Sprintf(`,"catchPointsOnBoom":%d,"replaceAllFrom":%d,"catches":[%s]`, n, from, strings.Join(catches, ","))
	}},
	{"nozzle-acceptance#/replaceAllAbove", `"decision":"fix_listed"`, `"decision":"replace_all"`, func(p pen, _, beyond float64) string {
		n := rapid.IntRange(2, 40).Draw(p.t, "caught")
		k := rapid.IntRange(1, n-1).Draw(p.t, "outside")
		var catches []string
		for i := range n {
			litres := 1.0
			if i < k {
				litres = 1.3 + 0.15*float64(i%2) // worn, one by one
			}
			catches = append(catches, p.catch(litres, 1, ""))
		}
		return p.rated(1) + fmt.Sprintf(`,"catchPointsOnBoom":%d,"replaceAllAbove":%s,"catches":[%s]`, n, p.cost(float64(k)/float64(n)/beyond), strings.Join(catches, ","))
	}},
	{"nozzle-flow#/catches/0/time", "", `"short_catch"`, func(p pen, _, beyond float64) string {
		return `"catches":[` + p.catch(1, float64(calc.ShortCatch)/60/beyond, "") + `]`
	}},
	{"nozzle-acceptance#/nozzle/pressureRange/high", "", `"pressure_outside_nozzle_range"`, func(p pen, _, beyond float64) string {
		high := p.draw("bar", 3.1, 8.9) * float64(unit.Bar)
		return strings.Replace(p.rated(1), `},"sprayPressure"`, `,"pressureRange":{"low":`+p.q(unit.KindPressure, high/3)+`,"high":`+p.q(unit.KindPressure, high)+`}},"sprayPressure"`, 1) +
			`,"tolerance":{"limit":` + p.cost(1) + `},"catches":[` + p.catch(1, 1, `,"sprayPressure":`+p.q(unit.KindPressure, high*beyond)) + `]`
	}},
	{"application-rate#/rateTolerance", `"withinTolerance":true`, `"withinTolerance":false`, func(p pen, l, beyond float64) string {
		target := p.draw("L/ha", 20, 1000)
		return p.fourth(target*(1+l*beyond)) + `,"targetApplicationRate":` + p.rate(target) + `,"rateTolerance":` + p.cost(l)
	}},
	{"application-rate#/labelMaximum", `"overLabelMaximum":false`, `"overLabelMaximum":true`, func(p pen, _, beyond float64) string {
		most := p.draw("L/ha", 20, 1000)
		return p.fourth(most*beyond) + `,"labelMaximum":` + p.rate(most)
	}},
	{"corrections#/rateTolerance", `"decision":"none_needed"`, "", func(p pen, l, beyond float64) string {
		target := p.draw("L/ha", 20, 1000)
		return `"measured":{"applicationRate":` + p.rate(target*(1-l*beyond)) + `,"groundSpeed":` + p.q(unit.KindSpeed, 2) +
			`},"targetApplicationRate":` + p.rate(target) + `,"rateTolerance":` + p.cost(l)
	}},
	{"area-check#/rateTolerance", `"withinTolerance":true`, `"withinTolerance":false`, func(p pen, l, beyond float64) string {
		rate, area := p.draw("L/ha", 20, 1000), p.draw("m2", 100, 10000)
		return `"volumeUsed":` + p.q(unit.KindVolume, rate*(1+l*beyond)*float64(unit.LitrePerHectare)*area) + `,"area":` + p.q(unit.KindArea, area) +
			`,"expectedApplicationRate":` + p.rate(rate) + `,"rateTolerance":` + p.cost(l)
	}},
	{"tank-loads#/rateTolerance", `"withinTolerance":true`, `"withinTolerance":false`, func(p pen, l, beyond float64) string {
		label := p.draw("L/ha", 20, 1000)
		return `"tankVolume":` + p.q(unit.KindVolume, 1) + `,"treatedArea":` + p.q(unit.KindArea, 20000) + `,"applicationRate":` + p.rate(label*(1-l*beyond)) +
			`,"labelRate":` + p.rate(label) + `,"rateTolerance":` + p.cost(l)
	}},
	// Of two runs over one course, (v1 - v2) over the mean by total time is (r - 1/r) / 2,
	// r being the ratio of their times.
	{"ground-speed#/runTolerance", `"withinTolerance":true`, `"withinTolerance":false`, func(p pen, l, beyond float64) string {
		course, time := p.draw("m", 20, 200), p.draw("s", 20, 60)
		run := func(time float64) string {
			return `{"courseLength":` + p.q(unit.KindLength, course) + `,"time":` + p.q(unit.KindTime, time) + `}`
		}
		ratio := l*beyond + math.Sqrt(l*l*beyond*beyond+1)
		return `"runs":[` + run(time) + "," + run(time*ratio) + `],"runTolerance":` + p.cost(l)
	}},
	{"wear-forecast#/limit", `"verdict":"will_reach"`, `"verdict":"worn_now"`, func(p pen, l, beyond float64) string {
		var catches []string
		for _, h := range []float64{1, 50, 100} {
			catches = append(catches, p.catch(1+l*beyond*h/100, 1, `,"hours":`+p.q(unit.KindTime, h*3600)))
		}
		return `"sprayPressure":` + p.q(unit.KindPressure, 3e5) + `,"newFlowRate":` + p.q(unit.KindFlowRate, float64(unit.LitrePerMinute)) +
			`,"limit":` + p.cost(l) + `,"catches":[` + strings.Join(catches, ",") + `]`
	}},
	{"pattern-uniformity#/maxPlaceDeviation", "", `"mend_pattern"`, func(p pen, l, beyond float64) string {
		return p.cups(1+l*beyond, 1-l*beyond, 1) + `,"maxPlaceDeviation":` + p.cost(l) + `,"maxCoefficientOfVariation":` + p.cost(2)
	}},
	// Three cups 1 + d, 1 - d and 1 have the coefficient of variation d.
	{"pattern-uniformity#/maxCoefficientOfVariation", "", `"mend_pattern"`, func(p pen, l, beyond float64) string {
		return p.cups(1+l*beyond, 1-l*beyond, 1) + `,"maxPlaceDeviation":` + p.cost(2) + `,"maxCoefficientOfVariation":` + p.cost(l)
	}},
	{"meter-calibration#/meterTolerance", `"withinTolerance":true`, `"withinTolerance":false`, func(p pen, l, beyond float64) string {
		measured := p.draw("L", 10, 500) * float64(unit.Litre)
		return `"kind":"flow_meter","readings":[{"indicated":` + p.q(unit.KindVolume, measured*(1+l*beyond)) + `,"measured":` + p.q(unit.KindVolume, measured) + `}],"meterTolerance":` + p.cost(l)
	}},
	{"pump-demand#/ratedPumpFlowRate", `"sufficient":true`, `"sufficient":false`, func(p pen, l, beyond float64) string {
		q, stir := p.draw("L/min", 0.2, 5)*float64(unit.LitrePerMinute), p.draw("stirring", 1, 90)*float64(unit.LitrePerMinute)
		return `"nozzles":30,"nozzleFlowRate":` + p.q(unit.KindFlowRate, q) + `,"agitationFlowRate":` + p.q(unit.KindFlowRate, stir) + `,"reserve":` + p.cost(l) +
			`,"ratedPumpFlowRate":` + p.q(unit.KindFlowRate, (30*q+stir)*(1+l)/beyond)
	}},
}

func (p pen) cups(relative ...float64) string {
	full := p.draw("mL", 20, 500) * float64(unit.Millilitre)
	var cups []string
	for _, x := range relative {
		cups = append(cups, `{"volume":`+p.q(unit.KindVolume, x*full)+`}`)
	}
	return `"readings":[` + strings.Join(cups, ",") + `]`
}

// TestPropertyReadingOnEachLimit: a reading exactly on a limit is inside it, whatever
// the units of the reading, the limit and all else; one beyond it by a millionth is
// not.
func TestPropertyReadingOnEachLimit(t *testing.T) {
	for i, c := range onLimits {
		operation, _, _ := strings.Cut(c.limit, "#")
		t.Run(fmt.Sprintf("%s %d", c.limit, i), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				l := float64(rapid.IntRange(10, 300).Draw(t, "limit")) / 1000
				for beyond, on := range map[float64]bool{1: true, 1 + 1e-6: false} {
					body := "{" + c.members(pen{t}, l, beyond) + "}"
					w := call(t, http.MethodPost, "/v1/"+operation, body)
					answer := w.Body.String()
					if w.Code != http.StatusOK || c.inside != "" && strings.Contains(answer, c.inside) != on || c.outside != "" && strings.Contains(answer, c.outside) == on {
						t.Fatalf("on its limit: %v\n%s\n%d %s", on, body, w.Code, answer)
					}
				}
			})
		})
	}
}

// noLimits are presets that a reading is not held against.
var noLimits = map[string]bool{
	"ground-speed#/runs/0/courseLength": true, "field-capacity#/fieldEfficiency": true, "pump-demand#/agitationShare": true, "pump-demand#/reserve": true,
}

// TestEachToleranceIsOnTheList: what GET /v1/tolerances lists is one of the limits above.
func TestEachToleranceIsOnTheList(t *testing.T) {
	listed := map[string]bool{}
	for _, c := range onLimits {
		listed[c.limit] = true
	}
	for _, x := range calc.Tolerances() {
		_, ofInstruments, _ := strings.Cut(x.AppliesTo, "#/instruments/")
		_, ofPriors, _ := strings.Cut(x.AppliesTo, "#/repeatability/")
		if !listed[x.AppliesTo] && !noLimits[x.AppliesTo] && ofInstruments+ofPriors == "" {
			t.Errorf("%s: no reading is put on it", x.AppliesTo)
		}
	}
}
