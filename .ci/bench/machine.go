package main

import (
	"fmt"
	"os"
	"strings"
)

// machine is the value of the first line of a file that begins with name.
func machine(file, name string) string {
	b, _ := os.ReadFile(file) // where it is missing, nothing is said
	for line := range strings.Lines(string(b)) {
		if key, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(key) == name {
			return strings.TrimSpace(value)
		}
	}
	return "unknown"
}

func loadAverage() string {
	b, _ := os.ReadFile("/proc/loadavg")
	one, _, _ := strings.Cut(string(b), " ")
	return one
}

func memoryOfMachine() float64 {
	var kb float64
	_, _ = fmt.Sscanf(machine("/proc/meminfo", "MemTotal"), "%f", &kb)
	return kb / 1e6
}
