package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"regexp"
	"strings"
	"text/tabwriter"

	"wetrun/internal/text"
)

// errUsage is a mistake in how the command was called.
var errUsage = errors.New("usage")

// A wrongCall says what the mistake is.
type wrongCall struct{ error }

func (wrongCall) Is(target error) bool { return target == errUsage }

func wrong(lang text.Language, key string, args ...any) error {
	return wrongCall{said(lang, key, args...)}
}

// said is an error in words of the language.
func said(lang text.Language, key string, args ...any) error {
	return errors.New(text.Of(lang, key, args...))
}

// takeLanguage takes -lang off the arguments, wherever it stands, so that what is said of
// the others is in that language already.
func takeLanguage(args []string) (lang text.Language, rest []string, ok bool) {
	for i := 0; i < len(args); i++ {
		flag, tag, given := strings.Cut(args[i], "=")
		switch {
		case flag == "--":
			return lang, append(rest, args[i:]...), true
		case flag != "-lang" && flag != "--lang":
			rest = append(rest, args[i])
			continue
		case !given && i+1 < len(args):
			i++
			tag = args[i]
		}
		if lang, ok = text.Named(tag); !ok {
			return lang, nil, false
		}
	}
	return lang, rest, true
}

// flagOf finds in an error of the flag package, which is English, the flag that it is about.
var flagOf = regexp.MustCompile(`(?::| for| flag) (-[^\s:]*)`)

// parse reads the flags of a command. -help prints the usage.
func parse(flags *flag.FlagSet, args []string, lang text.Language, errs io.Writer) error {
	flags.SetOutput(io.Discard)
	err := flags.Parse(args)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, flag.ErrHelp):
		if err := usage(lang, errs); err != nil {
			return err
		}
		return errUsage
	}
	name := "-"
	if m := flagOf.FindStringSubmatch(err.Error()); m != nil {
		name = m[1]
	}
	if flags.Lookup(strings.TrimLeft(name, "-")) == nil {
		return wrong(lang, "command.unknown_flag", name)
	}
	return wrong(lang, "command.flag_value", name)
}

// usage prints how the command is called.
func usage(lang text.Language, out io.Writer) error {
	columns := tabwriter.NewWriter(out, 2, 0, 2, ' ', 0)
	c, _ := newConfig()
	fmt.Fprintln(columns, text.Of(lang, "command.usage", c.addr))
	return columns.Flush()
}
