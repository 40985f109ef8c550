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
)

// tags has the languages in the order of their constants.
var tags = []language.Tag{language.English, language.Spanish}

// Languages lists every language.
func Languages() []Language { return []Language{English, Spanish} }

// Tag returns the language's BCP 47 tag, as in Content-Language.
func (l Language) Tag() string { return [...]string{"en", "es"}[l] }

// Named returns the language with a tag, as it is named on a command line.
func Named(tag string) (l Language, ok bool) {
	for _, l := range Languages() {
		if l.Tag() == tag {
			return l, true
		}
	}
	return English, false
}

// longestHeader is far more than a browser sends. A longer header is not read.
const longestHeader = 512

var (
	matcher = language.NewMatcher(tags)
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
