// Command mutate changes each operator and each number of calc, one at a time, and
// runs the tests: a change that no test fails by is a survivor.
//
//	go run ./.ci/mutate [-sample N] [-seed S] [-only FILE] [-api=false] [-v]
//
// All changes are compiled at once into a copy of the module, each behind a number,
// so there is one build and not thousands. Which tests reach a change is found
// first, and only those run: of the packages of calc from the lowest up, then of the api.
// Survivors that survivors.md explains are equivalent: no test can tell them. It
// exits 1 when fewer than -least, 95 %, of the others are killed, a mutant that is
// explained is killed after all, or an explanation is of a change that there is not.
package main

import (
	"flag"
	"fmt"
	"log"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"
)

// packages are changed, and their tests run in this order on each of them.
var packages = []string{"calc/unit", "calc/finding", "calc/certainty", "calc"}

// least is how many of a hundred mutants have to be killed.
var least = flag.Float64("least", 95, "fail below so many of a hundred")

func main() {
	log.SetFlags(0)
	sample := flag.Int("sample", 0, "try only so many mutants, drawn by -seed; 0 for all")
	seed := flag.Uint64("seed", 1, "of the sample")
	verbose := flag.Bool("v", false, "print every mutant that is killed, too")
	api := flag.Bool("api", true, "run the tests of the api, too, on what the others leave alive")
	only := flag.String("only", "", "try only mutants of files whose names contain this")
	flag.Parse()
	if err := run(*sample, *seed, *verbose, *api, *only); err != nil {
		log.Fatal(err)
	}
}

func run(sample int, seed uint64, verbose, api bool, only string) error {
	start := time.Now()
	root, err := os.MkdirTemp("", "wetrun-mutants-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(root)
	if err := copyModule(root); err != nil {
		return err
	}
	explained, err := readExplained()
	if err != nil {
		return err
	}
	var all []mutant
	sources := map[string][]string{}
	for _, dir := range packages {
		if err := rewrite(root, dir, &all); err != nil {
			return err
		}
	}
	for _, m := range all {
		if sources[m.file] == nil {
			b, err := os.ReadFile(m.file)
			if err != nil {
				return err
			}
			sources[m.file] = strings.Split(string(b), "\n")
		}
	}
	names := nameAll(all, sources)
	if err := current(explained, names); err != nil {
		return err
	}
	tested := packages
	if api {
		tested = append(slices.Clone(packages), "api")
	}
	suites, err := buildSuites(root, tested)
	if err != nil {
		return err
	}
	fmt.Printf("%d mutants, built and reached in %.0f s\n", len(all), time.Since(start).Seconds())
	chosen := slices.DeleteFunc(slices.Clone(all), func(m mutant) bool { return !strings.Contains(m.file, only) })
	if sample > 0 && sample < len(chosen) {
		rand.New(rand.NewPCG(seed, 0)).Shuffle(len(chosen), func(i, j int) { chosen[i], chosen[j] = chosen[j], chosen[i] })
		chosen = chosen[:sample]
		slices.SortFunc(chosen, func(a, b mutant) int { return a.id - b.id })
	}
	killed := tryAll(suites, chosen)
	return report(chosen, killed, names, explained, verbose, start)
}

// copyModule copies what the tests need.
func copyModule(root string) error {
	if _, err := os.Stat("go.mod"); err != nil {
		return fmt.Errorf("run it at the top of the module: %w", err)
	}
	list, err := exec.Command("git", "ls-files", "-co", "--exclude-standard").Output()
	if err != nil {
		return err
	}
	for file := range strings.Lines(string(list)) {
		file = strings.TrimSpace(file)
		b, err := os.ReadFile(file)
		if os.IsNotExist(err) {
			continue // deleted, not committed yet
		}
		if err != nil {
			return err
		}
		to := filepath.Join(root, file)
		if err := os.MkdirAll(filepath.Dir(to), 0o700); err != nil {
			return err
		}
		if err := os.WriteFile(to, b, 0o600); err != nil {
			return err
		}
	}
	return nil
}

// tryAll finds which mutants are killed, by number.
func tryAll(suites []suite, chosen []mutant) map[int]bool {
	killed := map[int]bool{}
	var lock sync.Mutex
	var wait sync.WaitGroup
	work := make(chan mutant)
	for range runtime.NumCPU() {
		wait.Go(func() {
			for m := range work {
				dead := slices.ContainsFunc(suites, func(s suite) bool { return s.kills(m.id) })
				lock.Lock()
				killed[m.id] = dead
				if !dead {
					fmt.Fprintf(os.Stderr, "alive: %v (%d of %d tried)\n", m, len(killed), len(chosen))
				}
				lock.Unlock()
			}
		})
	}
	for _, m := range chosen {
		work <- m
	}
	close(work)
	wait.Wait()
	return killed
}

func report(chosen []mutant, killed map[int]bool, names map[int]name, explained map[name]string, verbose bool, start time.Time) error {
	type count struct{ killed, equivalent, survived int }
	files := map[string]*count{}
	var total count
	wrong := 0
	for _, m := range chosen {
		c := files[m.file]
		if c == nil {
			c = &count{}
			files[m.file] = c
		}
		reason, known := explained[names[m.id]]
		switch {
		case killed[m.id]:
			c.killed++
			total.killed++
			if known {
				wrong++
				fmt.Printf("explained as equivalent, but killed: %v\n", m)
			}
			if verbose {
				fmt.Printf("killed: %v\n", m)
			}
		case known:
			c.equivalent++
			total.equivalent++
			if verbose {
				fmt.Printf("equivalent: %v: %s\n", m, reason)
			}
		default:
			c.survived++
			total.survived++
			fmt.Printf("SURVIVED: %v\n%s\n", m, names[m.id].row())
		}
	}
	fmt.Printf("\n%-34s %7s %11s %9s\n", "file", "killed", "equivalent", "survived")
	for _, file := range slices.Sorted(maps.Keys(files)) {
		c := files[file]
		fmt.Printf("%-34s %7d %11d %9d\n", file, c.killed, c.equivalent, c.survived)
	}
	percent := 100 * float64(total.killed) / float64(max(total.killed+total.survived, 1))
	fmt.Printf("%-34s %7d %11d %9d\n\n%.1f %% killed of those that are not equivalent, in %.0f s\n", "all",
		total.killed, total.equivalent, total.survived, percent, time.Since(start).Seconds())
	if percent < *least || wrong > 0 || total.killed == 0 {
		return fmt.Errorf("fewer than %g %% are killed, or an explanation is wrong", *least)
	}
	return nil
}
