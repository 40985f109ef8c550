package packed_test

import (
	"bytes"
	"io"
	"testing"

	"pgregory.net/rapid"

	"wetrun/internal/packed"
)

// TestPropertyPacked: what was packed comes back, and packing makes the same bytes each
// time, so that what is committed changes only with what it holds. What was cut is an
// error.
func TestPropertyPacked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plain := rapid.SliceOfN(rapid.Byte(), 0, 4000).Draw(t, "plain")
		one, err := packed.Pack(plain)
		if err != nil {
			t.Fatal(err)
		}
		if two, _ := packed.Pack(plain); !bytes.Equal(one, two) {
			t.Fatal("packed again it has other bytes")
		}
		if got, err := packed.Unpack(one); err != nil || !bytes.Equal(got, plain) {
			t.Fatalf("%v: %d bytes of %d came back", err, len(got), len(plain))
		}
		again, length, err := packed.Reader(one)
		if err != nil || length != len(plain) {
			t.Fatalf("%v: %d bytes are said to be %d", err, len(plain), length)
		}
		if got, err := io.ReadAll(again); err != nil || !bytes.Equal(got, plain) {
			t.Fatalf("%v: %d bytes of %d were read", err, len(got), len(plain))
		}
		cut := rapid.IntRange(0, len(one)-1).Draw(t, "cut")
		if _, err := packed.Unpack(one[:cut]); err == nil {
			t.Fatalf("%d bytes of %d are taken", cut, len(one))
		}
	})
}
