package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// An answer is what the program said of a sheet, as far as the trial reads it.
type answer struct {
	Verdict   string `json:"verdict"`
	NextSteps []step `json:"nextSteps"`
	Pressure  struct {
		Status string `json:"status"`
		Result struct {
			Mean *quantity `json:"mean"`
		} `json:"result"`
	} `json:"pressure"`
	Output struct {
		Status string `json:"status"`
		Result struct {
			SprayPressure *quantity `json:"sprayPressure"`
			Actions       []action  `json:"actions"`
		} `json:"result"`
	} `json:"output"`
	Speed struct {
		Status string `json:"status"`
		Result struct {
			GroundSpeed *quantity `json:"groundSpeed"`
		} `json:"result"`
	} `json:"speed"`
	Rate struct {
		Status string `json:"status"`
	} `json:"rate"`
	Correction struct {
		Status string `json:"status"`
		Result struct {
			Plans    []plan `json:"plans"`
			Rejected []struct {
				Change string `json:"change"`
				Reason string `json:"reason"`
			} `json:"rejected"`
		} `json:"result"`
	} `json:"correction"`
}

type step struct {
	Code    string `json:"code"`
	Label   string `json:"label,omitempty"`
	Pointer string `json:"pointer,omitempty"`
	Text    string `json:"text"`
}

type action struct {
	Action  string `json:"action"`
	Pointer string `json:"pointer"`
}

type plan struct {
	Change        string    `json:"change"`
	GroundSpeed   *quantity `json:"groundSpeed,omitempty"`
	SprayPressure *quantity `json:"sprayPressure,omitempty"`
	DutyCycle     *quantity `json:"dutyCycle,omitempty"`
	Aim           *quantity `json:"aim,omitempty"`
	Predicted     *quantity `json:"predictedApplicationRate,omitempty"`
}

func (p plan) String() string {
	b, _ := json.Marshal(p)
	return string(b)
}

var english = text.In(context.Background(), text.Match("en"))

// ask posts a sheet, as the page in a browser does: bytes in, bytes out. What is refused comes
// back as the problem.
func ask(calibrations *operation.Operation, s *sheet, out *bytes.Buffer) (a *answer, refused string, err error) {
	request, err := json.Marshal(s)
	if err != nil {
		return nil, "", err
	}
	out.Reset()
	if _, r := calibrations.Run(english, request, out); r != nil {
		return nil, string(r.Problem(text.Match("en"), "trial").Encode()), nil
	}
	a = &answer{}
	if err := json.Unmarshal(out.Bytes(), a); err != nil {
		return nil, "", fmt.Errorf("the answer is no JSON: %w", err)
	}
	return a, "", nil
}

// has tells whether one of the next steps has one of the codes.
func (a *answer) has(codes ...string) bool {
	for _, s := range a.NextSteps {
		if is(s.Code, codes...) {
			return true
		}
	}
	return false
}

func is(code string, codes ...string) bool {
	for _, c := range codes {
		if c == code {
			return true
		}
	}
	return false
}
