// Command bench measures speed, memory and size, in one run:
//
//	go run ./.ci/bench -write    # everything, about three minutes
//	go run ./.ci/bench -quick    # what a busy machine cannot spoil
//
// It builds the program, runs it beside servers that do less, prints a table with ratios,
// and which goals are met. -write puts the table into testdata/bench/README.md, below the
// head there, which is written by hand: how it is measured, and why a goal is not met.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
)

var port = flag.Int("port", 18150, "the first of ten ports of this machine that are free")

func address(n int) string { return fmt.Sprintf("127.0.0.1:%d", *port+n) }

func main() {
	quick := flag.Bool("quick", false, "a few rounds only, and fail on what noise cannot spoil")
	write := flag.Bool("write", false, "write the table into "+pageFile)
	serve := flag.String("serve", "", "be one of the other servers at this address: fixed SIZE, or plain REQUEST ANSWER")
	flag.Parse()
	var err error
	if *serve != "" {
		err = rival(*serve, flag.Args())
	} else {
		err = run(*quick, *write)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(quick, write bool) error {
	folder, err := os.MkdirTemp("", "bench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	head, err := headOfPage()
	if err != nil {
		return err
	}
	program, err := build(folder)
	if err != nil {
		return err
	}
	f := &figures{quick: quick}
	if err := f.measure(program, folder); err != nil {
		return err
	}
	table := f.table()
	fmt.Print(table)
	if write {
		if err := os.WriteFile(pageFile, []byte(head+table), 0o644); err != nil {
			return err
		}
	}
	// What noise can spoil is told, not failed on.
	out, err := exec.Command("go", "test", "./api", "-count=1", "-run", "TestAllocationsOfARequest").CombinedOutput()
	os.Stderr.Write(out)
	if err == nil && bytes.Contains(out, []byte("no tests to run")) {
		err = errors.New("its test is gone")
	}
	if err != nil {
		return fmt.Errorf("the budget of allocations: %w", err)
	}
	return f.hard()
}
