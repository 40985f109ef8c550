package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
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
	flags.SetOutput(errs)
	target := flags.String("out", "", "file for the answers, instead of standard output; with -from it is gone on with")
	report := flags.String("summary", "", "file for the summary, as JSON")
	from := flags.Int("from", 1, "number of the first line to answer, to go on after a break")
	part := flags.String("part", "", "i/n: answer every n-th line, beginning with the i-th; without it WETRUN_BATCH_PARTS is n, where it is set, and JOB_COMPLETION_INDEX is i, counted from 0")
	lang := languageFlag(flags)
	quiet := flags.Bool("quiet", false, "no progress and no summary on the terminal")
	if err := flags.Parse(args); err != nil {
		return errUsage
	}
	o := api.BatchOptions{From: *from, RequestID: "command-line"}
	if o.Part, o.Parts, err = partOf(*part, env); err != nil || *from < 1 {
		fmt.Fprintln(errs, "wetrun batch: -part is i/n with i from 1 to n (or WETRUN_BATCH_PARTS is n and JOB_COMPLETION_INDEX from 0 to n - 1), and -from is 1 or more")
		return errUsage
	}
	lines, size, err := openAll(flags.Args(), in)
	if err != nil {
		return err
	}
	defer lines.Close()
	if *target != "" {
		file, err := openTarget(*target, *from > 1)
		if err != nil {
			return err
		}
		defer func() { err = errors.Join(err, file.Close()) }()
		out = file
	}
	counted := &countingReader{Reader: lines}
	p := &progress{out: errs, from: counted, size: size, started: time.Now(), shown: !*quiet && terminal(errs)}
	o.Progress = p.show
	tally, err := api.RunBatch(text.In(ctx, *lang), counted, out, o)
	p.end()
	if !*quiet {
		fmt.Fprint(errs, summary(tally, time.Since(p.started)))
	}
	if *report != "" {
		err = errors.Join(err, writeSummary(*report, tally))
	}
	if err != nil {
		return fmt.Errorf("stopped after line %d (go on with -from %d): %w", tally.Line, tally.Line+1, err)
	}
	return nil
}

// partOf reads i/n, and counts the part from 0. Without it an indexed job says in
// the environment which part it is; it counts from 0 already. Otherwise all lines
// are one part.
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

// openAll opens files to be read one after the other, with their size together, or
// in when there is none or it is called -. A file that does not end its last line
// does not run into the next.
func openAll(names []string, in io.Reader) (io.ReadCloser, int64, error) {
	if len(names) == 0 {
		names = []string{"-"}
	}
	var all closers
	var readers []io.Reader
	var size int64
	for _, name := range names {
		if name == "-" {
			readers = append(readers, in, strings.NewReader("\n"))
			size = -1
			continue
		}
		file, err := os.Open(name)
		if err != nil {
			return nil, 0, errors.Join(err, all.Close())
		}
		all = append(all, file)
		readers = append(readers, &endedLines{Reader: file})
		if info, err := file.Stat(); err == nil && size >= 0 {
			size += info.Size()
		}
	}
	if size < 0 {
		readers = readers[:len(readers)-1]
	}
	return struct {
		io.Reader
		io.Closer
	}{io.MultiReader(readers...), all}, size, nil
}

type closers []io.Closer

func (c closers) Close() error {
	var errs []error
	for _, x := range c {
		errs = append(errs, x.Close())
	}
	return errors.Join(errs...)
}

// endedLines gives a line feed after the last byte, unless it is one.
type endedLines struct {
	io.Reader
	last byte
	done bool
}

func (e *endedLines) Read(b []byte) (int, error) {
	if e.done {
		return 0, io.EOF
	}
	n, err := e.Reader.Read(b)
	if n > 0 {
		e.last = b[n-1]
	}
	if err == io.EOF {
		e.done = true
		if n == 0 && e.last != 0 && e.last != '\n' {
			b[0], n = '\n', 1
		}
		if n > 0 {
			err = nil
		}
	}
	return n, err
}

// openTarget opens the file for the answers: a new one, which must not be there
// yet, or one to go on with, after its last whole line.
func openTarget(name string, resume bool) (*os.File, error) {
	if !resume {
		return os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	}
	file, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	end, err := wholeLines(file)
	if err == nil {
		err = file.Truncate(end)
	}
	if err == nil {
		_, err = file.Seek(end, io.SeekStart)
	}
	if err != nil {
		return nil, errors.Join(err, file.Close())
	}
	return file, nil
}

// wholeLines is where the last whole line of a file ends.
func wholeLines(file *os.File) (int64, error) {
	info, err := file.Stat()
	if err != nil {
		return 0, err
	}
	b := make([]byte, 64<<10)
	for end := info.Size(); end > 0; {
		start := max(0, end-int64(len(b)))
		n, err := file.ReadAt(b[:end-start], start)
		if err != nil && err != io.EOF {
			return 0, err
		}
		if i := bytes.LastIndexByte(b[:n], '\n'); i >= 0 {
			return start + int64(i) + 1, nil
		}
		end = start
	}
	return 0, nil
}

func writeSummary(name string, tally api.BatchTally) error {
	b, err := json.MarshalIndent(tally, "", "  ")
	if err != nil {
		return err
	}
	return os.WriteFile(name, append(b, '\n'), 0o644)
}
