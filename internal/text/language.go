package text

import (
	"context"

	"golang.org/x/text/language"
)

// A Language is one that answers can be worded in.
type Language uint8

// The languages. English is the one that answers fall back to.
const (
	English Language = iota
	Spanish
	// PointSpanish is Spanish that writes a decimal point, as from Mexico to Panama, in
	// the Caribbean, Peru and the United States.
	PointSpanish
	languages
)

// pointRegions are the regions whose Spanish has a decimal point, by CLDR; a test holds
// them against its data.
var pointRegions = map[string]bool{
	"419": true, "BR": true, "BZ": true, "CU": true, "DO": true, "GT": true, "HN": true, "MX": true, "NI": true, "PA": true, "PE": true, "PR": true, "SV": true, "US": true,
}

// tags has the languages in the order of their constants.
var tags = []language.Tag{language.English, language.Spanish, language.LatinAmericanSpanish}

// Languages lists every language.
func Languages() []Language { return []Language{English, Spanish, PointSpanish} }

// Tag returns the language's BCP 47 tag, as in Content-Language.
func (l Language) Tag() string { return [...]string{"en", "es", "es-419"}[l] }

// Named returns the language with a tag, as it is named on a command line: en, es, or
// Spanish of a region such as es-MX.
func Named(tag string) (l Language, ok bool) {
	named, err := language.Parse(tag)
	if err != nil {
		return English, false
	}
	base, _ := named.Base()
	switch base.String() {
	case "en":
		return English, true
	case "es":
		return spanishOf(named), true
	}
	return English, false
}

// spanishOf is the Spanish of a tag. That of no region is the one with a comma.
func spanishOf(tag language.Tag) Language {
	if _, _, region := tag.Raw(); pointRegions[region.String()] {
		return PointSpanish
	}
	return Spanish
}

// longestHeader is far more than a browser sends. A longer header is not read.
const longestHeader = 512

var (
	matcher = language.NewMatcher(tags[:PointSpanish])
	// common are the headers of most clients, matched once.
	common = map[string]Language{}
)

func init() {
	for _, header := range []string{
		"", "*",
		"en", "en-US", "en-GB", "en-US,en", "en-US,en;q=0.5", "en-US,en;q=0.9", "en-GB,en;q=0.9", "en-US,en;q=0.9,es;q=0.8", "en-US,en;q=0.9,es-419;q=0.8,es;q=0.7",
		"es", "es-MX", "es-419", "es-US", "es-ES", "es,en;q=0.9", "es-419,es;q=0.9", "es-419,es;q=0.9,en;q=0.8", "es-US,es;q=0.9", "es-US,es;q=0.9,en;q=0.8",
		"es-MX,es;q=0.9", "es-MX,es;q=0.9,en;q=0.8", "es-MX,es;q=0.8,en-US;q=0.5,en;q=0.3", "es-ES,es;q=0.9", "es-ES,es;q=0.9,en;q=0.8", "es-419,es;q=0.9,es-ES;q=0.8,en;q=0.7",
	} {
		common[header] = negotiate(header)
	}
}

// Match returns the language for an Accept-Language header (RFC 9110): English
// when there is none, when it cannot be read, and when it asks for neither.
func Match(header string) Language {
	if len(header) > longestHeader {
		return English
	}
	if l, ok := common[header]; ok {
		return l
	}
	return negotiate(header)
}

func negotiate(header string) Language {
	wanted, _, err := language.ParseAcceptLanguage(header)
	if err != nil {
		return English
	}
	_, i, confidence := matcher.Match(wanted...)
	if confidence == language.No {
		return English
	}
	if Language(i) == Spanish {
		for _, tag := range wanted { // the most wanted first
			if base, _ := tag.Base(); base.String() == "es" {
				return spanishOf(tag)
			}
		}
	}
	return Language(i)
}

type contextKey struct{}

// In returns a context that carries the language of the answer.
func In(ctx context.Context, lang Language) context.Context {
	return context.WithValue(ctx, contextKey{}, lang)
}

// From returns the language that the context carries, or English.
func From(ctx context.Context) Language {
	if l, ok := ctx.Value(contextKey{}).(Language); ok {
		return l
	}
	return English
}
