// Package reload keeps what files say, and reads them again when they change.
package reload

import (
	"log/slog"
	"os"
	"sync"
	"sync/atomic"
	"time"
)

// interval is how often files are looked at, at most. A look is a stat of each.
const interval = time.Second

// A Value is what load made of some files, last time that it could. It looks for
// changes when it is asked, so it needs no goroutine.
type Value[T any] struct {
	load  func() (T, error)
	files []string
	log   *slog.Logger

	current atomic.Pointer[T]
	next    atomic.Int64 // when to look again, in nanoseconds since 1970

	mutex  sync.Mutex // held while looking
	stamps []os.FileInfo
	failed string
}

// New loads the files for the first time. Errors of later times go to the log, and
// the value stays what it was.
func New[T any](log *slog.Logger, load func() (T, error), files ...string) (*Value[T], error) {
	v := &Value[T]{load: load, files: files, log: log}
	stamps, err := stat(files)
	if err != nil {
		return nil, err
	}
	now, err := load()
	if err != nil {
		return nil, err
	}
	v.current.Store(&now)
	v.stamps = stamps
	v.next.Store(time.Now().Add(interval).UnixNano())
	return v, nil
}

// Get returns the value, a second old at most.
func (v *Value[T]) Get() T {
	if time.Now().UnixNano() >= v.next.Load() && v.mutex.TryLock() {
		v.look()
		v.next.Store(time.Now().Add(interval).UnixNano())
		v.mutex.Unlock()
	}
	return *v.current.Load()
}

// look loads the files again if one has changed. After an error it tries again the
// next time: of two files that belong together one may still be the old one.
func (v *Value[T]) look() {
	stamps, err := stat(v.files)
	if err == nil && same(stamps, v.stamps) {
		return
	}
	var now T
	if err == nil {
		now, err = v.load()
	}
	if err != nil {
		if v.failed != err.Error() {
			v.failed = err.Error()
			v.log.Error("a changed file cannot be used; what it said before still holds", "error", err)
		}
		return
	}
	v.current.Store(&now)
	v.stamps, v.failed = stamps, ""
	v.log.Info("read again what has changed", "files", v.files)
}

func stat(files []string) (stamps []os.FileInfo, err error) {
	for _, f := range files {
		info, err := os.Stat(f)
		if err != nil {
			return nil, err
		}
		stamps = append(stamps, info)
	}
	return stamps, nil
}

func same(a, b []os.FileInfo) bool {
	for i := range a {
		if !a[i].ModTime().Equal(b[i].ModTime()) || a[i].Size() != b[i].Size() || !os.SameFile(a[i], b[i]) {
			return false
		}
	}
	return true
}
