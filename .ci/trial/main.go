// Command trial simulates sprayers whose truth is known, measured with a crew's errors, and
// scores what the program decides of each field sheet:
//
//	go run ./.ci/trial -sheets 20000 -seed 1
//	go run ./.ci/trial -kind "one worn" -show 3    # sheets that went wrong, with their truth
//
// It knows the truth, never the program's rules. The same seed draws the same sheets. It fails
// when a bound is broken, or a sheet is refused. -write puts the table into testdata/trial.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"runtime"
	"strings"
	"sync"

	"wetrun/api/operation"
)

func main() {
	sheets := flag.Int("sheets", 20000, "how many sheets")
	seed := flag.Uint64("seed", 1, "of the chance")
	name := flag.String("kind", "", "only kinds whose name holds this")
	show := flag.Int("show", 0, "print so many sheets of each kind that went wrong")
	write := flag.Bool("write", false, "write the table into "+pageFile)
	flag.Parse()
	if err := trials(*sheets, *seed, *name, *show, *write); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func trials(sheets int, seed uint64, name string, show int, write bool) error {
	var from []*kind
	for _, k := range kinds() {
		if strings.Contains(k.name, name) {
			from = append(from, k)
		}
	}
	if len(from) == 0 {
		return fmt.Errorf("no kind is called %q", name)
	}
	outcomes, err := runAll(sheets, seed, from)
	if err != nil {
		return err
	}
	b := count(from, outcomes)
	table := b.table()
	fmt.Print(table)
	if show > 0 {
		shown(os.Stdout, seed, from, outcomes, show)
	}
	if write {
		if err := os.WriteFile(pageFile, []byte(page(sheets, seed, table)), 0o644); err != nil {
			return err
		}
	}
	return b.broken()
}

// An outcome is what came of one sheet.
type outcome struct {
	kind    *kind
	refused string
	verdict string
	score   *score
}

// runAll tries all sheets, on all cores.
func runAll(sheets int, seed uint64, from []*kind) ([]outcome, error) {
	outcomes := make([]outcome, sheets)
	failed := make([]error, runtime.NumCPU())
	var wait sync.WaitGroup
	for w := range failed {
		wait.Go(func() {
			var out bytes.Buffer
			for i := w; i < sheets && failed[w] == nil; i += len(failed) {
				outcomes[i], failed[w] = tryOne(seed, uint64(i), from, &out)
			}
		})
	}
	wait.Wait()
	return outcomes, errors.Join(failed...)
}

var calibrations = operation.Named("calibrations")

func tryOne(seed, sheet uint64, from []*kind, out *bytes.Buffer) (outcome, error) {
	d := drawOf(seed, sheet)
	k := drawKind(d, from)
	t := k.run(d)
	a, refused, err := ask(calibrations, &t.s, out)
	if err != nil || a == nil {
		return outcome{kind: k, refused: refused}, err
	}
	return outcome{kind: k, verdict: a.Verdict, score: judge(t, a)}, nil
}
