// Package packed compresses what is built in or sent many times, with gzip.
package packed

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"io"
)

// Pack compresses, the same bytes each time: there is no name and no time in it.
func Pack(plain []byte) ([]byte, error) {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(plain); err != nil {
		return nil, err
	}
	err = w.Close()
	return b.Bytes(), err
}

// Reader reads what was packed, and tells how long it is: the last four bytes say so
// (RFC 1952, 2.3.1).
func Reader(packed []byte) (io.Reader, int, error) {
	r, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, 0, err
	}
	return r, int(binary.LittleEndian.Uint32(packed[len(packed)-4:])), nil
}

// Unpack is what was packed.
func Unpack(packed []byte) ([]byte, error) {
	r, _, err := Reader(packed)
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}
