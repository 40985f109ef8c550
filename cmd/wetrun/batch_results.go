package main

import (
	"encoding/json"
	"errors"
	"io"
	"os"

	"wetrun/api"
	"wetrun/internal/text"
)

// results are the files that a batch writes; nil where there is none.
type results struct{ answers, summary *os.File }

// openResults opens both before the work begins. Nothing is emptied before all of it
// is found to be in order. With resume the answers go on after those that are there.
func openResults(lang text.Language, answers, summary string, inputs []*os.File, resume bool, o api.BatchOptions) (*results, error) {
	r := new(results)
	for _, f := range []struct {
		flag, name string
		file       **os.File
	}{{"-out", answers, &r.answers}, {"-summary", summary, &r.summary}} {
		if f.name == "" {
			continue
		}
		mode := os.O_WRONLY
		if resume && f.file == &r.answers {
			mode = os.O_RDWR
		}
		file, err := os.OpenFile(f.name, mode|os.O_CREATE, 0o644)
		if err != nil {
			return nil, errors.Join(err, r.Close())
		}
		*f.file = file
		if other := sameAs(file, inputs); other != nil {
			return nil, errors.Join(said(lang, "command.same_file", f.flag, f.name, other.Name()), r.Close())
		}
		inputs = append(inputs[:len(inputs):len(inputs)], file)
	}
	err := r.clear(lang, resume, o)
	if err != nil {
		return nil, errors.Join(err, r.Close())
	}
	return r, nil
}

func (r *results) Close() error {
	var errs []error
	for _, file := range []*os.File{r.answers, r.summary} {
		if file != nil {
			errs = append(errs, file.Close())
		}
	}
	return errors.Join(errs...)
}

// sameAs is which of others is the same file; a terminal, a pipe or the null device
// loses nothing.
func sameAs(file *os.File, others []*os.File) *os.File {
	info, err := file.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return nil
	}
	for _, other := range others {
		if o, err := other.Stat(); err == nil && os.SameFile(info, o) {
			return other
		}
	}
	return nil
}

// clear takes away what was in the files, but not the answers to go on after.
func (r *results) clear(lang text.Language, resume bool, o api.BatchOptions) error {
	var end int64
	if resume && r.answers != nil {
		last, after, err := lastAnswer(lang, r.answers)
		if err == nil {
			err = follows(lang, o, last, r.answers.Name())
		}
		if err != nil {
			return err
		}
		end = after
	}
	if err := cut(r.summary, 0); err != nil {
		return err
	}
	return cut(r.answers, end)
}

func cut(file *os.File, end int64) error {
	if file == nil {
		return nil
	}
	if info, err := file.Stat(); err != nil || !info.Mode().IsRegular() {
		return err
	}
	if err := file.Truncate(end); err != nil {
		return err
	}
	_, err := file.Seek(end, io.SeekStart)
	return err
}

func writeSummary(file *os.File, tally api.BatchTally) error {
	for _, counts := range []*map[string]int{&tally.Verdicts, &tally.Kinds, &tally.Codes} {
		if *counts == nil { // of which there was none: an empty object, not null
			*counts = map[string]int{}
		}
	}
	b, err := json.MarshalIndent(tally, "", "  ")
	if err == nil {
		_, err = file.Write(append(b, '\n'))
	}
	return err
}
