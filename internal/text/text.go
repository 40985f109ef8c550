// Package text holds every word that people read in an answer: one file per
// operation, with the languages side by side. Codes never change with the
// language; only these texts do.
package text

import (
	"context"
	"fmt"
	"math"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"
)

// An entry is one text. Its key is a kind and a code: warning.single_run. The
// arguments it takes are quantities and lists, already worded.
type entry struct {
	key     string
	english string
	spanish string
}

// A Language is one that answers can be worded in.
type Language struct{ tag *language.Tag }

var english = language.English

// English is the language answers fall back to.
var English = Language{&english}

// Tag returns the language's BCP 47 tag, as in Content-Language.
func (l Language) Tag() string { return l.tag.String() }

var (
	printer  *message.Printer
	fixed    = map[string]string{} // texts without arguments, which need no printer
	contents = [][]entry{
		problems,
		cautions,
		units,
		groundSpeed,
		nozzle,
		nozzleFlow,
		pressureUniformity,
		tolerances,
		procedure,
		applicationRate,
		areaCheck,
		courseLength,
		convert,
		nozzleAcceptance,
		nozzleSelection,
		corrections,
		calibrations,
		summaries,
		fieldCapacity,
		tankLoads,
		pumpDemand,
		patternUniformity,
		wearForecast,
		meterCalibration,
	}
)

func init() {
	b := catalog.NewBuilder(catalog.Fallback(english))
	for _, file := range contents {
		for _, e := range file {
			if _, twice := fixed[e.key]; twice {
				panic("text: two texts for " + e.key)
			}
			fixed[e.key] = e.english
			if err := b.SetString(english, e.key, e.english); err != nil {
				panic(err)
			}
		}
	}
	printer = message.NewPrinter(english, message.Catalog(b))
}

// Match returns the language for an Accept-Language header. There is one so far.
func Match(string) Language { return English }

// Of returns a text in a language. A key without a text is a mistake of ours that
// tests find; it answers with the key, since half an answer beats none.
func Of(lang Language, key string, args ...any) string {
	s, ok := fixed[key]
	switch {
	case !ok:
		return key
	case len(args) == 0:
		return s
	}
	return printer.Sprintf(key, args...)
}

// Has tells whether there is a text for a key.
func Has(key string) bool { _, ok := fixed[key]; return ok }

// Keys lists the keys of all texts.
func Keys() []string {
	keys := make([]string, 0, len(fixed))
	for k := range fixed {
		keys = append(keys, k)
	}
	return keys
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

// Number words a number for people, who read gauges and jugs: three significant
// digits, and whole ones from a hundred on.
func Number(x float64) string {
	if math.Abs(x) >= 100 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.3g", x)
}
