package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// A suite is the tests of one package, built once, and which of them reach what.
type suite struct {
	binary, dir string
	flags       []string
	// tests are by mutant, the quick ones and the slow ones.
	quick, slow map[int][]string
	seconds     int // of a processor, after which a mutant is taken to hang
}

// slowTest is the time of a processor above which a test waits until the quick ones found nothing.
const slowTest = 60 * time.Millisecond

// properties have their seed fixed, so that a mutant's fate is the same in every
// run, and lose no time in looking for a smaller counterexample.
var properties = []string{"-rapid.seed=1", "-rapid.checks=30", "-rapid.shrinktime=1ns", "-rapid.nofailfile"}

// buildSuites builds the tests of the changed packages and of the api. They must
// pass when nothing is changed.
func buildSuites(root string, tested []string) (suites []suite, err error) {
	for _, dir := range tested {
		s := suite{binary: filepath.Join(root, filepath.Base(dir)+".test"), dir: filepath.Join(root, dir), seconds: 60}
		build := exec.Command("go", "test", "-c", "-vet=off", "-o", s.binary, "./"+dir)
		build.Dir = root
		if out, err := build.CombinedOutput(); err != nil {
			return nil, fmt.Errorf("%s: %w\n%s", dir, err, out)
		}
		if _, err := os.Stat(s.binary); err != nil {
			return nil, fmt.Errorf("%s has no tests: %w", dir, err)
		}
		help, _ := exec.Command(s.binary, "-h").CombinedOutput()
		if bytes.Contains(help, []byte("rapid.seed")) {
			s.flags = properties
		}
		all := s.command()
		if out, err := all.CombinedOutput(); err != nil {
			return nil, fmt.Errorf("%s fails although nothing is changed: %w\n%s", dir, err, out)
		}
		s.seconds = 2 + 3*int(all.ProcessState.UserTime().Seconds())
		if err := s.reach(root); err != nil {
			return nil, err
		}
		suites = append(suites, s)
	}
	return suites, nil
}

// reach runs each test alone and writes down what it reaches.
func (s *suite) reach(root string) error {
	list, err := s.command("-test.list=.*").Output()
	if err != nil {
		return err
	}
	s.quick, s.slow = map[int][]string{}, map[int][]string{}
	var lock sync.Mutex
	var wait sync.WaitGroup
	slots := make(chan bool, runtime.NumCPU())
	for line := range strings.Lines(string(list)) {
		test := strings.TrimSpace(line)
		if !regexp.MustCompile(`^(Test|Example|Fuzz)`).MatchString(test) {
			continue
		}
		wait.Go(func() {
			slots <- true
			defer func() { <-slots }()
			reached := filepath.Join(root, filepath.Base(s.dir)+"."+test)
			c := s.command("-test.run=^" + test + "$")
			c.Env = append(os.Environ(), "WETRUN_MUTANT=-1", "WETRUN_REACHED="+reached)
			_ = c.Run() // a test that counts allocations counts those of the writing too
			took := c.ProcessState.UserTime()
			b, _ := os.ReadFile(reached) // none where a test reaches nothing
			lock.Lock()
			defer lock.Unlock()
			into := s.quick
			if took > slowTest {
				into = s.slow
			}
			for row := range strings.Lines(string(b)) {
				if id, err := strconv.Atoi(strings.TrimSpace(row)); err == nil {
					into[id] = append(into[id], test)
				}
			}
		})
	}
	wait.Wait()
	return nil
}

func (s *suite) command(args ...string) *exec.Cmd {
	// A mutant that never ends is stopped by the time that it takes of a processor,
	// which does not hang on what else the machine does.
	limited := []string{"-c", fmt.Sprintf("ulimit -t %d; exec \"$@\"", s.seconds), "sh", s.binary}
	c := exec.Command("sh", slices.Concat(limited, args, s.flags)...)
	c.Dir = s.dir
	return c
}

// kills tells whether a test fails, or hangs, with the change made.
func (s *suite) kills(id int) bool {
	for _, tests := range [][]string{s.quick[id], s.slow[id]} {
		if len(tests) == 0 {
			continue
		}
		c := s.command("-test.failfast", "-test.run=^("+strings.Join(tests, "|")+")$")
		c.Env = append(os.Environ(), "WETRUN_MUTANT="+strconv.Itoa(id))
		if c.Run() != nil {
			return true
		}
	}
	return false
}
