package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"wetrun/api"
	"wetrun/internal/text"
)

// batch answers the lines of files, or of standard input, as POST /v1/batch would.
// Answers go to out or to -out, the progress to errs, and the summary to errs or to
// -summary as JSON.
func batch(ctx context.Context, args []string, env func(string) string, in io.Reader, out, errs io.Writer) (err error) {
	flags := flag.NewFlagSet("batch", flag.ContinueOnError)
	target := flags.String("out", "", "")
	report := flags.String("summary", "", "")
	from := flags.Int("from", 1, "")
	part := flags.String("part", "", "")
	strict := flags.Bool("strict", false, "")
	quiet := flags.Bool("quiet", false, "")
	lang := text.From(ctx)
	if err := parse(flags, args, lang, errs); err != nil {
		return err
	}
	if *from < 1 {
		return wrong(lang, "command.flag_value", "-from")
	}
	o := api.BatchOptions{From: *from, RequestID: "command-line"}
	if o.Part, o.Parts, err = partOf(*part, env); err != nil {
		return wrong(lang, "command.part")
	}
	lines, size, err := openAll(flags.Args(), in)
	if err != nil {
		return err
	}
	defer lines.Close()
	chosen := false
	flags.Visit(func(f *flag.Flag) { chosen = chosen || f.Name == "from" })
	results, err := openResults(lang, *target, *report, lines.files, chosen, o)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, results.Close()) }()
	if results.answers != nil {
		out = results.answers
	}
	counted := &countingReader{Reader: lines}
	p := &progress{lang: lang, out: errs, from: counted, size: size, started: time.Now(), shown: !*quiet && terminal(errs)}
	o.Progress = p.show
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	tally, err := api.RunBatch(ctx, counted, failingWriter{out, stop}, o)
	p.end()
	if !*quiet {
		fmt.Fprint(errs, summary(lang, tally, time.Since(p.started)))
	}
	if results.summary != nil {
		err = errors.Join(err, writeSummary(results.summary, tally))
	}
	if err != nil {
		if errors.Is(err, context.Canceled) {
			err = said(lang, "command.interrupted")
		}
		return fmt.Errorf("%s: %w", text.Of(lang, "command.stopped", strconv.Itoa(max(tally.Line+1, *from))), err)
	}
	if *strict && tally.Problems > 0 {
		return said(lang, "command.strict", tally.Problems, tally.Lines)
	}
	return nil
}

// A failingWriter stops the batch when it fails, also while that waits for input,
// which may never come.
type failingWriter struct {
	io.Writer
	stop context.CancelCauseFunc
}

func (w failingWriter) Write(b []byte) (int, error) {
	n, err := w.Writer.Write(b)
	if err != nil {
		w.stop(err)
	}
	return n, err
}

// partOf reads i/n, and counts the part from 0. Without it an indexed job says in the
// environment which part it is: it counts from 0, and the image has no shell to add 1.
// Otherwise all lines are one part.
func partOf(s string, env func(string) string) (part, parts int, err error) {
	first := 1
	if n := env("WETRUN_BATCH_PARTS"); s == "" && n != "" {
		s, first = env("JOB_COMPLETION_INDEX")+"/"+n, 0
	}
	if s == "" {
		return 0, 1, nil
	}
	i, n, found := strings.Cut(s, "/")
	part, err = strconv.Atoi(i)
	if err != nil || !found {
		return 0, 0, errUsage
	}
	part -= first
	parts, err = strconv.Atoi(n)
	if err != nil || part < 0 || part >= parts {
		return 0, 0, errUsage
	}
	return part, parts, nil
}
