package text_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"

	"wetrun/internal/text"
)

// TestMatch negotiates by RFC 9110, section 12.5.4 (IETF, 2022,
// https://www.rfc-editor.org/rfc/rfc9110#section-12.5.4): the highest weight that
// can be served wins, the first of equals, and a weight of 0 excludes. Where
// neither is asked for, English is ours to choose.
func TestMatch(t *testing.T) {
	for header, want := range map[string]text.Language{
		"":   text.English,
		"*":  text.English,
		"en": text.English, "EN": text.English, "en-GB": text.English, "en-US,en;q=0.5": text.English,
		"es": text.Spanish, "ES": text.Spanish, "es-MX": text.PointSpanish, "es-419": text.PointSpanish, "es-mx": text.PointSpanish, "es_MX": text.PointSpanish,
		"es-MX,es;q=0.9,en;q=0.8":          text.PointSpanish,
		"en-US,en;q=0.9,es-MX;q=0.8":       text.English,
		"es;q=0.5, en;q=0.4":               text.Spanish,
		"en;q=0.4, es;q=0.5":               text.Spanish,
		"es;q=0.4, en;q=0.5":               text.English,
		"en;q=0.001, es;q=0.002":           text.Spanish,
		"es ; q=0.9 , en ; q=0.1":          text.Spanish,
		"es;q=0, en;q=0.1":                 text.English,
		"es;q=0":                           text.English,
		"en;q=0, es;q=0.1":                 text.Spanish,
		"*;q=0.1, es":                      text.Spanish,
		"fr, es;q=0.5":                     text.Spanish,
		"fr-CA, fr;q=0.9, de;q=0.7":        text.English,
		"zh-Hant-TW":                       text.English,
		"es-MX-x-huerta":                   text.PointSpanish,
		"es,,en":                           text.Spanish,
		"es;q=abc":                         text.English,
		"es;level=1":                       text.English,
		";;;":                              text.English,
		"=":                                text.English,
		"español":                          text.English,
		"es\x00":                           text.English,
		strings.Repeat("es,", 200):         text.English, // more than is read
		strings.Repeat("-", 16<<10):        text.English,
		strings.Repeat("fr,", 100) + "es":  text.Spanish,
		"es;q=" + strings.Repeat("9", 400): text.English,
	} {
		if got := text.Match(header); got != want {
			t.Errorf("%.60q: %s, want %s", header, got.Tag(), want.Tag())
		}
	}
}

// TestSpanishOfRegions: each region of ISO 3166 has the decimal sign of CLDR, as
// golang.org/x/text has its data.
func TestSpanishOfRegions(t *testing.T) {
	points := 0
	for _, letters := range append(twoLetters(), "419") {
		region, err := language.ParseRegion(letters)
		if err != nil || region.Canonicalize() != region {
			continue
		}
		tag, err := language.Compose(language.Spanish, region)
		if err != nil {
			t.Fatal(err)
		}
		want := text.Spanish
		if strings.Contains(message.NewPrinter(tag).Sprint(number.Decimal(1.5)), ".") {
			want = text.PointSpanish
			points++
		}
		if got := text.Match(tag.String()); got != want {
			t.Errorf("%s: %s, want %s", tag, got.Tag(), want.Tag())
		}
		if got, ok := text.Named(tag.String()); got != want || !ok {
			t.Errorf("-lang %s: %s, want %s", tag, got.Tag(), want.Tag())
		}
	}
	if points < 10 || text.PointSpanish.Number(0.207) != "0.207" || text.Spanish.Number(0.207) != "0,207" {
		t.Errorf("%d regions with a point", points)
	}
	for header, want := range map[string]text.Language{
		"es,es-MX;q=0.9": text.Spanish, "es-AR,es;q=0.9": text.Spanish, "es-MX;q=0.5,es-ES": text.Spanish, "en;q=0.1,es-US": text.PointSpanish, "es-GT,es;q=0.9,en;q=0.1": text.PointSpanish,
	} {
		if got := text.Match(header); got != want {
			t.Errorf("%s: %s", header, got.Tag())
		}
	}
}

func twoLetters() (all []string) {
	for a := 'A'; a <= 'Z'; a++ {
		for b := 'A'; b <= 'Z'; b++ {
			all = append(all, string([]rune{a, b}))
		}
	}
	return all
}

// TestMatchCosts: what most clients send is matched without allocation, and no
// header within a server's bounds takes long.
func TestMatchCosts(t *testing.T) {
	for _, header := range []string{"", "*", "en-US,en;q=0.9", "es-MX,es;q=0.9,en;q=0.8", "es", "es-419"} {
		if n := testing.AllocsPerRun(100, func() { text.Match(header) }); n > 0 {
			t.Errorf("%q: %v allocations", header, n)
		}
	}
	for _, piece := range []string{"-", "a-", "es,", "es-MX-x-a,", ";q=", "es;q=0.1,", "zh-hant-cn-u-co-pinyin,", "*,", " "} {
		for _, length := range []int{500, 16 << 10, 1 << 20} {
			header := strings.Repeat(piece, length/len(piece))
			start := time.Now()
			text.Match(header)
			if took := time.Since(start); took > 500*time.Millisecond {
				t.Errorf("%d bytes of %q: %v", len(header), piece, took)
			}
		}
	}
}

