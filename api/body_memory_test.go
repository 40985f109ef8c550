package api

import (
	"io"
	"net/http/httptest"
	"strings"
	"testing"

	"wetrun/api/operation"
)

// TestMemoryOfBodies: a body takes the room of the largest one at most, whatever length
// it says to have, and is read whole.
func TestMemoryOfBodies(t *testing.T) {
	for _, size := range []int{0, 1, usualBody - 1, usualBody, usualBody + 1, 100_000, operation.MostBody - 1, operation.MostBody, operation.MostBody + 1} {
		for _, said := range []int64{int64(size), -1} {
			req := httptest.NewRequest("POST", "/v1/ground-speed", io.LimitReader(strings.NewReader(strings.Repeat("x", size)), int64(size)))
			req.Header.Set("Content-Type", "application/json")
			req.ContentLength = said
			x := new(buffers)
			err := x.read(httptest.NewRecorder(), req)
			if (err == nil) != (size <= operation.MostBody) || err == nil && x.in.Len() != size {
				t.Errorf("%d bytes, said to be %d: %d read, %v", size, said, x.in.Len(), err)
			}
			if most := operation.MostBody + 16<<10; x.in.Cap() > most {
				t.Errorf("%d bytes take %d, want %d at most", size, x.in.Cap(), most)
			}
		}
	}
}
