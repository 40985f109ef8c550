package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

func noEnv(string) string { return "" }

// TestCalibrateDemo works out the invented sheets; what must come is said in their
// names, by common practice.
func TestCalibrateDemo(t *testing.T) {
	for name, want := range map[string]struct {
		verdict string
		steps   []string
	}{
		"ready":           {"ready", []string{"file_record", "calibrate_again"}},
		"boom-to-repair":  {"not_ready", []string{"repair_boom", "clean_by_eye", "replace_by_eye", "catch_after_repair", "measure_again"}},
		"rate-to-correct": {"not_ready", []string{"over_label_maximum", "choose_plan", "measure_again"}},
	} {
		file := filepath.Join("../../testdata/demo", name+".json")
		sheet, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, arg := range []string{file, "-"} {
			var out, errs bytes.Buffer
			if code := run(t.Context(), []string{"calibrate", arg}, noEnv, bytes.NewReader(sheet), &out, &errs); code != 0 {
				t.Fatalf("%s: %d %s", name, code, errs.String())
			}
			var answer struct {
				Verdict   string
				NextSteps []struct{ Code string }
			}
			if err := json.Unmarshal(out.Bytes(), &answer); err != nil {
				t.Fatal(err)
			}
			var steps []string
			for _, s := range answer.NextSteps {
				steps = append(steps, s.Code)
			}
			if answer.Verdict != want.verdict || strings.Join(steps, " ") != strings.Join(want.steps, " ") {
				t.Errorf("%s: %s %v, want %s %v", name, answer.Verdict, steps, want.verdict, want.steps)
			}
		}
	}
}

// TestCalibrateText reads the summaries of the demo sheets: what is measured and
// what to do stands in them, worded for people.
func TestCalibrateText(t *testing.T) {
	for name, want := range map[string][]string{
		"ready":           {"READY.", "Pressure: in order. 59 psi to 61 psi: 2 psi apart (10 psi allowed)", "Output: in order. 0 of 12 catches", "Speed: in order. 2.95 mph", "Tank: in order. The tank check gives 109 US gal/acre", "Keep this record", "Calibrate again by March 1, 2027.", "\nCautions\n- "},
		"boom-to-repair":  {"NOT READY.", "qualified mechanic", "Pressure: NOT IN ORDER", "lowest here: right", "Output: not judged.", "bed 1: PTO off, engine off, key out. Release the pressure.", "\nWarnings\n- The cab gauge"},
		"rate-to-correct": {"NOT READY.", "Rate: NOT IN ORDER", "Do not spray. ", "Plan 1: drive 3.63 mph. That should give 90 US gal/acre", "set 40 psi at the nozzles", "Plan 4: use gear B3, set 58.9 psi at the nozzles, drive 3.6 mph. ", "\n  Plan 2, Plan 3, Plan 4: Never exceed rated PTO speed", "\n  Plan 4, Plan 5: "},
	} {
		var out, errs bytes.Buffer
		if code := run(t.Context(), []string{"calibrate", "-text", filepath.Join("../../testdata/demo", name+".json")}, noEnv, nil, &out, &errs); code != 0 {
			t.Fatalf("%s: %d %s", name, code, errs.String())
		}
		for _, line := range want {
			if !strings.Contains(out.String(), line) {
				t.Errorf("%s: no %q in\n%s", name, line, out.String())
			}
		}
		if n := strings.Count(out.String(), "so these catches do not count"); n > 1 {
			t.Errorf("%s says %d times what a step says", name, n)
		}
		if strings.Contains(out.String(), "over the label maximum") && strings.Contains(out.String(), "Too close to the limit to call") {
			t.Errorf("%s calls the rate over the label maximum, and too close to it to call:\n%s", name, out.String())
		}
		for _, raw := range []string{"summary.", "%!", "gal_us", "_"} {
			if strings.Contains(out.String(), raw) {
				t.Errorf("%s shows %q:\n%s", name, raw, out.String())
			}
		}
	}
}

