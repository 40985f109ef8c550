// Package text holds every word that people read in an answer: one file per
// operation, with the languages side by side. Codes never change with the
// language; only these texts do.
package text

import (
	"cmp"
	"strings"
	"sync"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"
)

// An entry is one text. Its key is a kind and a code: warning.single_run. The
// arguments it takes are quantities and lists, already worded. The words that the
// Spanish keeps to are in GLOSSARY.md.
type entry struct {
	key     string
	english string
	spanish string
}

// entries are the texts of one file; each file adds its own.
type entries []entry

var (
	// texts has each text in the order of the languages.
	texts = map[string][languages]string{}
	// templates has those with arguments, cut at them.
	templates = map[string][languages]template{}
)

// withPoints writes a text with decimal points in the place of its commas between digits.
func withPoints(s string) string {
	digit := func(c byte) bool { return c >= '0' && c <= '9' }
	b := []byte(s)
	for i := 1; i < len(b)-1; i++ {
		if b[i] == ',' && digit(b[i-1]) && digit(b[i+1]) {
			b[i] = '.'
		}
	}
	return string(b)
}

// add makes the texts of a file known.
func (file entries) add() (added struct{}) {
	for _, e := range file {
		if _, twice := texts[e.key]; twice {
			panic("text: two texts for " + e.key)
		}
		spanish := cmp.Or(e.spanish, e.english)
		worded := [languages]string{e.english, spanish, withPoints(spanish)}
		texts[e.key] = worded
		if strings.Contains(e.english, "%[") {
			templates[e.key] = [languages]template{templateOf(worded[English]), templateOf(worded[Spanish]), templateOf(worded[PointSpanish])}
		}
	}
	return added
}

// addUnder makes them known under each of some kinds, where a step and an action say the same.
func (file entries) addUnder(kinds ...string) (added struct{}) {
	for _, kind := range kinds {
		for _, e := range file {
			entries{{kind + "." + e.key, e.english, e.spanish}}.add()
		}
	}
	return added
}

// printers fill in what templates do not. They are made when first needed.
var printers = sync.OnceValue(func() (all [languages]*message.Printer) {
	b := catalog.NewBuilder(catalog.Fallback(language.English))
	for key, worded := range texts {
		for l, s := range worded {
			if err := b.SetString(tags[l], key, s); err != nil {
				panic(err)
			}
		}
	}
	for l, tag := range tags {
		all[l] = message.NewPrinter(tag, message.Catalog(b))
	}
	return all
})

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
	if simple, ok := lang.argumentsOf(args); ok {
		if filled, ok := templates[key][lang].fill(lang, simple); ok {
			return filled
		}
	}
	return printed(lang, key, args)
}

// printed fills a text in with the printer.
func printed(lang Language, key string, args []any) string {
	return printers()[lang].Sprintf(key, lang.worded(args)...)
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
