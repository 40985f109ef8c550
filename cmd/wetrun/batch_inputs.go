package main

import (
	"errors"
	"io"
	"os"
)

// openAll opens files to be read one after the other, with their size together, or
// in when there is none or it is called -. A file that does not end its last line
// does not run into the next.
func openAll(names []string, in io.Reader) (*inputs, int64, error) {
	if len(names) == 0 {
		names = []string{"-"}
	}
	all := new(inputs)
	var readers []io.Reader
	var size int64
	for _, name := range names {
		if name == "-" {
			readers = append(readers, &endedLines{Reader: in})
			size = -1
			if file, ok := in.(*os.File); ok {
				all.files = append(all.files, file)
			}
			continue
		}
		file, err := os.Open(name)
		if err != nil {
			return nil, 0, errors.Join(err, all.Close())
		}
		all.files = append(all.files, file)
		readers = append(readers, &endedLines{Reader: file})
		if info, err := file.Stat(); err == nil && size >= 0 {
			size += info.Size()
		}
	}
	all.Reader = io.MultiReader(readers...)
	return all, size, nil
}

// inputs are the files that a batch reads, as one.
type inputs struct {
	io.Reader
	files []*os.File
}

func (i *inputs) Close() error {
	var errs []error
	for _, x := range i.files {
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
