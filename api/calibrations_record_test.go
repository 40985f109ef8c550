package api

import (
	"encoding/json"
	"html"
	"math"
	"net/http"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"wetrun/internal/record"
)

func demo(t testing.TB, name string) string {
	t.Helper()
	b, err := os.ReadFile("../testdata/demo/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// TestRecord asks for the records of the invented sheets; the words to find are those
// of the JSON answers.
func TestRecord(t *testing.T) {
	for name, want := range map[string][]string{
		"ready":           {"Strawberry beds, north block (invented)", "ready", "46.2 US fl oz", "March 1, 2027", "Measured by", "line strainer: cleaned", "<main>", ">Cautions<"},
		"boom-to-repair":  {"not ready", "qualified mechanic", "center 3", "39.8 US fl oz", ">Warnings<", "Result: not judged"},
		"rate-to-correct": {"1. drive 3.63 mph", "use gear B3", "90 US gal/acre", "Nozzles: 3 · Time: 30 s · Acceptable in jug: 42.3 to 51.7 US fl oz"},
	} {
		w := call(t, http.MethodPost, "/v1/calibrations", demo(t, name), "Accept", "text/html")
		page := w.Body.String()
		if got := w.Header().Get("Content-Type"); w.Code != http.StatusOK || got != "text/html; charset=utf-8" {
			t.Fatalf("%s: %d %s", name, w.Code, got)
		}
		for _, words := range want {
			if !strings.Contains(page, words) {
				t.Errorf("%s: no %q", name, words)
			}
		}
		// What nobody asked for was not left undone, and on an uneven boom no catch is off.
		for _, raw := range []string{"printed.", "summary.", "%!", "gal_us", "<script", "not done", "TOO "} {
			if strings.Contains(page, raw) {
				t.Errorf("%s shows %q", name, raw)
			}
		}
		if !strings.Contains(w.Header().Get("Vary"), "Accept") || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: %v", name, w.Header())
		}
		ranges := 12
		if name == "boom-to-repair" {
			ranges = 0
		}
		if strings.Count(page, `<tr`) < 12+3+2 || strings.Count(page, "<rect") != ranges {
			t.Errorf("%s: a reading is not on the page", name)
		}
	}
}

// TestRecordWorking: a row for each line of the JSON answer, word for word, in the order
// of the lines; and no table when it is not asked for.
func TestRecordWorking(t *testing.T) {
	sheet := strings.Replace(demo(t, "rate-to-correct"), "{", `{"showWorking": true,`, 1)
	var a explainedAnswer
	if err := json.Unmarshal(post(t, "calibrations", sheet).Body.Bytes(), &a); err != nil || len(a.Working) < 50 {
		t.Fatalf("%d lines, %v", len(a.Working), err)
	}
	for tag, words := range map[string][]string{"en": {"Ground speed over all runs", "Combined standard uncertainty"}, "es": {"Velocidad de avance en todos los recorridos", "Incertidumbre estándar combinada"}} {
		page := html.UnescapeString(call(t, http.MethodPost, "/v1/calibrations", sheet, "Accept", "text/html", "Accept-Language", tag).Body.String())
		_, page, found := strings.Cut(page, `<section class="working">`)
		if !found {
			t.Fatalf("%s: no working", tag)
		}
		for _, w := range words {
			if !strings.Contains(page, w) {
				t.Errorf("%s: no %q", tag, w)
			}
		}
		rows := regexp.MustCompile(`<tr><th scope="row">(.*?)</th><td>(.*?)</td><td>(.*?)</td><td>(.*?)</td></tr>`).FindAllStringSubmatch(page, -1)
		if len(rows) != len(a.Working) {
			t.Fatalf("%s: %d rows for %d lines", tag, len(rows), len(a.Working))
		}
		for i, l := range a.Working {
			result := strconv.FormatFloat(l.Result.Value, 'f', -1, 64)
			if r := rows[i]; r[2] != l.Formula || !strings.HasPrefix(r[3], l.Substituted) || !strings.Contains(r[1], strings.TrimPrefix(l.Member, "#/")) ||
				math.Abs(l.Result.Value) > 1e-5 && !strings.HasPrefix(r[4], result) {
				t.Errorf("%s: line %d is %+v, the row %q", tag, i, l, r[1:])
			}
		}
	}
	if page := call(t, http.MethodPost, "/v1/calibrations", demo(t, "ready"), "Accept", "text/html").Body.String(); strings.Contains(page, `class="working"`) {
		t.Error("working that nobody asked for")
	}
}

// TestRecordDigest: the SHA-256 of the canonical request, computed with a few lines of
// Python (members sorted, no spaces, numbers in their shortest form). Neither spaces
// nor order change it, a reading does.
func TestRecordDigest(t *testing.T) {
	const known = "49216c355f62cb5f62f97a54b94bd27243c6e178c024b360cd6f21cf0275d3a1"
	sheet := demo(t, "ready")
	inside := regexp.MustCompile(`<code>([0-9a-f]{64})</code>`)
	digest := func(body string) string {
		w := call(t, http.MethodPost, "/v1/calibrations", body, "Accept", "text/html")
		m := inside.FindStringSubmatch(w.Body.String())
		if m == nil {
			t.Fatalf("no digest: %d", w.Code)
		}
		return m[1]
	}
	if got := digest(sheet); got != known {
		t.Errorf("%s, want %s", got, known)
	}
	label := `"label": "Strawberry beds, north block (invented)",`
	moved := strings.Replace(strings.Replace(sheet, label, "", 1), "\n}", ",\n"+strings.TrimSuffix(label, ",")+"}", 1)
	if got := digest(strings.TrimSpace(moved)); got != known {
		t.Errorf("in another order: %s", got)
	}
	if got := digest(strings.Replace(sheet, "46.2", "46.3", 1)); got == known {
		t.Error("another reading has the same digest")
	}
}

func TestRecordInSpanish(t *testing.T) {
	w := call(t, http.MethodPost, "/v1/calibrations", demo(t, "boom-to-repair"), "Accept", "text/html", "Accept-Language", "es")
	page := w.Body.String()
	for _, words := range []string{`<html lang="es">`, "no lista", "sin juzgar", "0,207 gal/min", "Huella de la solicitud"} {
		if !strings.Contains(page, words) {
			t.Errorf("no %q", words)
		}
	}
	if w.Header().Get("Content-Language") != "es" {
		t.Error(w.Header())
	}
}

// TestPointOfSpanish: who writes a decimal point gets one, in the same words, and is told so.
func TestPointOfSpanish(t *testing.T) {
	for asked, want := range map[string][2]string{"es": {"es", "0,207 gal/min"}, "es-CO": {"es", "0,207 gal/min"}, "es-MX": {"es-419", "0.207 gal/min"}, "es-US,es;q=0.9": {"es-419", "0.207 gal/min"}} {
		w := call(t, http.MethodPost, "/v1/calibrations", demo(t, "boom-to-repair"), "Accept", "text/html", "Accept-Language", asked)
		if got := w.Header().Get("Content-Language"); got != want[0] || !strings.Contains(w.Body.String(), want[1]) || !strings.Contains(w.Body.String(), `<html lang="`+want[0]+`">`) {
			t.Errorf("%s: %s, without %s", asked, got, want[1])
		}
	}
}

// TestRecordAltersNoReading: what was sent stands as it was sent, and the target in the
// unit of the rate that it is compared with. 90 gal_us/acre is 841.9 L/ha by the exact
// units.
func TestRecordAltersNoReading(t *testing.T) {
	sheet := strings.NewReplacer(`"value": 46.2,`, `"value": 46.25,`, `"value": 22.8,`, `"value": 22.785,`, "\n}", ",\"resultUnits\":\"metric\"}").Replace(strings.TrimSpace(demo(t, "rate-to-correct")) + "\n")
	page := call(t, http.MethodPost, "/v1/calibrations", strings.TrimSuffix(sheet, "\n"), "Accept", "text/html").Body.String()
	for _, words := range []string{"Do not spray. This is over the label maximum.", "46.25 US fl oz", "22.785 s", "90 US gal/acre", "target rate is 842 L/ha"} {
		if !strings.Contains(html.UnescapeString(page), words) {
			t.Errorf("no %q", words)
		}
	}
}

// TestRecordCost: a rate above its target costs, one below it saves; money as its
// currency is written, with what was planned and the limits that were given. By hand: the
// sheet of rate-to-correct is 110.804 / 90 - 1 = 23.115 % over, and 23.115 % of 25.50 USD is 5.89, of
// 80 acres 471.55; with a target of 120 it is 7.664 % under, 1.95 USD.
func TestRecordCost(t *testing.T) {
	sheet := strings.Replace(demo(t, "rate-to-correct"), "{", `{"cost":{"mix":{"amount":25.5,"currency":"USD"},"perArea":{"value":1,"unit":"acre"},"plannedArea":{"value":80,"unit":"acre"}},`, 1)
	saving := strings.NewReplacer("\"value\": 90,\n", "\"value\": 120,\n", "\"value\": 108.0,\n", "\"value\": 150,\n").Replace(sheet)
	for _, c := range []struct {
		sheet, language string
		want            []string
	}{
		{sheet, "en", []string{"The spray mix costs 5.89 USD more per acre than at the target rate, and 471.55 USD more on the planned area.", "25.50 USD for 1 acre", "80 acre", "2 mph to 5 mph", "40 psi to 80 psi"}},
		{strings.Replace(sheet, "25.5,", "0.125,", 1), "en", []string{"0.125 USD for 1 acre"}},
		{saving, "en", []string{"The spray mix costs 1.95 USD less per acre than at the target rate, and 156.33 USD less on the planned area."}},
		{saving, "es", []string{"La mezcla cuesta 1,95 USD menos por acre que con la tasa objetivo, y 156,33 USD menos en la superficie prevista."}},
	} {
		page := html.UnescapeString(call(t, http.MethodPost, "/v1/calibrations", c.sheet, "Accept", "text/html", "Accept-Language", c.language).Body.String())
		for _, words := range c.want {
			if !strings.Contains(page, words) {
				t.Errorf("%s: no %q", c.language, words)
			}
		}
	}
}

// TestRecordOfNothing: an empty sheet has a record too, and a refused one a problem.
func TestRecordOfNothing(t *testing.T) {
	if w := call(t, http.MethodPost, "/v1/calibrations", "{}", "Accept", "text/html"); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "incomplete") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	if w := call(t, http.MethodPost, "/v1/calibrations", `{"sheet":1}`, "Accept", "text/html"); w.Code != http.StatusUnprocessableEntity || w.Header().Get("Content-Type") != "application/problem+json" {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

// TestAccept: RFC 9110, section 12.5.1; the more exact range decides.
func TestAccept(t *testing.T) {
	for accept, html := range map[string]bool{
		"": false, "*/*": false, "application/json": false, "text/html": true, "TEXT/HTML": true,
		"text/html, application/json": true, "text/html;q=0.5, application/json": false,
		"text/html;q=0.9,*/*;q=0.1": true, "text/html;q=0": false, "text/html;q=0.2, application/*": false,
		"text/html, application/xhtml+xml, application/xml;q=0.9, */*;q=0.8": true,
		"text/html;q=2": false, "text/html;q=x": false, "html": false, "text/html" + strings.Repeat(",a/b", 1000): false,
	} {
		req, _ := http.NewRequest(http.MethodPost, "/", nil)
		if accept != "" {
			req.Header.Set("Accept", accept)
		}
		if got := prefersHTML(req); got != html {
			t.Errorf("%.60q: %v", accept, got)
		}
	}
}

// FuzzRecord: nothing that a user names becomes markup.
func FuzzRecord(f *testing.F) {
	for _, label := range []string{`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `</title><svg onload=a>`, "a\u2028b", "{{.}}", `'"&<>`, "</style><b>"} {
		f.Add(label)
	}
	markup := regexp.MustCompile(`<(/?[a-zA-Z][a-zA-Z0-9]*)`)
	tags := map[string]bool{}
	for _, m := range markup.FindAllStringSubmatch(recordOf(f, "plain"), -1) {
		tags[m[1]] = true
	}
	count := func(page string) int { return len(markup.FindAllString(page, -1)) }
	plain := count(recordOf(f, "plain"))
	f.Fuzz(func(t *testing.T, label string) {
		page := recordOf(t, label)
		if page == "" {
			return // refused: too long, or no text
		}
		for _, m := range markup.FindAllStringSubmatch(page, -1) {
			if !tags[m[1]] {
				t.Fatalf("%q made the tag %s", label, m[1])
			}
		}
		if strings.TrimSpace(label) != "" && count(page) != plain {
			t.Errorf("%q made markup", label)
		}
	})
}

// recordOf is the page of a sheet on which everything that can be named has one name.
func recordOf(t testing.TB, label string) string {
	quoted := encodeJSON(t, label)
	body := `{"label":L,"machine":{"label":L,"gear":L},"pressure":{"readings":[{"label":L,"pressure":{"value":40,"unit":"psi"}}]},
		"output":{"catches":[{"label":L,"volume":{"value":40,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}},{"label":L,"volume":{"value":90,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}}]},
		"speed":{"runs":[{"label":L,"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]},
		"maintenance":{"beds":[{"label":L,"clean":1}],"findings":[{"item":L,"finding":L}]}}`
	w := call(t, http.MethodPost, "/v1/calibrations", strings.ReplaceAll(body, "L", quoted), "Accept", "text/html")
	if w.Code != http.StatusOK {
		return ""
	}
	return w.Body.String()
}

// TestDemoSheetsCanBe: the boom of an invented sheet has as many nozzles as its beds, all
// of them on the drops that there are to catch at, of which not more were caught than there are.
func TestDemoSheetsCanBe(t *testing.T) {
	for _, name := range []string{"ready", "rate-to-correct", "boom-to-repair"} {
		var s struct {
			Machine struct{ BedsCovered, NozzlesPerBed int }
			Output  struct {
				CatchPointsOnBoom int
				Catches           []struct{ Nozzles int }
			}
			AreaCheck struct{ Width struct{ Value float64 } }
		}
		if err := json.Unmarshal([]byte(demo(t, name)), &s); err != nil {
			t.Fatal(err)
		}
		onBoom := s.Machine.BedsCovered * s.Machine.NozzlesPerBed
		if got := s.Output.CatchPointsOnBoom * s.Output.Catches[0].Nozzles; got != onBoom || len(s.Output.Catches) > s.Output.CatchPointsOnBoom {
			t.Errorf("%s: %d drops of %d nozzles on a boom of %d", name, s.Output.CatchPointsOnBoom, s.Output.Catches[0].Nozzles, onBoom)
		}
		// Beds of 40 in: what the tank lost went on all of them.
		if w := s.AreaCheck.Width.Value; w != 0 && w*12 != float64(s.Machine.BedsCovered*40) {
			t.Errorf("%s: %v ft for %d beds", name, w, s.Machine.BedsCovered)
		}
	}
}

// TestRefusedRecordIsNoPage: a client that asks for the record of a sheet that is refused
// gets the headers of a problem, not those of a page.
func TestRefusedRecordIsNoPage(t *testing.T) {
	send := func(body string) (int, string, string) {
		w := call(t, http.MethodPost, "/v1/calibrations", body, "Accept", "text/html")
		return w.Code, w.Header().Get("Content-Type"), w.Header().Get("Content-Security-Policy")
	}
	if code, media, policy := send(`{"label":3}`); code != http.StatusUnprocessableEntity || media != "application/problem+json" || policy == record.Policy {
		t.Error(code, media, policy)
	}
	if code, _, policy := send(`{}`); code != http.StatusOK || policy != record.Policy {
		t.Error(code, policy)
	}
}
