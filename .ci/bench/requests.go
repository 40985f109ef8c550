package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"strings"
)

const speedLine = `{"id":"tractor 7","operation":"ground-speed","request":{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}},{"courseLength":{"value":100,"unit":"ft"},"time":{"value":23.4,"unit":"s"}}],"uncertainty":false}}` + "\n"

// sheet is an invented round: catches of drops with three nozzles, two in twelve outside.
func sheet(catches int, uncertainty bool) string {
	var b strings.Builder
	b.WriteString(`{"nozzle":{"ratedFlowRate":{"value":0.5,"unit":"gal_us/min"},"ratedPressure":{"value":40,"unit":"psi"}},"sprayPressure":{"value":60,"unit":"psi"},"catches":[`)
	for i := range catches {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, `{"label":"drop %d","position":%q,"nozzles":3,"volume":{"value":%d,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}}`,
			i+1, []string{"left", "center", "right"}[i*3/catches], 112+4*(i%12))
	}
	basis := "both"
	if catches == 1 { // which has no mean
		basis = "rated"
	}
	fmt.Fprintf(&b, `],"tolerance":{"limit":{"value":10,"unit":"%%"},"basis":%q}`, basis)
	if !uncertainty {
		b.WriteString(`,"uncertainty":false`)
	}
	b.WriteString("}")
	return b.String()
}

// fieldSheet is a whole field sheet on one line.
func fieldSheet(uncertainty bool) (string, error) {
	b, err := os.ReadFile("testdata/demo/ready.json")
	if err != nil {
		return "", err
	}
	var one bytes.Buffer
	if err := json.Compact(&one, b); err != nil {
		return "", err
	}
	if !uncertainty {
		one.Truncate(one.Len() - 1)
		one.WriteString(`,"uncertainty":false}`)
	}
	return one.String(), nil
}

// sheetLine is a whole field sheet as a line of a batch.
func sheetLine(uncertainty bool) (string, error) {
	sheet, err := fieldSheet(uncertainty)
	return `{"id":"tractor 7","operation":"calibrations","request":` + sheet + "}\n", err
}
