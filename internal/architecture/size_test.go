package architecture

import (
	"bytes"
	"os"
	"path"
	"path/filepath"
	"testing"
)

// How large the program may be. What passes a bound is divided, or something is deleted.
const (
	mostLinesOfFile    = 400
	mostLinesOfPackage = 5000 // api/operation and calc have one family of files for each operation
	mostFilesOfPackage = 60
	mostLines          = 32_500 // with the first 17 operations
	mostOfJudgement    = 4_300  // what a sheet is judged by: entries, evidence, remedies, plans that keep every limit
	mostOfCrew         = 700    // what a crew is told: cautions by the place of work, who and what on the record, two languages of the command
	mostLinesOfOne     = 300    // of each operation beyond them
)

func TestSizes(t *testing.T) {
	lines, files, all := map[string]int{}, map[string]int{}, 0
	for _, f := range goFiles(t) {
		body, err := os.ReadFile(filepath.Join(root, f))
		if err != nil {
			t.Fatal(err)
		}
		n := bytes.Count(body, []byte{'\n'})
		if n > mostLinesOfFile {
			t.Errorf("%s has %d lines, more than %d: divide it", f, n, mostLinesOfFile)
		}
		lines[path.Dir(f)] += n
		files[path.Dir(f)]++
		all += n
	}
	for p, n := range lines {
		if p != "api/operation" && p != "calc" && (n > mostLinesOfPackage || files[p] > mostFilesOfPackage) {
			t.Errorf("%s has %d lines in %d files: divide it by what its parts know", p, n, files[p])
		}
	}
	routes, err := os.ReadFile(filepath.Join(root, "api/operation/routes.go"))
	if err != nil {
		t.Fatal(err)
	}
	most := mostLines + mostOfJudgement + mostOfCrew + mostLinesOfOne*(bytes.Count(routes, []byte("\tcalculation("))-17)
	if all > most {
		t.Errorf("the program has %d lines without tests, more than %d: delete something", all, most)
	}
	t.Logf("%d lines without tests", all)
}
