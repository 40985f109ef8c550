package main

import (
	"flag"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
)

const variables = "WETRUN_"

// variableOf is the environment variable of a flag.
func variableOf(name string) string {
	return variables + strings.ToUpper(strings.ReplaceAll(name, "-", "_"))
}

// ofServices matches variables that Kubernetes and Docker add for a service or a
// container whose name begins as the settings do. They are not meant for the program.
var ofServices = regexp.MustCompile(`^WETRUN(_\w+)?_(SERVICE_(HOST|PORT(_\w+)?)=|PORT=\w+://|PORT_\d+_(TCP|UDP|SCTP)(_\w+)?=)`)

// checkVariables refuses an environment, in the form of os.Environ, with a variable
// that looks like a setting and is none, or that leaves empty what protects the
// server: either would go unnoticed, and the server would not be what was meant.
func checkVariables(environ []string) error {
	known := []string{"WETRUN_BATCH_PARTS"} // of the batch command
	_, flags := newConfig()
	flags.VisitAll(func(f *flag.Flag) { known = append(known, variableOf(f.Name)) })
	for _, each := range environ {
		name, value, _ := strings.Cut(each, "=")
		switch {
		case !strings.HasPrefix(name, variables) || ofServices.MatchString(each):
		case !slices.Contains(known, name):
			nearest := slices.MinFunc(known, func(a, b string) int {
				return levenshtein.ComputeDistance(name, a) - levenshtein.ComputeDistance(name, b)
			})
			return fmt.Errorf("%s is no setting; the nearest is %s", name, nearest)
		case value == "":
			f := flags.Lookup(strings.ToLower(strings.ReplaceAll(strings.TrimPrefix(name, variables), "_", "-")))
			if f == nil {
				continue
			}
			if file, ok := f.Value.(*fileValue); ok {
				return fmt.Errorf("%s is empty: %w", name, file.Set(value))
			}
		}
	}
	return nil
}