func BenchmarkMatch(b *testing.B) {
	for name, header := range map[string]string{"common": "es-MX,es;q=0.9,en;q=0.8", "other": "es-CL,es;q=0.8,pt-BR;q=0.5,en;q=0.3", "hostile": strings.Repeat("es-MX-x-a,", 51), "too_long": strings.Repeat("a-", 8<<10)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				text.Match(header)
			}
		})
	}
}

// FuzzMatch: any header is one of the languages, the same one each time, and a
// header that only asks for more of the unknown changes nothing.
func FuzzMatch(f *testing.F) {
	for _, seed := range []string{"", "*", "es-MX,es;q=0.9,en;q=0.8", "en;q=0", "es;q=", "es_419;q=NaN", "i-klingon,es", "x-y,zh-min-nan;q=1e9", "mul", "und", "es-u-rg-mxzzzz", "sgn-ES;q=-1", "\xff;q=1", "art-lojban"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, header string) {
		got := text.Match(header)
		if !slices.Contains(text.Languages(), got) {
			t.Fatalf("%q: language %d", header, got)
		}
		if again := text.Match(header); again != got {
			t.Errorf("%q: %s, then %s", header, got.Tag(), again.Tag())
		}
		if len(header) < 500 && text.Match(header+",fr;q=0.001") != got {
			t.Errorf("%q: another language when French is asked for last", header)
		}
	})
}

func TestNamed(t *testing.T) {
	for tag, want := range map[string]string{"en": "en", "en-US": "en", "es": "es", "ES": "es", "es-ES": "es", "es-MX": "es-419", "es-419": "es-419", "": "", "fr": "", "e": "", "es-": ""} {
		if l, ok := text.Named(tag); ok != (want != "") || ok && l.Tag() != want {
			t.Errorf("%q: %s %v", tag, l.Tag(), ok)
		}
	}
}

// TestNumbers words what a gauge and a jug show. Decimal signs by the Unicode
// CLDR (https://cldr.unicode.org): a dot in en, a comma in es; 12% in en, 12 % in es.
func TestNumbers(t *testing.T) {
	for x, want := range map[float64][2]string{
		2.9516: {"2.95", "2,95"}, 27.53: {"27.5", "27,5"}, 0.3784: {"0.378", "0,378"}, 1234.4: {"1234", "1234"}, 100: {"100", "100"}, -0.25: {"-0.25", "-0,25"}, 5: {"5", "5"},
	} {
		if en, es := text.English.Number(x), text.Spanish.Number(x); en != want[0] || es != want[1] {
			t.Errorf("%v: %q and %q, want %q", x, en, es, want)
		}
	}
	for l, want := range map[text.Language][3]string{
		text.English: {"12.7%", "12.7 psi", "12.7"}, text.Spanish: {"12,7 %", "12,7 psi", "12,7"}, text.PointSpanish: {"12.7 %", "12.7 psi", "12.7"},
	} {
		for i, unit := range []string{"%", "psi", ""} {
			if got := l.Measured(l.Number(12.7), unit); got != want[i] {
				t.Errorf("%s: %q, want %q", l.Tag(), got, want[i])
			}
			if got := l.Figure(text.Figure{Digits: "12.7", Unit: unit}); got != want[i] {
				t.Errorf("%s: %q in full, want %q", l.Tag(), got, want[i])
			}
		}
	}
	for symbol, want := range map[string][2]string{
		"fl_oz_us": {"US fl oz", "oz fl"}, "gal_us/acre": {"US gal/acre", "gal/acre"}, "gal_imp": {"imp. gal", "gal imp."}, "psi": {"psi", "psi"}, "gal_us/1000ft2": {"US gal/1000 sq ft", "gal/1000 ft²"},
	} {
		if en, es, point := text.English.Unit(symbol), text.Spanish.Unit(symbol), text.PointSpanish.Unit(symbol); en != want[0] || es != want[1] || point != es {
			t.Errorf("%s: %q, %q and %q, want %q", symbol, en, es, point, want)
		}
	}
	least := text.Figure{Digits: "0.001", Unit: "gal_us"}
	for l, want := range map[text.Language][2]string{text.English: {"0.001 gal_us", "262,144"}, text.Spanish: {"0,001 gal_us", "262144"}} {
		if got := text.Of(l, "problem.too_small", least); !strings.Contains(got, want[0]) {
			t.Errorf("%q has no %q", got, want[0])
		}
		if got := text.Of(l, "detail.body_too_large", 262144); !strings.Contains(got, want[1]) {
			t.Errorf("%q has no %q", got, want[1])
		}
	}
}

// TestPercentInTexts: 10% in an English text, 10 % in a Spanish one, by the CLDR too.
func TestPercentInTexts(t *testing.T) {
	apart, joined := regexp.MustCompile(`\d %`), regexp.MustCompile(`\d%`)
	signs := 0
	for _, key := range text.Keys() {
		signs += len(joined.FindAllString(withoutArguments(text.Of(text.English, key)), -1))
		if en := withoutArguments(text.Of(text.English, key)); apart.MatchString(en) {
			t.Errorf("%s: %s", key, en)
		}
		if es := withoutArguments(text.Of(text.Spanish, key)); joined.MatchString(es) {
			t.Errorf("%s: %s", key, es)
		}
	}
	if signs < 10 {
		t.Errorf("only %d percent signs", signs)
	}
}

// withoutArguments writes a 1 for each argument of a text.
func withoutArguments(s string) string { return argument.ReplaceAllString(s, "1") }