// TestCalibrateInSpanish reads the same sheets in Spanish: the same steps and
// numbers, with a decimal comma.
func TestCalibrateInSpanish(t *testing.T) {
	for name, want := range map[string][]string{
		"ready":           {"LISTA.", "Presión: en orden. De 59 psi a 61 psi: 2 psi de diferencia (máximo permitido: 10 psi)", "Descarga: en orden. Aforos fuera del rango: 0 de 12.", "Velocidad: en orden. 2,95 mph", "Tanque: en orden. Según el tanque son 109 gal/acre", "Guarde este registro", "a más tardar el 1 de marzo de 2027.", "\nPrecauciones\n- "},
		"boom-to-repair":  {"NO LISTA.", "mecánico calificado", "Presión: NO ESTÁ EN ORDEN", "la más baja está aquí: derecha", "Descarga: sin juzgar. 12 aforos; una boquilla da en promedio 0,245 gal/min", "bed 1: "},
		"rate-to-correct": {"NO LISTA.", "Tasa (volumen de aplicación): NO ESTÁ EN ORDEN", "No aplique. ", "Plan 1: avance a 3,63 mph. Eso debería dar 90 gal/acre", "ajuste 40 psi en las boquillas", "Plan 4: use el cambio B3, ajuste 58,9 psi en las boquillas, avance a 3,6 mph. "},
	} {
		var english, out, errs bytes.Buffer
		file := filepath.Join("../../testdata/demo", name+".json")
		if code := run(t.Context(), []string{"calibrate", "-text", "-lang", "es", file}, noEnv, nil, &out, &errs); code != 0 {
			t.Fatalf("%s: %d %s", name, code, errs.String())
		}
		if code := run(t.Context(), []string{"calibrate", "-text", "-lang", "en", file}, noEnv, nil, &english, &errs); code != 0 {
			t.Fatalf("%s: %d %s", name, code, errs.String())
		}
		for _, line := range want {
			if !strings.Contains(out.String(), line) {
				t.Errorf("%s: no %q in\n%s", name, line, out.String())
			}
		}
		for _, raw := range []string{"summary.", "%!", "gal_us", "_", " the ", " is "} {
			if strings.Contains(out.String(), raw) {
				t.Errorf("%s shows %q:\n%s", name, raw, out.String())
			}
		}
		figures := regexp.MustCompile(`\d+(?:[.,]\d+)?`)
		a := figures.FindAllString(regexp.MustCompile(`(\d)\.(\d)`).ReplaceAllString(english.String(), "$1,$2"), -1)
		b := figures.FindAllString(out.String(), -1)
		slices.Sort(a)
		slices.Sort(b)
		if len(a) < 20 || !slices.Equal(a, b) {
			t.Errorf("%s: English numbers %v, Spanish %v", name, a, b)
		}
	}
}

func TestVersion(t *testing.T) {
	var out, errs bytes.Buffer
	if code := run(t.Context(), []string{"version"}, noEnv, nil, &out, &errs); code != 0 || out.String() != "wetrun development, "+runtime.Version()+"\n" {
		t.Errorf("%d %q %q", code, out.String(), errs.String())
	}
}

func TestCallsThatFail(t *testing.T) {
	for _, c := range []struct {
		args []string
		in   string
		code int
		says string
	}{
		{[]string{"spray"}, "", 2, "no command"},
		{[]string{"calibrate"}, "", 2, "one file"},
		{[]string{"calibrate", "no/such/file"}, "", 1, "no such file"},
		{[]string{"calibrate", "-"}, `{"sheet":1}`, 1, "unknown_member"},
		{[]string{"calibrate", "-"}, ``, 1, "not_json"},
		{[]string{"calibrate", "-text", "-"}, `{"speed":{"runs":[]}}`, 1, "too_few"},
		{[]string{"calibrate", "-text", "-"}, `{"machine":{"bedWidth":{"value":40,"unit":"in"}}}`, 1, "nozzlesPerBed"},
		{[]string{"calibrate", "-html", "-"}, ``, 2, "no flag -html"},
		{[]string{"calibrate", "-lang", "fr", "-"}, ``, 2, "en, es"},
		{[]string{"calibrate", "-lang", "es", "-"}, `{"sheet":1}`, 1, "no hay ningún campo"},
		{[]string{"calibrate", "-"}, strings.Repeat(" ", 300<<10), 1, "at most 262,144 bytes"},
		{[]string{"serve", "-addr", "256.0.0.1:1"}, "", 1, "WETRUN_ADDR"},
		{[]string{"serve", "-port", "1"}, "", 2, "-addr"},
		{[]string{"serve", "now"}, "", 2, ""},
	} {
		var out, errs bytes.Buffer
		if code := run(t.Context(), c.args, noEnv, strings.NewReader(c.in), &out, &errs); code != c.code || !strings.Contains(errs.String(), c.says) {
			t.Errorf("%v: %d %q, want %d %q", c.args, code, errs.String(), c.code, c.says)
		}
	}
}

// TestServeAndStop starts the service, runs the curl that it prints, and stops it.
func TestServeAndStop(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	reader, writer := io.Pipe()
	done := make(chan int, 1)
	env := func(name string) string { return map[string]string{"WETRUN_ADDR": "127.0.0.1:0"}[name] }
	go func() {
		done <- run(ctx, nil, env, strings.NewReader(""), writer, io.Discard)
		writer.Close()
	}()
	head := make([]byte, 1024)
	n, err := reader.Read(head)
	if err != nil {
		t.Fatal(err)
	}
	rest := make(chan string, 1)
	go func() {
		b, _ := io.ReadAll(reader)
		rest <- string(b)
	}()
	hint := regexp.MustCompile(`(?s)(http://\S+/v1/ground-speed).*-d '(.*)'`).FindStringSubmatch(string(head[:n]))
	if hint == nil {
		t.Fatalf("no curl to try in %q", head[:n])
	}
	resp, err := http.Post(hint[1], "application/json", strings.NewReader(hint[2]))
	if err != nil {
		t.Fatal(err)
	}
	answer, _ := io.ReadAll(resp.Body)
	resp.Body.Close()
	if resp.StatusCode != http.StatusOK || !bytes.Contains(answer, []byte("groundSpeed")) {
		t.Errorf("%d %s", resp.StatusCode, answer)
	}
	stop()
	select {
	case code := <-done:
		if code != 0 {
			t.Errorf("exit status %d", code)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it does not stop")
	}
	if said := <-rest; !strings.Contains(said, "stopped") {
		t.Errorf("on stopping it says %q", said)
	}
}
