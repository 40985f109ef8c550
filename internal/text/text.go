// Package text holds every word that people read in an answer: one file per
// operation, with the languages side by side. Codes never change with the
// language; only these texts do.
package text

import (
	"cmp"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"
)

// An entry is one text. Its key is a kind and a code: warning.single_run. The
// arguments it takes are quantities and lists, already worded. The words that the
// Spanish keeps to are in DEVELOPERS.md.
type entry struct {
	key     string
	english string
	spanish string
}

var (
	printers [2]*message.Printer
	// texts has each text in the order of the languages. Those without arguments
	// need no printer.
	texts    = map[string][2]string{}
	contents = [][]entry{
		problems,
		cautions,
		units,
		uncertainty,
		groundSpeed,
		nozzle,
		nozzleFlow,
		pressureUniformity,
		tolerances,
		instrumentErrors,
		procedure,
		applicationRate,
		areaCheck,
		courseLength,
		convert,
		nozzleAcceptance,
		sampling,
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
		records,
		deprecation,
		methods,
		methodSymbols,
	}
)

func init() {
	b := catalog.NewBuilder(catalog.Fallback(language.English))
	for _, file := range contents {
		for _, e := range file {
			if _, twice := texts[e.key]; twice {
				panic("text: two texts for " + e.key)
			}
			worded := [2]string{e.english, cmp.Or(e.spanish, e.english)}
			texts[e.key] = worded
			for l, s := range worded {
				if err := b.SetString(tags[l], e.key, s); err != nil {
					panic(err)
				}
			}
		}
	}
	for l, tag := range tags {
		printers[l] = message.NewPrinter(tag, message.Catalog(b))
	}
}

// Of returns a text in a language. A key without a text is a mistake of ours that
// tests find; it answers with the key, since half an answer beats none.
func Of(lang Language, key string, args ...any) string {
	s, ok := texts[key]
	switch {
	case !ok:
		return key
	case len(args) == 0:
		return s[lang]
	}
	return printers[lang].Sprintf(key, lang.worded(args)...)
}

// Has tells whether there is a text for a key.
func Has(key string) bool { _, ok := texts[key]; return ok }

// Keys lists the keys of all texts.
func Keys() []string {
	keys := make([]string, 0, len(texts))
	for k := range texts {
		keys = append(keys, k)
	}
	return keys
}
