package operation

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/internal/text"
)

// A calledCatch is a catch of a drawn round: where it stands in the sheet, its label, and
// what a crew calls it.
type calledCatch struct{ pointer, label, name string }

// drawnSheet is a sheet in which drops were caught again in every way that there is: whole,
// nozzle by nozzle, some nozzles together, or not; with labels of their own or without;
// drops of different nozzles among them, in any order. round is what is judged of it, and
// rows are the names down its record, those of the replaced drops among them.
func drawnSheet(t *rapid.T, language string) (sheet string, round []calledCatch, rows []string) {
	type object = map[string]any
	fewest, counts := 3, []int{1, 2, 3, 4}
	offs := []float64{1, 1, 1.001, 0.999, 1.002, 1.06, 1.098, 0.902, 1.2, 0.8}
	alike := rapid.Bool().Draw(t, "alike, so that one stands apart")
	if alike {
		fewest, counts = 10, []int{1, 1, 1, 1, 3}
		offs = append(slices.Repeat([]float64{1, 1.001, 0.999, 1.002, 0.998}, 3), 1.06)
	}
	millilitres := func(right float64) object {
		off := rapid.SampledFrom(offs).Draw(t, "off")
		return object{"value": right * off, "unit": "mL"}
	}
	rated := func(litres float64) object {
		return object{"ratedFlowRate": object{"value": litres, "unit": "L/min"}, "ratedPressure": object{"value": 3, "unit": "bar"}}
	}
	half := object{"value": 30, "unit": "s"}
	suffix := map[string][2]string{"en": {", nozzle %d", ", nozzles %d to %d"}, "es": {", boquilla %d", ", boquillas %d a %d"}}[language]

	var catches, followUps []object
	type follow struct{ of, nozzles, all int }
	var follows []follow
	for j := range rapid.IntRange(fewest, 18).Draw(t, "catches") {
		nozzles := rapid.SampledFrom(counts).Draw(t, "nozzles")
		c := object{"time": half, "nozzles": nozzles, "volume": millilitres(500 * float64(nozzles))}
		mixed := rapid.IntRange(0, 5).Draw(t, "mixed") == 0
		if mixed {
			delete(c, "nozzles")
			c["volume"], c["nozzlesOnDrop"] = millilitres(750), []object{{"nozzle": rated(1), "count": 1}, {"nozzle": rated(0.5), "count": 1}}
		}
		if rapid.Bool().Draw(t, "labelled") {
			c["label"] = fmt.Sprintf("drop %c", 'a'+j)
			switch again := rapid.SampledFrom([]string{"no", "whole", "parts"}).Draw(t, "again"); {
			case again == "no":
			case mixed:
				follows = append(follows, follow{j, rapid.SampledFrom([]int{0, 2}).Draw(t, "of them"), 2})
			case again == "whole":
				follows = append(follows, follow{j, nozzles, nozzles})
			default:
				for left := nozzles; left > 0; {
					n := 1
					if !alike {
						n = rapid.IntRange(1, left).Draw(t, "together")
					}
					follows, left = append(follows, follow{j, n, nozzles}), left-n
				}
			}
		}
		catches = append(catches, c)
	}
	follows = rapid.Permutation(follows).Draw(t, "order")
	called, done := make([][]calledCatch, len(catches)), make([]int, len(catches))
	for k, f := range follows {
		drop := catches[f.of]["label"].(string)
		again := object{"replaces": drop, "time": half, "volume": millilitres(500 * float64(f.nozzles))}
		if f.nozzles > 0 {
			again["nozzles"] = f.nozzles
		}
		if catches[f.of]["nozzlesOnDrop"] != nil {
			again["volume"] = millilitres(750)
		}
		name := drop
		switch from, to := done[f.of]+1, done[f.of]+f.nozzles; {
		case rapid.IntRange(0, 3).Draw(t, "own label") == 0:
			name = fmt.Sprintf("again %d", k)
			again["label"] = name
		case f.nozzles == 0 || f.nozzles == f.all:
		case from == to:
			name += fmt.Sprintf(suffix[0], from)
		default:
			name += fmt.Sprintf(suffix[1], from, to)
		}
		done[f.of] += f.nozzles
		called[f.of] = append(called[f.of], calledCatch{fmt.Sprintf("#/output/followUps/%d", k), name, name})
		followUps = append(followUps, again)
	}
	for j, c := range catches {
		one := calledCatch{pointer: fmt.Sprintf("#/output/catches/%d", j), name: fmt.Sprint(j + 1)}
		if label, ok := c["label"].(string); ok {
			one.label, one.name = label, label
		}
		rows = append(rows, one.name)
		if called[j] == nil {
			called[j] = []calledCatch{one}
			rows = rows[:len(rows)-1]
		}
		for _, x := range called[j] {
			round, rows = append(round, x), append(rows, x.name)
		}
	}
	output := object{"sprayPressure": object{"value": 3, "unit": "bar"}, "replaceAllAbove": object{"value": 60, "unit": "%"}, "catches": catches}
	if followUps != nil {
		output["followUps"] = followUps
	}
	b, err := json.Marshal(object{"resultUnits": "metric", "nozzle": rated(1), "output": output})
	if err != nil {
		t.Fatal(err)
	}
	return string(b), round, rows
}

