package main

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"strconv"
	"strings"
	"sync"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// The servers that wetrun is compared with, by net/http alone: one that gives a fixed
// reply, and one that decodes, calculates and encodes with encoding/json and checks
// nothing.

func serveFixed(addr string, size int) error {
	reply := bytes.Repeat([]byte("x"), size)
	return http.ListenAndServe(addr, http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		_, _ = io.Copy(io.Discard, req.Body)
		w.Header().Set("Content-Type", "application/json")
		w.Header().Set("Content-Length", strconv.Itoa(size))
		_, _ = w.Write(reply)
	}))
}

type quantity struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

func (q quantity) si() float64 { return q.Value * unit.Lookup(q.Unit).Factor() }

func in[T ~float64](x T, u unit.ID) quantity { return quantity{float64(x) / u.Factor(), u.Symbol()} }

type plainRequest struct {
	Nozzle struct {
		RatedFlowRate quantity `json:"ratedFlowRate"`
		RatedPressure quantity `json:"ratedPressure"`
	} `json:"nozzle"`
	SprayPressure quantity `json:"sprayPressure"`
	Catches       []struct {
		Label    string   `json:"label"`
		Position string   `json:"position"`
		Nozzles  int      `json:"nozzles"`
		Volume   quantity `json:"volume"`
		Time     quantity `json:"time"`
	} `json:"catches"`
	Tolerance struct {
		Limit quantity `json:"limit"`
		Basis string   `json:"basis"`
	} `json:"tolerance"`
}

type plainCatch struct {
	Label              string      `json:"label"`
	FlowRate           quantity    `json:"flowRate"`
	NozzleFlowRate     quantity    `json:"nozzleFlowRate"`
	DeviationFromRated quantity    `json:"deviationFromRated"`
	DeviationFromMean  quantity    `json:"deviationFromMean"`
	Status             string      `json:"status"`
	AcceptableFlowRate [2]quantity `json:"acceptableFlowRate"`
	AcceptableVolume   [2]quantity `json:"acceptableVolume"`
	LargestHidden      quantity    `json:"largestHiddenDeviation"`
}

type plainAnswer struct {
	SprayPressure          quantity     `json:"sprayPressure"`
	RatedFlowRate          quantity     `json:"ratedFlowRateAtPressure"`
	Catches                []plainCatch `json:"catches"`
	MeanNozzleFlowRate     quantity     `json:"meanNozzleFlowRate"`
	CoefficientOfVariation quantity     `json:"coefficientOfVariation"`
	Sides                  []quantity   `json:"sideMeans"`
	Outside                int          `json:"catchesOutside"`
	ProportionOutside      quantity     `json:"proportionOutside"`
	ProportionLow          quantity     `json:"proportionLow"`
	ProportionHigh         quantity     `json:"proportionHigh"`
	ChanceAboveLimit       quantity     `json:"chanceAboveLimit"`
	Decision               string       `json:"decision"`
	Texts                  string       `json:"texts"`
}

// servePlain answers with so much text that its first answer has the size.
func servePlain(addr string, size int) error {
	var words string
	var first sync.Once
	return http.ListenAndServe(addr, http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		var r plainRequest
		if err := json.NewDecoder(req.Body).Decode(&r); err != nil {
			http.Error(w, err.Error(), http.StatusBadRequest)
			return
		}
		a, err := r.answer()
		if err != nil {
			http.Error(w, err.Error(), http.StatusUnprocessableEntity)
			return
		}
		first.Do(func() {
			short, _ := json.Marshal(a) // it fails below too
			words = strings.Repeat("a", max(0, size-len(short)-2))
		})
		a.Texts = words
		b, err := json.Marshal(a)
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", "application/json")
		w.Header().Set("Content-Length", strconv.Itoa(len(b)))
		_, _ = w.Write(b)
	}))
}

func (r *plainRequest) answer() (*plainAnswer, error) {
	input := calc.NozzleAcceptanceInput{
		Nozzle:        calc.Nozzle{RatedFlowRate: unit.FlowRate(r.Nozzle.RatedFlowRate.si()), RatedPressure: unit.Pressure(r.Nozzle.RatedPressure.si())},
		SprayPressure: unit.Pressure(r.SprayPressure.si()),
		Tolerance:     calc.OutputTolerance{Limit: unit.Ratio(r.Tolerance.Limit.si()), Basis: calc.BothBases},
	}
	sides := map[string]calc.Position{"left": calc.Left, "center": calc.Center, "right": calc.Right}
	for _, c := range r.Catches {
		input.Catches = append(input.Catches, calc.AcceptanceCatch{
			Catch:    calc.Catch{Volume: unit.Volume(c.Volume.si()), Time: unit.Time(c.Time.si()), Nozzles: c.Nozzles},
			Position: sides[c.Position],
		})
	}
	x, err := calc.NozzleAcceptance(input)
	if err != nil {
		return nil, err
	}
	const flow, percent = unit.IDGalUsMin, unit.IDPct
	a := &plainAnswer{
		SprayPressure: r.SprayPressure, RatedFlowRate: in(x.RatedFlowRateAtPressure, flow),
		MeanNozzleFlowRate: in(x.MeanNozzleFlowRate, flow), CoefficientOfVariation: in(x.CoefficientOfVariation, percent),
		Outside: x.Outside, ProportionOutside: in(x.ProportionOutside, percent), Decision: strconv.Itoa(int(x.Decision)),
		ProportionLow: in(x.Sampling.Low, percent), ProportionHigh: in(x.Sampling.High, percent), ChanceAboveLimit: in(x.Sampling.ChanceAbove, percent),
	}
	for _, s := range x.Sides {
		a.Sides = append(a.Sides, in(s.MeanNozzleFlowRate, flow), in(s.DeviationFromMean, percent))
	}
	for i := range x.Catches {
		c := &x.Catches[i]
		jug := unit.Lookup(r.Catches[i].Volume.Unit)
		a.Catches = append(a.Catches, plainCatch{
			r.Catches[i].Label, in(c.FlowRate, flow), in(c.NozzleFlowRate, flow), in(c.DeviationFromRated, percent), in(c.DeviationFromMean, percent),
			[]string{"within", "below", "above"}[c.Status],
			[2]quantity{in(c.AcceptableFlowRate.Low, flow), in(c.AcceptableFlowRate.High, flow)},
			[2]quantity{in(c.AcceptableVolume.Low, jug), in(c.AcceptableVolume.High, jug)}, in(c.LargestHiddenDeviation, percent),
		})
	}
	return a, nil
}
