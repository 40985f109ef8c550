package text_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"wetrun/internal/text"
)

// alike are texts that are the same in both languages.
var alike = []string{"summary.verdict", "summary.plan_number"}

// pairs calls f with every text in both languages.
func pairs(t *testing.T, f func(t *testing.T, key, english, spanish string)) {
	t.Helper()
	keys := text.Keys()
	if len(keys) < 400 {
		t.Fatalf("only %d texts", len(keys))
	}
	slices.Sort(keys)
	for _, key := range keys {
		t.Run(key, func(t *testing.T) { f(t, key, text.Of(text.English, key), text.Of(text.Spanish, key)) })
	}
}

// englishWords stand in no Spanish sentence.
var englishWords = words(`the|of|and|or|is|are|it|its|not|with|for|what|that|this|where|when|too|nozzle|pressure|speed|label|flow|catch|give|check|must|may`)

// words matches each of some words, alone.
func words(list string) *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:^|[^\p{L}])(` + list + `)(?:[^\p{L}]|$)`)
}

// onWire are members, paths, codes and units, which are the same in every language.
var onWire = regexp.MustCompile(`%\[\d\][sd]|/?\w+(?:[-_/.]\w+)+|[a-z]+(?:[A-Z][a-z]+)+|/v1`)

func TestEveryTextIsInBothLanguages(t *testing.T) {
	pairs(t, func(t *testing.T, key, en, es string) {
		if slices.Contains(alike, key) {
			return
		}
		if en == "" || es == "" || en == es {
			t.Errorf("no Spanish, or no English: %q, %q", en, es)
		}
		// Bare members are one word, and English: nozzle, width.
		if word := englishWords.FindStringSubmatch(onWire.ReplaceAllString(es, "")); word != nil && word[1] != "nozzle" {
			t.Errorf("%q stands in the Spanish: %s", word[1], es)
		}
	})
}

var (
	argument = regexp.MustCompile(`%\[\d\][sd]`)
	point    = regexp.MustCompile(`(\d)\.(\d)`)
	figure   = regexp.MustCompile(`\d+(?:[.,]\d+)?`)
	// measured are units behind a number, and names that nobody translates.
	measured = regexp.MustCompile(`\d ?(s|m|ft|psi|bar|%|L/ha|gal_us/acre)(?:[^\w]|$)|US gal/min|L/min|ISO \d+|UTF-8|JSON|UCUM|UN/CEFACT Rec \d+|USD|EUR|YYYY-MM-DD|Allow\b|Content-[A-Z]\w+|POST|GET|NaN`)
	name     = regexp.MustCompile(`/?[a-z]+(?:[A-Z][a-z]+)+|/\w+(?:/[\w.]+)*|\w+_\w+`)
)

// TestBothLanguagesSayTheSame compares what needs no translation: arguments,
// numbers, units, names on the wire, indents and how the sentence ends.
func TestBothLanguagesSayTheSame(t *testing.T) {
	pairs(t, func(t *testing.T, _, en, es string) {
		if a, b := all(argument, en), all(argument, es); !slices.Equal(a, b) {
			t.Errorf("arguments %q and %q", a, b)
		}
		if a, b := all(figure, point.ReplaceAllString(en, "$1,$2")), all(figure, es); !slices.Equal(a, b) {
			t.Errorf("numbers %q and %q in\n%s\n%s", a, b, en, es)
		}
		if a, b := units(en), units(es); !slices.Equal(a, b) {
			t.Errorf("units and names %q and %q in\n%s\n%s", a, b, en, es)
		}
		for _, name := range name.FindAllString(en, -1) {
			if !strings.Contains(es, name) {
				t.Errorf("%s is missing in %s", name, es)
			}
		}
		if a, b := len(en)-len(strings.TrimLeft(en, " ")), len(es)-len(strings.TrimLeft(es, " ")); a != b || strings.TrimRight(es, " ") != es {
			t.Errorf("spaces at the ends of %q", es)
		}
		if a, b := en[len(en)-1], es[len(es)-1]; a != b && strings.ContainsAny(string([]byte{a, b}), ".?!:") {
			t.Errorf("one ends as a sentence, the other does not:\n%s\n%s", en, es)
		}
		if strings.Count(es, "?") != strings.Count(es, "¿") || strings.Contains(es, "  ") && !strings.HasPrefix(es, "  ") {
			t.Errorf("marks and spaces: %s", es)
		}
	})
}

func all(r *regexp.Regexp, s string) []string {
	found := r.FindAllString(s, -1)
	slices.Sort(found)
	return found
}

func units(s string) []string {
	var found []string
	for _, m := range measured.FindAllStringSubmatch(s, -1) {
		if m[1] != "" {
			found = append(found, m[1])
		} else {
			found = append(found, m[0])
		}
	}
	slices.Sort(found)
	return found
}

// glossary are words of the trade with the one Spanish word for each, so that a
// crew reads the same name for the same thing everywhere.
var glossary = map[string]string{
	`\b[Nn]ozzles?\b`: `boquilla|nozzles?`, `\b[Bb]oom\b`: `aguilón`, `\b[Gg]auges?\b`: `manómetro`, `\b[Ss]prayers?\b`: `aspersora|máquina|equipo`,
	`\b[Bb]eds?\b`: `cama`, `\bjugs?\b`: `jarra`, `\b([Cc]atch(es)?|caught)\b`: `afor|afór|reco[gj]|med|mid|míd|descarga|jarra`, `\b[Ss]topwatch\b`: `cronómetro`, `\bdrift\b`: `deriva`, `\brestricted-entry\b`: `entrada restringida`,
	`\b[Pp]ump\b`: `bomba|pump`, `\bgear\b`: `neutral|cambio`, `\bPTO\b`: `toma de fuerza|pto|cardán`, `\bagitation\b`: `agitación`, `\b[Pp]ressures?\b`: `presi[óo]n|pressure`,
	`\b[Rr]insate\b`: `agua de lavado`, `\b[Pp]rotective equipment\b`: `equipo de protección`, `\bduty cycle\b`: `ciclo de trabajo`,
	`\bdrops? (gives|has|lies)\b`: `bajada`, `\bmechanic\b`: `mecánico|^calificado`, `\bflow meter\b`: `caudalímetro`, `\brate controller\b`: `controlador de tasa`,
}

// familiar are words that say tú: no text does.
var familiar = words(`vosotros|tu|tus|ti|tienes|debes|puedes|haz`)

func TestGlossary(t *testing.T) {
	met := map[string]bool{}
	pairs(t, func(t *testing.T, _, en, es string) {
		for word, want := range glossary {
			if !regexp.MustCompile(word).MatchString(en) {
				continue
			}
			met[word] = true
			if !regexp.MustCompile(want).MatchString(strings.ToLower(es)) {
				t.Errorf("%s, but no %s:\n%s\n%s", word, want, en, es)
			}
		}
		if word := familiar.FindStringSubmatch(es); word != nil {
			t.Errorf("%q says tú: %s", word[1], es)
		}
	})
	for word := range glossary {
		if !met[word] {
			t.Errorf("no text has %s", word)
		}
	}
}