// TestCatchesAreCalledTheSame: whatever was caught again, steps, actions, outliers,
// warnings, the summary and the record call a catch by the label of its entry in the sheet
// that the pointer leads to, or by the number of that entry.
func TestCatchesAreCalledTheSame(t *testing.T) {
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		language := rapid.SampledFrom([]string{"en", "es"}).Draw(t, "language")
		sheet, round, rows := drawnSheet(t, language)
		at := map[string]calledCatch{}
		for _, c := range round {
			at[c.pointer] = c
		}
		ctx := text.In(context.Background(), text.Match(language))
		var request CalibrationsRequest
		a, refused := answerBody(ctx, []byte(sheet), calibrationsTable, &request, calibrations)
		if refused != nil {
			t.Fatalf("%s", problemIndented(ctx, refused))
		}
		labelled := func(kind, pointer, label string) {
			if strings.HasPrefix(pointer, "#/output/") {
				seen[kind]++
				if c, ok := at[pointer]; !ok || c.label != label {
					t.Errorf("%s: %q at %s, want %q", kind, label, pointer, c.label)
				}
			}
		}
		x := a.Output.Result
		for i, s := range a.NextSteps {
			labelled("step", s.Pointer, s.Label)
			if c, ok := at[s.Pointer]; ok {
				name := c.label
				if name == "" {
					name = map[string]string{"en": "catch ", "es": "aforo "}[language] + c.name
				}
				if line := fmt.Sprintf("%2d. %s: %s\n", i+1, name, s.Text); !strings.Contains(a.Summary(ctx), line) {
					t.Errorf("no line %q in\n%s", line, a.Summary(ctx))
				}
			}
		}
		for _, s := range x.Actions {
			if s.Pointer != "#/output/catches" { // all of them
				labelled("action", s.Pointer, s.Label)
			}
		}
		for _, o := range x.Outliers {
			labelled("outlier", o.Pointer, o.Label)
		}
		for _, w := range x.Warnings {
			if c, ok := at[strings.TrimSuffix(w.Pointer, "/volume")]; w.Code == calc.WarnHiddenDeviation {
				if seen["warning"]++; !ok || !strings.Contains(w.Detail, " "+c.name+" ") {
					t.Errorf("%q at %s, want %q", w.Detail, w.Pointer, c.name)
				}
			}
		}
		if len(x.Catches) != len(round) {
			t.Fatalf("%d catches were judged, want %d", len(x.Catches), len(round))
		}
		s, said := summary{lang: text.From(ctx)}, map[string][]string{}
		var lines []string
		for i, c := range x.Catches {
			labelled("catch", round[i].pointer, c.Label)
			if c.Status != "within" {
				lines = append(lines, s.of("catch_"+string(c.Status), round[i].name, s.quantity(c.AcceptableVolume.Low), s.quantity(c.AcceptableVolume.High)))
			}
			said[c.ConformanceDetail] = append(said[c.ConformanceDetail], round[i].name)
		}
		delete(said, "")
		acted := func(o OutlierAnswer) bool {
			return slices.ContainsFunc(x.Actions, func(a ActionAnswer) bool { return a.Pointer == o.Pointer })
		}
		apart := slices.DeleteFunc(slices.Clone(x.Outliers), acted)
		for _, o := range apart {
			seen["outlier in the summary"]++
			if len(apart) == 1 { // one alone is not called two
				o.Text = text.Of(s.lang, "outlier.grubbs")
			}
			said[o.Text] = append(said[o.Text], at[o.Pointer].name)
		}
		for what, names := range said {
			lines = append(lines, strings.Join(names, ", ")+": "+what)
		}
		told := a.Summary(ctx)
		for _, line := range lines {
			if seen["line"]++; !strings.Contains(told, "\n  "+line+"\n") {
				t.Errorf("no line %q in\n%s", line, told)
			}
		}
		var page bytes.Buffer
		if _, refused := calibrationsRecord(ctx, []byte(sheet), &page); refused != nil {
			t.Fatalf("%s", problemIndented(ctx, refused))
		}
		if got := rowsOfCatches(page.String()); !slices.Equal(got, rows) {
			t.Errorf("the record has %q, want %q", got, rows)
		}
	})
	for _, kind := range []string{"step", "action", "outlier", "outlier in the summary", "warning", "line"} {
		if seen[kind] == 0 {
			t.Errorf("no sheet had any %s", kind)
		}
	}
}

var rowHead = regexp.MustCompile(`<tr[^>]*><th scope="row">([^<]*)</th>`)

// rowsOfCatches are the names down the table of catches of a record, the first of which
// nothing but the catches has.
func rowsOfCatches(page string) (names []string) {
	_, table, _ := strings.Cut(page, "<caption>")
	table, _, _ = strings.Cut(table, "</table>")
	for _, m := range rowHead.FindAllStringSubmatch(table, -1) {
		names = append(names, m[1])
	}
	return names
}
