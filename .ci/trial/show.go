package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
)

// shown prints sheets that went wrong: the truth, the request, the verdict and the steps.
func shown(w io.Writer, seed uint64, from []*kind, outcomes []outcome, most int) {
	done := map[*kind]int{}
	for i := range outcomes {
		o := &outcomes[i]
		if (o.score != nil && !o.score.any()) || done[o.kind] == most {
			continue
		}
		done[o.kind]++
		d := drawOf(seed, uint64(i))
		t := drawKind(d, from).run(d)
		request, _ := json.Marshal(&t.s)
		fmt.Fprintf(w, "\n== %s, sheet %d\n%s\n%s\n", o.kind.name, i, t.describe(), request)
		if o.score == nil {
			fmt.Fprintf(w, "refused: %s\n", o.refused)
			continue
		}
		for x := range words {
			if why := o.score.faults[x]; why != "" {
				fmt.Fprintf(w, "%s: %s\n", strings.ToUpper(scales[x].name), why)
			}
		}
		var out bytes.Buffer
		a, _, _ := ask(calibrations, &t.s, &out)
		fmt.Fprintf(w, "%s; pressure %s, output %s, speed %s, rate %s, correction %s\n", a.Verdict, a.Pressure.Status, a.Output.Status, a.Speed.Status, a.Rate.Status, a.Correction.Status)
		for _, x := range a.NextSteps {
			fmt.Fprintf(w, "  %s %s %s: %s\n", x.Code, x.Label, x.Pointer, x.Text)
		}
		for _, p := range a.Correction.Result.Plans {
			fmt.Fprintf(w, "  plan %v\n", p)
		}
		for _, r := range a.Correction.Result.Rejected {
			fmt.Fprintf(w, "  rejected %s: %s\n", r.Change, r.Reason)
		}
	}
}

func (s *score) any() bool {
	for _, why := range s.faults {
		if why != "" {
			return true
		}
	}
	return false
}

// describe is the truth in a few lines.
func (t *trial) describe() string {
	var b strings.Builder
	m := t.m
	fmt.Fprintf(&b, "%d drops of %d, %.0f kPa (spread %.0f of %.0f), %.2f m/s", len(m.drops), len(m.drops[0].nozzles), m.meanPressure(), m.spread(), m.allowed, m.speed)
	fmt.Fprintf(&b, "; rate %.1f, target %.1f L/ha: %+.1f %% (limit %.0f)", m.rate(t.rateBasis), t.target, 100*(m.rate(t.rateBasis)/t.target-1), 100*t.rateLimit)
	if t.labelMax != 0 {
		fmt.Fprintf(&b, ", %+.1f %% of the label's maximum", 100*(m.rate(t.rateBasis)/t.labelMax-1))
	}
	fmt.Fprintf(&b, "\nlimit %.0f %% of %q, worn %.0f %%; jug %+.1f %%, mark %.1f mL, gauge %+.1f %%; caught, truly from rated:", 100*t.limit, t.basis, 100*m.worn(t.limit), 100*t.crew.jugScale, t.crew.jugMark, 100*t.crew.gaugeScale)
	for _, i := range t.caught {
		fmt.Fprintf(&b, " %+.1f", 100*m.fromRated(&m.drops[i]))
	}
	return b.String()
}
