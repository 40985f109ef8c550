package api

import (
	"net/http"
	"strings"
	"testing"
)

// TestRefusalsSayWhatToDo: who reads no more than the detail of a problem, or pointer
// and detail of its errors, learns what would be right.
func TestRefusalsSayWhatToDo(t *testing.T) {
	const loads = `{"tankVolume":{"value":300,"unit":"gal_us"},"applicationRate":{"value":100,"unit":"gal_us/acre"},"treatedArea":{"value":10,"unit":"acre"},`
	const inGear = `"groundSpeed":{"value":5,"unit":"mph"},"engineSpeed":{"value":1800,"unit":"rpm"}`
	const gears = `{"targetApplicationRate":{"value":90,"unit":"gal_us/acre"},"measured":{"gear":"C","applicationRate":{"value":100,"unit":"gal_us/acre"},` + inGear + `},"gears":`
	for _, c := range []struct {
		path, body string
		details    []string // in English and Spanish
	}{
		{"ground-speed", `{"colour":1,"runs":[]}`, []string{"Use one of: instruments, repeatability, uncertainty, runs, ", "Use uno de estos: instruments, repeatability, uncertainty, runs, "}},
		{"ground-speed", `{"runs":[{"courseLength":{"value":100},"time":{"value":20,"unit":"s"}}]}`, []string{"There is no default. Use one of: ", "Use una de estas: "}},
		{"tank-loads", loads + `"fieldArea":{"value":16,"unit":"acre"}}`, []string{"contradicts fieldArea.", "contradice fieldArea."}},
		{"tank-loads", loads + `"rowSpacing":{"value":16,"unit":"in"}}`, []string{"contradicts rowSpacing.", "contradice rowSpacing."}},
		{"tank-loads", loads + `"areaBasis":"field"}`, []string{"contradicts areaBasis.", "contradice areaBasis."}},
		{"ground-speed", "{\n \"año\": x}", []string{"error is at line 2, column 9 (byte 11, ", "línea 2, columna 9 (byte 11, "}},
		{"ground-speed", "{}\n {}", []string{"The second begins at line 2, column 2 (byte 4, ", "El segundo empieza en la línea 2, columna 2 (byte 4, "}},
		{"ground-speed", "{}\n}", []string{"error is at line 2, column 1 (byte 3, ", "error está en la línea 2, columna 1 (byte 3, "}},
		{"ground-speed", `{"instruments":[{"id":"T","kind":"tape","resolution":{"value":1,"unit":"cm"},"scaleError":{"value":1,"unit":"%"}},{"id":"B","kind":"stopwatch","resolution":{"value":0.1,"unit":"s"},"scaleError":{"value":1,"unit":"%"}}],"runs":[{"stopwatch":"A","courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]}`, []string{"Use one that measures this: B.", "Use uno que mida esto: B."}},
		{"corrections", gears + `[{"label":"",` + inGear + `},{"label":"B3",` + inGear + `}]}`, []string{"Use one of: B3.", "Use uno de estos: B3."}},
		{"corrections", gears + `[{"label":"",` + inGear + `}]}`, []string{"No entry there has this label", "Ningún dato tiene ahí este nombre"}},
		{"application-rate", `{"relativeDensity":{"value":-1.2,"unit":"1"}}`, []string{"at least 0.000000001.", "al menos 0,000000001."}},
	} {
		for i, language := range []string{"en", "es"} {
			w := call(t, http.MethodPost, "/v1/"+c.path, c.body, "Accept-Language", language)
			if w.Code < 400 || !strings.Contains(w.Body.String(), c.details[i]) {
				t.Errorf("%s %s: no %q in %d %s", c.path, c.body, c.details[i], w.Code, w.Body)
			}
		}
	}
}

// TestBatchWithoutLineEnds: a file whose line ends were lost is told so, and where the
// second line begins; a place is named in the stream.
func TestBatchWithoutLineEnds(t *testing.T) {
	const line = `{"id":"a","operation":"ground-speed","request":{}}`
	_, replies := batch(t, speedLine+"\n"+line+line+"\n"+"{x\n"+strings.Repeat(line, mostLine/len(line)+1))
	if len(replies) != 4 {
		t.Fatalf("%d replies", len(replies))
	}
	for i, want := range []string{"", "line 2, column 51 (byte 50 of that line, counted from 0). Put each on its own line", "line 3, column 2 ", "--data-binary"} {
		if p := replies[i].Problem; (p == nil) != (want == "") || p != nil && !strings.Contains(p.Detail, want) {
			t.Errorf("line %d: %+v", i+1, p)
		}
	}
}
