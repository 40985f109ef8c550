package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strconv"

	"wetrun/api"
	"wetrun/internal/text"
)

// follows tells whether a batch goes on right after the last line answered, 0 when
// there is none. Between it and the next line of a part are those of other parts.
func follows(lang text.Language, o api.BatchOptions, last int, name string) error {
	parts, answered, next := max(o.Parts, 1), strconv.Itoa(last), strconv.Itoa(last+1)
	switch {
	case last == 0:
		return nil
	case (last-1)%parts != o.Part:
		return said(lang, "command.other_part", name, answered, fmt.Sprintf("%d/%d", o.Part+1, parts))
	case o.From <= last:
		return said(lang, "command.repeats", name, answered, next)
	case o.From > last+parts:
		return said(lang, "command.gap", name, answered, next)
	}
	return nil
}

// lastAnswer is the line of the last whole answer in a file, 0 when there is none,
// and where that answer ends. That the stream broke off is no answer to a line.
func lastAnswer(lang text.Language, file *os.File) (line int, end int64, err error) {
	info, err := file.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return 0, 0, err
	}
	end, err = wholeLines(file, info.Size())
	for err == nil && end > 0 {
		var start int64
		if start, err = wholeLines(file, end-1); err != nil {
			break
		}
		b := make([]byte, end-start)
		if _, err = file.ReadAt(b, start); err != nil {
			break
		}
		var a struct {
			Line    int
			Problem struct{ Type string }
		}
		if json.Unmarshal(b, &a) != nil || a.Line < 1 {
			return 0, 0, said(lang, "command.no_answers", file.Name())
		}
		if a.Problem.Type != "/problems/broken_stream" {
			return a.Line, end, nil
		}
		end = start
	}
	return 0, 0, err
}

// wholeLines is where the last line feed before end leaves off.
func wholeLines(file *os.File, end int64) (int64, error) {
	b := make([]byte, 64<<10)
	for end > 0 {
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
