package main

import (
	"errors"
	"flag"

	"wetrun/internal/text"
)

// languageFlag adds -lang to the flags of a command that words answers.
func languageFlag(flags *flag.FlagSet) *text.Language {
	lang := text.English
	flags.Func("lang", "language of what people read: en (the default), es, or es-MX and the like for a decimal point", func(tag string) error {
		l, ok := text.Named(tag)
		if !ok {
			return errors.New("there are en and es, with a region or without")
		}
		lang = l
		return nil
	})
	return &lang
}
