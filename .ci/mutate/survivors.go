package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
)

// nameAll names every mutant by what does not change when lines move above it.
func nameAll(all []mutant, sources map[string][]string) map[int]name {
	names, seen := map[int]name{}, map[name]int{}
	for _, m := range all {
		n := name{file: m.file, text: strings.TrimSpace(sources[m.file][m.line-1]), change: m.change}
		seen[n]++
		key := n
		key.nth = seen[n]
		names[m.id] = key
	}
	return names
}

// row is the line of survivors.md that would explain a mutant.
func (n name) row() string {
	return fmt.Sprintf("| %s | `%s` | `%s` | %d | why |", n.file, strings.ReplaceAll(n.text, "|", "¦"), strings.ReplaceAll(n.change, "|", "¦"), n.nth)
}

// readExplained reads the tables of survivors.md. A bar within a cell is written as
// a broken bar.
func readExplained() (map[name]string, error) {
	b, err := os.ReadFile(".ci/mutate/survivors.md")
	if err != nil {
		return nil, err
	}
	explained := map[name]string{}
	for line := range strings.Lines(string(b)) {
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), " | ")
		if len(cells) != 5 || !strings.Contains(cells[1], "`") {
			continue
		}
		for i := range cells {
			cells[i] = strings.ReplaceAll(strings.Trim(strings.TrimSpace(cells[i]), "`"), "¦", "|")
		}
		n := name{file: cells[0], text: cells[1], change: cells[2]}
		if _, err := fmt.Sscan(cells[3], &n.nth); err != nil || cells[4] == "" || cells[4] == "why" {
			return nil, fmt.Errorf("survivors.md: not a row with a reason: %s", line)
		}
		explained[n] = cells[4]
	}
	return explained, nil
}

// current tells which rows explain a change that is no longer there.
func current(explained map[name]string, names map[int]name) error {
	there, stale := map[name]bool{}, []string{}
	for _, n := range names {
		there[n] = true
	}
	for n := range explained {
		if !there[n] {
			stale = append(stale, n.row())
		}
	}
	if len(stale) == 0 {
		return nil
	}
	slices.Sort(stale)
	return fmt.Errorf("survivors.md explains what is not there:\n%s", strings.Join(stale, "\n"))
}
