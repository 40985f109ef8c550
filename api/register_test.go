package api

import (
	"cmp"

	"wetrun/api/operation"

	flags "flag"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flags.Bool("update", false, "write the register of testdata/published/README.md")

// The kinds of a worked example. One without a kind is published.
const (
	kindPublished = "published_example"
	kindCertified = "certified_value"
	kindLibrary   = "reference_library"
	kindByHand    = "by_hand"
)

// outsideKinds are the kinds of which somebody else computed the answer, in the
// order of the columns.
var outsideKinds = []string{kindPublished, kindCertified, kindLibrary}

// fewestOutside is how many outside checks an operation must have.
const fewestOutside = 3

func (c publishedCase) kind() string { return cmp.Or(c.Kind, kindPublished) }

func (c publishedCase) source() string {
	year := ""
	if c.Year != 0 {
		year = fmt.Sprintf(", %d", c.Year)
	}
	where := "Seen in a copy only"
	if c.URL != "" {
		where = "<" + strings.ReplaceAll(c.URL, " ; ", "> <") + ">"
	}
	return fmt.Sprintf("%s: %s%s. %s", c.Publisher, c.Title, year, where)
}

// checkSource: what comes from outside names its publisher and where it was read;
// what was worked by hand names neither, so that it cannot pass for published.
func (c publishedCase) checkSource() error {
	atNIST := strings.Contains(c.Publisher, "(NIST)")
	switch kind := c.kind(); {
	case c.Title == "" || c.Provenance == "" || len(c.Expect) == 0:
		return fmt.Errorf("it has no title or provenance, or expects nothing")
	case kind == kindByHand && (c.URL != "" || c.Publisher != "none"):
		return fmt.Errorf("worked by hand, it cannot have a publisher or an address")
	case kind == kindByHand:
		return nil
	case !slices.Contains(outsideKinds, kind):
		return fmt.Errorf("there is no kind %s", kind)
	case c.Publisher == "" || c.Publisher == "none":
		return fmt.Errorf("it has no publisher")
	case strings.HasPrefix(c.URL, "http") == strings.HasPrefix(c.Provenance, onlyCopy):
		return fmt.Errorf("its source has either a url, or a provenance that says %q, not both: url %q, provenance %q; what was worked by hand has the kind by_hand", onlyCopy, c.URL, c.Provenance)
	case (kind == kindCertified) != atNIST:
		return fmt.Errorf("certified values are those of NIST, and its values are certified")
	}
	return nil
}

// onlyCopy begins the provenance of what was read on a stranger's site, which is not
// linked to.
const onlyCopy = "seen in a copy only"

// copiers are sites to which strangers upload what others published.
var copiers = regexp.MustCompile(`//[a-z.]*(scribd|studocu|docslib|studylib|paperzz|moam|slideplayer|slideshare|docplayer|yumpu|dokumen|flipbuilder|pdfcoffee|coursehero|vdocuments)\.`)

// TestNoLinkToCopies: no source, text or test links to one of them.
func TestNoLinkToCopies(t *testing.T) {
	for _, root := range []string{"../calc", "../api", "../internal", "../openapi/components", "../openapi/paths", "../testdata"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			text, err := os.ReadFile(path)
			if link := copiers.Find(text); link != nil {
				t.Errorf("%s links to a copy: %s", path, link)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// workedExamples reads the examples of one operation.
func workedExamples(t *testing.T, operation string) (all []publishedCase) {
	files, err := filepath.Glob("../testdata/published/" + operation + "/*.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		var c publishedCase
		readJSON(t, file, &c)
		all = append(all, c)
	}
	return all
}

// TestEveryOperationHasOutsideChecks: what an operation answers is held against at
// least three answers that were not computed for it here.
func TestEveryOperationHasOutsideChecks(t *testing.T) {
	for _, o := range operation.All {
		outside := 0
		for _, c := range workedExamples(t, o.Name) {
			if c.kind() != kindByHand {
				outside++
			}
		}
		if outside < fewestOutside {
			t.Errorf("testdata/published/%s has %d outside checks, fewer than %d", o.Name, outside, fewestOutside)
		}
	}
}

// TestRegisterIsCurrent: the register in the README is what the examples say of
// themselves. -update writes it.
func TestRegisterIsCurrent(t *testing.T) {
	const file, start, end = "../testdata/published/README.md", "<!-- register -->\n", "<!-- end of register -->\n"
	old, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, opened := strings.Cut(string(old), start)
	_, after, closed := strings.Cut(rest, end)
	if !opened || !closed {
		t.Fatalf("%s: the marks of the register are missing", file)
	}
	current := before + start + register(t) + end + after
	if current == string(old) {
		return
	}
	if !*update {
		t.Fatal("the register is not current: go test ./api -run TestRegisterIsCurrent -update")
	}
	if err := os.WriteFile(file, []byte(current), 0o644); err != nil {
		t.Fatal(err)
	}
}

func register(t *testing.T) string {
	var rules map[string][]string
	readJSON(t, "../testdata/published/common_practice.json", &rules)
	var table, practice strings.Builder
	sources := map[[2]string]map[string]int{} // kind and source, to operation, to examples
	names := slices.SortedFunc(slices.Values(operation.All), func(a, b operation.Operation) int { return cmp.Compare(a.Name, b.Name) })
	for _, o := range names {
		counts := map[string]int{}
		for _, c := range workedExamples(t, o.Name) {
			counts[c.kind()]++
			if c.kind() == kindByHand {
				continue
			}
			key := [2]string{c.kind(), c.source()}
			if sources[key] == nil {
				sources[key] = map[string]int{}
			}
			sources[key][o.Name]++
		}
		outside := 0
		for _, kind := range outsideKinds {
			outside += counts[kind]
		}
		fmt.Fprintf(&table, "| %s | %d | %d | %d | %d | %d |\n", o.Name, outside,
			counts[kindPublished], counts[kindCertified], counts[kindLibrary], counts[kindByHand])
		list, known := rules[o.Name]
		if !known {
			t.Errorf("common_practice.json: nothing said of %s", o.Name)
		}
		fmt.Fprintf(&practice, "| %s | %s |\n", o.Name, cmp.Or(strings.Join(list, "; "), "nothing"))
		delete(rules, o.Name)
	}
	for name := range rules {
		t.Errorf("common_practice.json: there is no operation %s", name)
	}
	return "\n| operation | outside checks | published examples | certified values | reference library | worked by hand |\n" +
		"| --- | --- | --- | --- | --- | --- |\n" + table.String() +
		"\n| source | kind | checks by operation |\n| --- | --- | --- |\n" + sourceTable(sources) +
		"\n| operation | what is common practice or from memory, without a published source |\n| --- | --- |\n" + practice.String() + "\n"
}

func sourceTable(sources map[[2]string]map[string]int) string {
	var b strings.Builder
	byName := func(a, c [2]string) int { return cmp.Or(cmp.Compare(a[1], c[1]), cmp.Compare(a[0], c[0])) }
	for _, key := range slices.SortedFunc(maps.Keys(sources), byName) {
		var uses []string
		for _, name := range slices.Sorted(maps.Keys(sources[key])) {
			uses = append(uses, fmt.Sprintf("%s %d", name, sources[key][name]))
		}
		fmt.Fprintf(&b, "| %s | %s | %s |\n", key[1], strings.ReplaceAll(key[0], "_", " "), strings.Join(uses, ", "))
	}
	return b.String()
}
